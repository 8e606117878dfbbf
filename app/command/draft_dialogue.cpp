#include "app/command/draft_dialogue.hpp"

#include "app/input/draft_answer.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/draft_words.hpp"
#include "viz/words/terminal_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <ostream>

namespace evenpull {
namespace {

constexpr int indent = 5;

enum class Reply { take_offered, explain, back, stop, answer };

Reply what_was_typed(const std::string& text) {
  if (text.empty()) return Reply::take_offered;
  if (text == "?") return Reply::explain;
  if (text == "<" || text == "back") return Reply::back;
  if (text == "stop") return Reply::stop;
  return Reply::answer;
}

class Dialogue {
 public:
  Dialogue(DraftAnswers& answers, std::istream& in, std::ostream& out, const Units& units,
           const std::function<void(const DraftAnswers&)>& keep)
      : answers_(answers), in_(in), out_(out), units_(units), keep_(keep) {}

  DialogueEnd hold() {
    std::size_t next = answered();
    for (;;) {
      const auto asked = asked_questions(answers_);
      if (next >= asked.size()) break;
      switch (ask(*asked[next], next + 1)) {
        case Reply::stop: return DialogueEnd::stopped;
        case Reply::back: next = next > 0 ? next - 1 : 0; break;
        default: ++next; keep_(answers_);
      }
    }
    answers_ = with_usual_anew(answers_);
    return DialogueEnd::done;
  }

 private:
  /// How many stand before the first that has no answer.
  std::size_t answered() const {
    const auto asked = asked_questions(answers_);
    return !asked.empty() && !answers_.find(asked.back()->ask) ? asked.size() - 1 : asked.size();
  }

  /// What Enter takes: what was typed here before if it still holds, else the usual answer.
  DraftAnswer offered(const DraftQuestion& q) const {
    const DraftAnswer* before = answers_.find(q.ask);
    if (!before || before->usual) return usual_answer(q, answers_);
    try {
      return read_draft_answer(q, viz::answer_text(q, *before), answers_, units_);
    } catch (const DraftAnswerError&) {
      return usual_answer(q, answers_);
    }
  }

  viz::AskWords words_of(const DraftQuestion& q) const {
    return viz::ask_words(q.ask, q.ask == Ask::kind ? DraftKind::steel_tube : answers_.kind());
  }

  void show(const DraftQuestion& q, std::size_t number) const {
    out_ << fmt::format("\n{:>3}. {}\n", number, wrap_text(words_of(q).question, indent));
    int n = 0;
    for (const int value : q.answer == AnswerKind::words ? choices_of(q, answers_) : std::vector<int>()) {
      const std::string remark = viz::choice_remark(q.ask, value);
      out_ << fmt::format("       {}  {}{}\n", ++n, viz::choice_word(q.ask, value),
                          remark.empty() ? "" : " (" + remark + ")");
    }
  }

  Reply ask(const DraftQuestion& q, std::size_t number) {
    show(q, number);
    for (;;) {
      const DraftAnswer offer = offered(q);
      out_ << fmt::format("     {} [{}]: ", words_of(q).name, viz::answer_text(q, offer)) << std::flush;
      std::string text;
      if (!std::getline(in_, text)) {
        out_ << "\n";
        return Reply::stop;
      }
      text.erase(0, std::min(text.size(), text.find_first_not_of(" \t\r")));
      text.erase(text.find_last_not_of(" \t\r") + 1);
      const Reply typed = what_was_typed(text);
      if (typed == Reply::explain) out_ << "     " << wrap_text(words_of(q).explain, indent) << "\n";
      else if (typed == Reply::back && number == 1) out_ << "     " << viz::draft_first_already() << "\n";
      else if (typed == Reply::back || typed == Reply::stop) return typed;
      else if (taken(q, offer, typed == Reply::answer ? &text : nullptr)) return Reply::answer;
    }
  }

  bool taken(const DraftQuestion& q, const DraftAnswer& offer, const std::string* text) {
    try {
      if (text) take_draft_answer(q, *text, answers_, units_);
      else if (offer.usual) take_usual_answer(q, answers_);
      else take_draft_answer(q, viz::answer_text(q, offer), answers_, units_);
      return true;
    } catch (const DraftAnswerError& e) {
      out_ << "     " << wrap_text(on_one_line(e.what()), indent) << "\n";
      return false;
    }
  }

  DraftAnswers& answers_;
  std::istream& in_;
  std::ostream& out_;
  const Units& units_;
  const std::function<void(const DraftAnswers&)>& keep_;
};

}  // namespace

DialogueEnd hold_dialogue(DraftAnswers& answers, std::istream& in, std::ostream& out, const Units& units,
                          const std::function<void(const DraftAnswers&)>& keep) {
  return Dialogue(answers, in, out, units, keep).hold();
}

}  // namespace evenpull
