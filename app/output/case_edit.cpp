#include "app/output/case_edit.hpp"

#include "app/output/toml_lines.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace evenpull {
namespace {

using Path = std::vector<std::string>;
using Statements = std::vector<TomlStatement>;

std::string line_end_of(const std::string& text) {
  const auto all = std::count(text.begin(), text.end(), '\n');
  std::ptrdiff_t with_return = 0;
  for (std::size_t at = 0; (at = text.find("\r\n", at)) != std::string::npos; at += 2) ++with_return;
  return with_return * 2 > all ? "\r\n" : "\n";
}

std::string with_line_ends(const std::string& lines, const std::string& end) {
  std::string out;
  for (const char c : lines) out += c == '\n' ? end : std::string(1, c);
  return out;
}

// { ... } that holds the path, or holds what would: only a person can change that.
void refuse_inline(const std::string& text, const Statements& statements, const Path& path, const std::string& name) {
  for (const TomlStatement& s : statements) {
    if (s.kind != TomlStatement::Kind::pair || text[s.value_begin] != '{') continue;
    if (const Path own = s.path(); own.size() < path.size() && begins_with(path, own))
      throw CannotEdit(
          fmt::format("states [{}] within braces, {} = {{ ... }}, which this program does not change; write "
                      "it as a table of its own",
                      name, own.back()));
  }
}

// Puts whole lines at a place between lines.
void insert_lines(std::string& text, std::size_t at, std::string lines) {
  const std::string end = line_end_of(text);
  lines = with_line_ends(lines, end);
  if (at > 0 && at == text.size() && text.back() != '\n') lines = end + lines;
  text.insert(at, lines);
}

// Behind a table and what is part of it; comments right above the next header and the blank lines before are the
// next's.
std::size_t end_of_table(const Statements& statements, std::size_t last) {
  std::size_t next = last + 1;
  while (next < statements.size() && !statements[next].is_header()) ++next;
  if (next == statements.size()) return statements.back().end;
  std::size_t i = next;
  while (i > last + 1 && statements[i - 1].kind == TomlStatement::Kind::comment) --i;
  // No blank line above those comments: they may be the table's own, and stay with it.
  if (i == last + 1 || statements[i - 1].kind != TomlStatement::Kind::blank) i = next;
  while (i > last + 1 && statements[i - 1].kind == TomlStatement::Kind::blank) --i;
  return i > 0 ? statements[i - 1].end : 0;
}

std::optional<std::size_t> last_of(const Statements& statements, const Path& table) {
  std::optional<std::size_t> last;
  for (std::size_t i = 0; i < statements.size(); ++i)
    if (statements[i].kind != TomlStatement::Kind::blank && statements[i].kind != TomlStatement::Kind::comment &&
        begins_with(statements[i].path(), table) && !statements[i].table.empty())
      last = i;
  return last;
}

struct Cut {
  std::size_t begin, end;
};

bool blank_between(const Statements& statements, std::size_t from, std::size_t to) {
  return std::all_of(statements.begin(), statements.end(), [&](const TomlStatement& s) {
    return s.begin < from || s.end > to || s.kind == TomlStatement::Kind::blank;
  });
}

// What goes of the tables of that name: each from its header to its last key, keys that state it within another table,
// and blank lines between two that go.
std::vector<Cut> cuts_of(const Statements& statements, const Path& path) {
  std::vector<Cut> cuts;
  bool within = false;
  for (const TomlStatement& s : statements) {
    if (s.is_header()) within = begins_with(s.table, path);
    const bool goes = s.is_header() ? within : s.kind == TomlStatement::Kind::pair && begins_with(s.path(), path);
    if (!goes) continue;
    const bool joined = within && !s.is_header() && !cuts.empty();
    if (joined || (!cuts.empty() && blank_between(statements, cuts.back().end, s.begin))) cuts.back().end = s.end;
    else cuts.push_back({s.begin, s.end});
  }
  return cuts;
}

void replace_tables(std::string& text, const CaseEdit& edit) {
  const Statements statements = toml_statements(text);
  const Path path = dotted(edit.table);
  refuse_inline(text, statements, path, edit.table);
  const auto cuts = cuts_of(statements, path);
  const bool by_header = std::any_of(statements.begin(), statements.end(), [&](const TomlStatement& s) {
    return s.is_header() && begins_with(s.table, path);
  });
  if (!cuts.empty() && by_header) {
    const std::size_t at = cuts.front().begin;
    const bool last_line_open = cuts.back().end == text.size() && text.back() != '\n';
    for (auto c = cuts.rbegin(); c != cuts.rend(); ++c) text.erase(c->begin, c->end - c->begin);
    insert_lines(text, at, edit.value);
    if (last_line_open && text.back() == '\n') text.pop_back();
    return;
  }
  for (auto c = cuts.rbegin(); c != cuts.rend(); ++c) text.erase(c->begin, c->end - c->begin);
  const Statements left = toml_statements(text);
  const auto parent = last_of(left, {path.begin(), path.end() - 1});
  if (parent) insert_lines(text, end_of_table(left, *parent), "\n" + edit.value);
  else insert_lines(text, text.size(), (text.empty() ? "" : "\n") + edit.value);
}

void add_table(std::string& text, const CaseEdit& edit) {
  refuse_inline(text, toml_statements(text), dotted(edit.table), edit.table);
  insert_lines(text, text.size(), (text.empty() ? "" : "\n") + edit.value);
}

void set_key(std::string& text, const CaseEdit& edit) {
  const Statements statements = toml_statements(text);
  Path path = dotted(edit.table);
  const Path table = path;
  path.push_back(edit.key);
  refuse_inline(text, statements, path, edit.table);
  const TomlStatement* behind = nullptr;
  bool opened = false, as_dots = false;
  for (const TomlStatement& s : statements) {
    if (s.kind == TomlStatement::Kind::list_header && s.table == table)
      throw CannotEdit(
          fmt::format("has a list [[{}]], in which this program does not know the one to change; set {} in it "
                      "by hand",
                      edit.table, edit.key));
    if (s.kind == TomlStatement::Kind::pair && s.path() == path) {
      text.replace(s.value_begin, s.value_end - s.value_begin, edit.value);
      return;
    }
    if (s.kind == TomlStatement::Kind::header && s.table == table) behind = &s, opened = true, as_dots = false;
    if (s.kind == TomlStatement::Kind::pair && s.table == table) behind = &s;
    if (!opened && s.kind == TomlStatement::Kind::pair && s.table != table && begins_with(s.path(), table))
      behind = &s, as_dots = true;
  }
  const std::string note = edit.note.empty() ? "" : "  # " + edit.note;
  std::string line = edit.key + " = " + edit.value + note + "\n";
  if (as_dots) {
    std::string rest;
    for (std::size_t i = behind->table.size(); i < table.size(); ++i) rest += table[i] + ".";
    line = rest + line;
  }
  if (behind) insert_lines(text, behind->end, line);
  else insert_lines(text, text.size(), (text.empty() ? "" : "\n") + ("[" + edit.table + "]\n") + line);
}

void remove_key(std::string& text, const CaseEdit& edit) {
  const Statements statements = toml_statements(text);
  Path path = dotted(edit.table);
  path.push_back(edit.key);
  refuse_inline(text, statements, path, edit.table);
  for (auto s = statements.rbegin(); s != statements.rend(); ++s)
    if (s->kind == TomlStatement::Kind::pair && s->path() == path) text.erase(s->begin, s->end - s->begin);
}

}  // namespace

std::string edited_case(std::string text, const std::vector<CaseEdit>& edits) {
  for (const CaseEdit& edit : edits) switch (edit.kind) {
      case CaseEdit::Kind::set_key: set_key(text, edit); break;
      case CaseEdit::Kind::remove_key: remove_key(text, edit); break;
      case CaseEdit::Kind::add_table: add_table(text, edit); break;
      case CaseEdit::Kind::replace_tables: replace_tables(text, edit); break;
    }
  return text;
}

}  // namespace evenpull
