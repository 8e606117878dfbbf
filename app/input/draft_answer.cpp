#include "app/input/draft_answer.hpp"

#include "app/input/case_table.hpp"
#include "app/input/document.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/draft_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace evenpull {
namespace {

Quantity quantity_of(Measure m) {
  switch (m) {
    case Measure::area_mass: return Quantity::area_mass;
    case Measure::swing: return Quantity::temperature_difference;
    case Measure::stress: return Quantity::stress;
    case Measure::length:
    case Measure::none: break;
  }
  return Quantity::length;
}

std::string without_spaces_around(std::string text) {
  text.erase(0, std::min(text.size(), text.find_first_not_of(" \t\r")));
  text.erase(text.find_last_not_of(" \t\r") + 1);
  return text;
}

std::string usual_text(const DraftQuestion& q, const DraftAnswers& before) {
  return viz::answer_text(q, usual_answer(q, before));
}

[[noreturn]] void no_answer(const DraftQuestion& q, const std::string& text, const std::string& why,
                            const DraftAnswers& before) {
  throw DraftAnswerError(q.ask, fmt::format("{} {}; usual is {}", in_quotes(text), why, usual_text(q, before)));
}

int chosen(const DraftQuestion& q, const std::string& text, const std::vector<int>& values,
           const DraftAnswers& before) {
  const std::string word = plain_word(text);
  std::vector<std::string> words;
  for (std::size_t i = 0; i < values.size(); ++i) {
    words.push_back(viz::choice_word(q.ask, values[i]));
    if (plain_word(words.back()) == word || word == std::to_string(i + 1)) return values[i];
  }
  const auto guess = nearest(word, words);
  no_answer(
      q, text,
      fmt::format("is not one of {}{}", list_words(words), guess.empty() ? "" : "; did you mean \"" + guess + "\"?"),
      before);
}

int yes_or_no(const DraftQuestion& q, const std::string& text, const DraftAnswers& before) {
  const std::string word = plain_word(text);
  if (word == "yes" || word == "y") return draft_yes;
  if (word == "no" || word == "n") return draft_no;
  no_answer(q, text, "is neither yes nor no", before);
}

int whole_of(const DraftQuestion& q, const std::string& text, const DraftAnswers& before) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || value < q.least || value > q.most)
    no_answer(q, text, fmt::format("must be a whole number from {:.0f} to {:.0f}", q.least, q.most), before);
  return value;
}

GivenSize given_size_of(const DraftQuestion& q, const std::string& text, double least, double most,
                        const DraftAnswers& before, const Units& units) {
  const Quantity kind = quantity_of(q.measure);
  GivenSize s;
  try {
    s = {units.parse(text, kind), text};
  } catch (const UnitError& e) {
    no_answer(q, text, e.what(), before);
  }
  if (s.value < least || s.value > most)
    no_answer(q, text, fmt::format("makes no sense here: it may be {}", print_bounds(kind, least, most)), before);
  return s;
}

/// Parted by ", " or ";": a comma within a number is a slip of its own. A bare number has the unit of the next that
/// has one.
std::vector<std::string> parts_of(const std::string& text) {
  std::vector<std::string> parts{""};
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool comma = text[i] == ',' && (i + 1 == text.size() || text[i + 1] == ' ');
    if (comma || text[i] == ';') parts.emplace_back();
    else parts.back() += text[i];
  }
  for (std::string& p : parts) p = without_spaces_around(p);
  if (parts.size() > 1 && parts.back().empty()) parts.pop_back();
  std::string unit;
  for (auto p = parts.rbegin(); p != parts.rend(); ++p) {
    const auto at = p->find_last_of("0123456789.");
    if (at == std::string::npos) continue;
    const std::string own = without_spaces_around(p->substr(at + 1));
    if (own.empty() && !unit.empty()) *p += " " + unit;
    else unit = own;
  }
  return parts;
}

constexpr double farthest = 8;  // m, as the reader of a case has it of stations

std::vector<GivenSize> given_lengths_of(const DraftQuestion& q, const std::string& text, const DraftAnswers& before,
                                        const Units& units) {
  std::vector<GivenSize> out;
  for (const std::string& part : parts_of(text)) out.push_back(given_size_of(q, part, 0, farthest, before, units));
  if (static_cast<double>(out.size()) < q.least || static_cast<double>(out.size()) > q.most)
    no_answer(q, text, fmt::format("lists {}; from {:.0f} to {:.0f} may be listed", out.size(), q.least, q.most),
              before);
  return out;
}

}  // namespace

