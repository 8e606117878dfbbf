// Answers to the questions of a draft, and what follows from them before anything is drafted.
#pragma once

#include "shop/draft/question.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace evenpull {

/// A quantity as somebody wrote it ("5/8 in") and in SI.
struct GivenSize {
  double value = 0;
  std::string text{};
};

struct DraftAnswer {
  int value = 0;                   ///< of words, whole numbers, yes (1) and no (0)
  std::vector<GivenSize> sizes{};  ///< of a quantity one, of lengths several
  bool usual = false;              ///< nobody gave it
};

class DraftAnswers {
 public:
  const DraftAnswer* find(Ask ask) const;
  const DraftAnswer& at(Ask ask) const { return all_.at(ask); }
  void set(Ask ask, DraftAnswer answer) { all_[ask] = std::move(answer); }
  void drop(Ask ask) { all_.erase(ask); }
  bool empty() const { return all_.empty(); }

  double size(Ask ask) const { return at(ask).sizes.front().value; }
  template <class Choice>
  bool is(Ask ask, Choice c) const {
    const DraftAnswer* a = find(ask);
    return a && a->value == static_cast<int>(c);
  }
  DraftKind kind() const { return static_cast<DraftKind>(at(Ask::kind).value); }

 private:
  std::map<Ask, DraftAnswer> all_;
};

/// Whether a question is asked, by the answers to those before it.
bool is_asked(const DraftQuestion& q, const DraftAnswers& answers);
/// Those that are asked, in order, up to the first that hangs on an answer not yet given.
std::vector<const DraftQuestion*> asked_questions(const DraftAnswers& answers);
/// Choices that this kind of structure has.
std::vector<int> choices_of(const DraftQuestion& q, const DraftAnswers& answers);
/// Of a question that is asked; sizes in the unit of the answer from which they follow.
DraftAnswer usual_answer(const DraftQuestion& q, const DraftAnswers& answers);
/// The same answers without those that are not asked, all usual ones anew.
DraftAnswers with_usual_anew(const DraftAnswers& answers);

/// "7.25 in" or "184.15 mm", in the unit family of what is written in `like`.
GivenSize written_like(double metres, const std::string& like);

/// An answer that cannot stand beside the others.
enum class DraftClash {
  tip_chord_far_off,
  wall_over_half,
  first_station_not_zero,
  stations_not_rising,
  stations_too_close,
  last_station_not_span,
  bays_too_narrow,
  thinner_than_member,
  far_too_thick,
  beyond_chord,
  nose_out_of_range,
  not_behind,
  beyond_span,
  twice_there,
  at_the_end,
  seam_behind_nose,
  opening_too_wide,
  bend_too_wide,
  wider_than_caps
};
struct DraftTrouble {
  DraftClash clash{};
  Ask at_fault{};
  Ask beside{};         ///< the answer against which it stands
  std::size_t nth = 0;  ///< of a list, from 0
};
/// What is wrong with the answer to `ask` beside those before it.
std::optional<DraftTrouble> trouble_with(Ask ask, const DraftAnswers& answers);

}  // namespace evenpull
