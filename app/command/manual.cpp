#include "app/command/manual.hpp"

#include <sstream>

namespace evenpull {
namespace {

// What roff would take for a command of its own: a stroke, a backslash, a dot or quote at the beginning of a line.
std::string roff(const std::string& text) {
  std::string out;
  bool begins = true;
  for (const char c : text) {
    if (begins && (c == '.' || c == '\'')) out += "\\&";
    if (c == '\\') out += "\\e";
    else if (c == '-') out += "\\-";
    else out += c;
    begins = c == '\n';
  }
  return out;
}

std::string shown_names(const OptionWords& o) {
  std::string text;
  for (const std::string& name : o.names) text += (text.empty() ? "\\fB" : ", \\fB") + roff(name) + "\\fR";
  return o.value.empty() || o.positional ? text : text + " \\fI" + roff(o.value) + "\\fR";
}

void add_options(std::ostream& page, const std::vector<OptionWords>& options) {
  for (const OptionWords& o : options) page << ".TP\n" << shown_names(o) << '\n' << roff(o.what) << '\n';
}

std::string synopsis(const JobWords& job) {
  std::string text = "\\fBevenpull " + job.name + "\\fR";
  for (const OptionWords& o : job.options)
    if (!o.positional && o.required) text += " " + shown_names(o);
  text += " [\\fIoptions\\fR]";
  for (const OptionWords& o : job.options)
    if (o.positional) text += o.required ? " \\fI" + o.names.front() + "\\fR" : " [\\fI" + o.names.front() + "\\fR]";
  return text;
}

// A word in single quotes, for a shell.
std::string quoted_for_shell(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& w : words) text += (text.empty() ? "" : " ") + w;
  return text;
}

std::string names_of_jobs(const CommandWords& words) {
  std::vector<std::string> names;
  for (const JobWords& job : words.jobs) names.push_back(job.name);
  return joined(names);
}

bool is_folder(const OptionWords& o) { return o.value == "DIR"; }
bool is_file(const OptionWords& o) { return o.value == "FILE" || (o.positional && o.names.front() == "CASE"); }

// For zsh, the words beside an option: colons and brackets part them.
std::string in_zsh_brackets(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == ':' || c == '[' || c == ']' ? std::string("\\") + c : std::string(1, c);
  return out;
}

std::string zsh_values(const OptionWords& o) {
  if (!o.choices.empty()) return "(" + joined(o.choices) + ")";
  if (is_folder(o)) return "_files -/";
  return is_file(o) ? "_files -g \"*.toml\"" : "";
}

}  // namespace

std::string manual_page(const CommandWords& words, const std::string& version) {
  std::ostringstream page;
  page << ".TH EVENPULL 1 \"\" \"evenpull " << roff(version) << "\" \"User commands\"\n"
       << ".SH NAME\nevenpull \\- plans how to tauten heat\\-shrink cloth on a light frame so that the frame stays "
          "true\n"
       << ".SH SYNOPSIS\n";
  for (std::size_t i = 0; i < words.jobs.size(); ++i) page << (i > 0 ? ".br\n" : "") << synopsis(words.jobs[i]) << '\n';
  page << ".SH DESCRIPTION\n";
  std::istringstream paragraphs(words.what_it_is);
  for (std::string line; std::getline(paragraphs, line);) page << (line.empty() ? ".PP" : roff(line)) << '\n';
  page << ".SH OPTIONS\n";
  add_options(page, words.options);
  page << ".SH JOBS\n";
  for (const JobWords& job : words.jobs) {
    page << ".SS " << job.name << '\n' << roff(job.what) << ".\n";
    add_options(page, job.options);
  }
  page << ".SH EXAMPLES AND EXIT CODES\n.nf\n" << roff(words.how_to_begin) << "\n.fi\n";
  return page.str();
}