DraftAnswer read_draft_answer(const DraftQuestion& q, const std::string& typed, const DraftAnswers& before,
                              const Units& units) {
  const std::string text = without_spaces_around(typed);
  if (plain_word(text) == "usual") return usual_answer(q, before);
  DraftAnswer a;
  switch (q.answer) {
    case AnswerKind::words: a.value = chosen(q, text, choices_of(q, before), before); break;
    case AnswerKind::yes_no: a.value = yes_or_no(q, text, before); break;
    case AnswerKind::whole: a.value = whole_of(q, text, before); break;
    case AnswerKind::quantity: a.sizes = {given_size_of(q, text, q.least, q.most, before, units)}; break;
    case AnswerKind::lengths: a.sizes = given_lengths_of(q, text, before, units); break;
  }
  return a;
}

namespace {

void put(const DraftQuestion& q, DraftAnswer answer, DraftAnswers& answers) {
  DraftAnswers tried = answers;
  tried.set(q.ask, std::move(answer));
  if (const auto trouble = trouble_with(q.ask, tried)) throw DraftAnswerError(q.ask, viz::clash_text(*trouble, tried));
  answers = std::move(tried);
}

std::string name_in(const NamedAnswer& n, const DraftAnswers& answers) {
  const DraftKind kind = answers.find(Ask::kind) ? answers.kind() : DraftKind::steel_tube;
  const std::string id = viz::ask_words(n.ask, kind).id;
  return id.empty() ? n.as_given : id;
}

}  // namespace

void take_draft_answer(const DraftQuestion& q, const std::string& text, DraftAnswers& answers, const Units& units) {
  put(q, read_draft_answer(q, text, answers, units), answers);
}

void take_usual_answer(const DraftQuestion& q, DraftAnswers& answers) { put(q, usual_answer(q, answers), answers); }

NamedAnswer named_answer_of(const std::string& text, const std::string& source, int line) {
  const auto equals = text.find('=');
  const std::string id = without_spaces_around(text.substr(0, equals));
  if (equals == std::string::npos || without_spaces_around(text.substr(equals + 1)).empty())
    throw CaseFileError(source, {line, 0}, "",
                        fmt::format("{} is no answer; write it like \"span = 60 in\"; `evenpull draft --questions` "
                                    "lists what is asked",
                                    in_quotes(text)));
  const auto ask = viz::ask_of_id(plain_word(id));
  if (!ask) {
    const auto guess = nearest(plain_word(id), viz::ask_ids());
    throw CaseFileError(source, {line, 0}, "",
                        fmt::format("{} is nothing that is asked{}; `evenpull draft --questions` lists it all",
                                    in_quotes(id), guess.empty() ? "" : "; did you mean \"" + guess + "\"?"));
  }
  return {*ask, without_spaces_around(text.substr(equals + 1)), text};
}

DraftAnswered take_named_answers(const std::vector<NamedAnswer>& given, bool usual, const std::string& source,
                                 const Units& units) {
  for (std::size_t i = 0; i < given.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (given[i].ask == given[j].ask)
        throw CaseFileError(source, {}, "",
                            fmt::format("{} answers what {} answers already; leave one of the two out",
                                        in_quotes(given[i].as_given), in_quotes(given[j].as_given)));
  DraftAnswered out;
  std::vector<bool> taken(given.size(), false);
  for (const DraftQuestion& q : draft_questions()) {
    if (!is_asked(q, out.answers)) continue;
    const auto at = std::find_if(given.begin(), given.end(), [&](const NamedAnswer& n) { return n.ask == q.ask; });
    try {
      if (at != given.end()) take_draft_answer(q, at->text, out.answers, units);
      else if (usual) take_usual_answer(q, out.answers);
      else out.missing.push_back(&q);
    } catch (const DraftAnswerError& e) {
      throw CaseFileError(
          source, {}, "",
          fmt::format("{}: {}",
                      viz::ask_words(q.ask, q.ask == Ask::kind ? DraftKind::steel_tube : out.answers.kind()).id,
                      e.what()));
    }
    if (at != given.end()) taken[static_cast<std::size_t>(at - given.begin())] = true;
    else if (!usual && q.ask == Ask::kind) return out;  // all else hangs on it
    // To find what else is missing, the usual answer stands in.
    if (at == given.end() && !usual) out.answers.set(q.ask, usual_answer(q, out.answers));
  }
  for (std::size_t i = 0; i < given.size(); ++i)
    if (!taken[i] && out.missing.empty())
      throw CaseFileError(
          source, {}, "",
          fmt::format("{} is not asked of {} with these answers; leave it out",
                      in_quotes(name_in(given[i], out.answers)), viz::draft_kind_word(out.answers.kind())));
  return out;
}

}  // namespace evenpull
