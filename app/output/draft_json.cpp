#include "app/output/draft_json.hpp"

#include "app/output/json_number.hpp"

namespace evenpull {
namespace {

constexpr int draft_format = 1;

const char* answer_word(AnswerKind k) {
  switch (k) {
    case AnswerKind::words: return "words";
    case AnswerKind::quantity: return "quantity";
    case AnswerKind::lengths: return "list of lengths";
    case AnswerKind::whole: return "whole number";
    case AnswerKind::yes_no: return "yes or no";
  }
  return "";
}

const char* measure_unit(Measure m) {
  switch (m) {
    case Measure::length: return "m";
    case Measure::area_mass: return "kg/m^2";
    case Measure::swing: return "K";
    case Measure::stress: return "Pa";
    case Measure::none: break;
  }
  return "1";
}

std::string id_of(Ask ask) {
  for (const DraftKind k : draft_kinds)
    if (const std::string id = viz::ask_words(ask, k).id; !id.empty()) return id;
  return "";
}

Json kinds_json(DraftKinds kinds) {
  auto out = Json::array();
  for (const DraftKind k : draft_kinds)
    if (holds(kinds, k)) out.push_back(viz::draft_kind_word(k));
  return out;
}

Json when_json(const DraftQuestion& q) {
  auto out = Json::array();
  for (const DraftWhen& w : q.when) {
    Json j{{"answer", id_of(w.ask)}};
    if (w.differs_from) j["differs_from"] = id_of(*w.differs_from);
    for (const int value : w.is) j["is"].push_back(viz::choice_word(w.ask, value));
    out.push_back(j);
  }
  return out;
}

Json usual_json(const DraftQuestion& q) {
  auto out = Json::array();
  for (const DraftUsual& u : q.usual) {
    if ((u.kinds & q.kinds) == 0) continue;
    Json j{{"kinds", kinds_json(u.kinds & q.kinds)}};
    if (u.as && u.every > 0) j["one_for_each_m"] = json_number(u.every, "every");
    if (u.as) j["of"] = id_of(*u.as);
    for (const double share : u.shares) j["times"].push_back(json_number(share, "share"));
    if (!u.as) {
      DraftAnswer a;
      a.value = u.value;
      a.sizes = {{u.size.value, u.size.text}};
      j["answer"] = viz::answer_text(q, a);
    }
    out.push_back(j);
  }
  return out;
}

Json question_json(const DraftQuestion& q, DraftKind of) {
  const viz::AskWords words = viz::ask_words(q.ask, of);
  Json j{{"id", words.id},
         {"name", words.name},
         {"question", words.question},
         {"explanation", words.explain},
         {"kinds", kinds_json(q.kinds)},
         {"answer", answer_word(q.answer)}};
  if (q.answer == AnswerKind::quantity || q.answer == AnswerKind::lengths) j["unit"] = measure_unit(q.measure);
  const bool counts = q.answer == AnswerKind::lengths;
  if (q.answer != AnswerKind::words && q.answer != AnswerKind::yes_no) {
    j[counts ? "fewest" : "least"] = json_number(q.least, "least");
    j[counts ? "most_listed" : "most"] = json_number(q.most, "most");
  }
  for (const DraftChoice& c : q.choices)
    if (const DraftKinds kinds = c.kinds & q.kinds; kinds != 0)
      j["choices"].push_back({{"word", viz::choice_word(q.ask, c.value)}, {"kinds", kinds_json(kinds)}});
  if (!q.when.empty()) j["asked_when"] = when_json(q);
  j["usual"] = usual_json(q);
  if (q.tape > 0) j["read_off_wrong_by"] = json_number(q.tape, "tape");
  return j;
}

Json head_of(const std::string& version) {
  Json j;
  j["format"] = draft_format;
  j["program"] = std::string("evenpull ") + version;
  return j;
}

/// Kinds that are asked in the same words stand together.
void add_question(const DraftQuestion& q, std::optional<DraftKind> only_kind, Json& list) {
  std::string before;
  for (const DraftKind k : draft_kinds) {
    if (!holds(q.kinds, k) || (only_kind && *only_kind != k)) continue;
    const viz::AskWords words = viz::ask_words(q.ask, k);
    if (before == words.question) continue;
    before = words.question;
    DraftQuestion part = q;
    part.kinds = 0;
    for (const DraftKind other : draft_kinds)
      if (holds(q.kinds, other) && (!only_kind || *only_kind == other) &&
          viz::ask_words(q.ask, other).question == before)
        part.kinds |= only(other);
    list.push_back(question_json(part, k));
  }
}

}  // namespace

std::string draft_questions_document(std::optional<DraftKind> kind, const std::string& version) {
  Json j = head_of(version);
  j["questions"] = Json::array();
  for (const DraftQuestion& q : draft_questions()) add_question(q, kind, j["questions"]);
  return json_text(j);
}

std::string draft_document(const std::string& file, const DraftAnswers& answers, const Case& c,
                           const std::optional<viz::MeasureFirst>& measure, const std::string& version) {
  Json j = head_of(version);
  j["file"] = file;
  j["title"] = c.title;
  j["answers"] = Json::array();
  for (const DraftQuestion* q : asked_questions(answers)) {
    const DraftAnswer& a = answers.at(q->ask);
    j["answers"].push_back({{"id", viz::ask_words(q->ask, answers.kind()).id},
                            {"answer", viz::answer_text(*q, a)},
                            {"measured", !a.usual}});
  }
  j["doubts"] = c.doubts;
  if (measure)
    j["measure_first"] = {{"first_look", measure->look}, {"in_words", measure->answers}, {"caution", measure->caution}};
  return json_text(j);
}

}  // namespace evenpull