std::string bash_completion(const CommandWords& words) {
  std::ostringstream out;
  out << "# Completion of evenpull for bash.\n"
      << "_evenpull() {\n"
      << "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} job=${COMP_WORDS[1]}\n"
      << "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
      << "    COMPREPLY=($(compgen -W " << quoted_for_shell(names_of_jobs(words) + " --help --version")
      << " -- \"$word\"))\n"
      << "    return\n  fi\n"
      << "  case \"$job $before\" in\n";
  for (const JobWords& job : words.jobs)
    for (const OptionWords& o : job.options) {
      if (o.positional || o.value.empty()) continue;
      const std::string pattern = "    '" + job.name + " " + o.names.back() + "') ";
      if (!o.choices.empty())
        out << pattern << "COMPREPLY=($(compgen -W " << quoted_for_shell(joined(o.choices))
            << " -- \"$word\")); return ;;\n";
      else if (is_folder(o)) out << pattern << "COMPREPLY=($(compgen -d -- \"$word\")); return ;;\n";
      else if (is_file(o)) out << pattern << "COMPREPLY=($(compgen -f -- \"$word\")); return ;;\n";
      else out << pattern << "COMPREPLY=(); return ;;\n";
    }
  out << "  esac\n  case \"$word\" in\n    -*)\n      case \"$job\" in\n";
  for (const JobWords& job : words.jobs) {
    std::vector<std::string> names;
    for (const OptionWords& o : job.options)
      if (!o.positional) names.insert(names.end(), o.names.begin(), o.names.end());
    out << "        " << job.name << ") COMPREPLY=($(compgen -W " << quoted_for_shell(joined(names))
        << " -- \"$word\")) ;;\n";
  }
  out << "      esac ;;\n    *) COMPREPLY=($(compgen -f -- \"$word\")) ;;\n  esac\n}\n"
      << "complete -o filenames -F _evenpull evenpull\n";
  return out.str();
}

std::string zsh_completion(const CommandWords& words) {
  std::ostringstream out;
  out << "#compdef evenpull\n# Completion of evenpull for zsh.\n_evenpull() {\n  local -a jobs=(\n";
  for (const JobWords& job : words.jobs)
    out << "    " << quoted_for_shell(job.name + ":" + in_zsh_brackets(job.what)) << '\n';
  out << "  )\n  if (( CURRENT == 2 )); then\n    _describe job jobs\n    return\n  fi\n  case $words[2] in\n";
  for (const JobWords& job : words.jobs) {
    out << "    " << job.name << ")\n      shift words; (( CURRENT-- ))\n      _arguments";
    for (const OptionWords& o : job.options) {
      if (o.positional) {
        out << " \\\n        " << quoted_for_shell("1:" + o.names.front() + ":" + zsh_values(o));
        continue;
      }
      for (const std::string& name : o.names)
        out << " \\\n        "
            << quoted_for_shell(name + "[" + in_zsh_brackets(o.what) + "]" +
                                (o.value.empty() ? "" : ":" + o.value + ":" + zsh_values(o)));
    }
    out << " ;;\n";
  }
  out << "  esac\n}\n_evenpull \"$@\"\n";
  return out.str();
}

std::string fish_completion(const CommandWords& words) {
  std::ostringstream out;
  out << "# Completion of evenpull for fish.\n";
  for (const JobWords& job : words.jobs)
    out << "complete -c evenpull -n __fish_use_subcommand -f -a " << job.name << " -d " << quoted_for_shell(job.what)
        << '\n';
  for (const JobWords& job : words.jobs)
    for (const OptionWords& o : job.options) {
      if (o.positional) continue;
      out << "complete -c evenpull -n '__fish_seen_subcommand_from " << job.name << "'";
      for (const std::string& name : o.names)
        out << (name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1));
      if (!o.choices.empty()) out << " -x -a " << quoted_for_shell(joined(o.choices));
      else if (is_folder(o)) out << " -x -a '(__fish_complete_directories)'";
      else if (is_file(o)) out << " -r";
      else if (!o.value.empty()) out << " -x";
      out << " -d " << quoted_for_shell(o.what) << '\n';
    }
  return out.str();
}

}  // namespace evenpull
