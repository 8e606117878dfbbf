// Answers held against each other: what no panel can be, told of the later of the two.
#include "shop/draft/answers.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

// Judgement, ours: beyond these it is a slip of the tape or of the unit.
constexpr double widest_tip = 1.5, narrowest_tip = 0.2;  // tip chord over chord
constexpr double thickest_of_chord = 0.35;
constexpr double nose_from = 0.03, nose_to = 0.75;  // of the chord
constexpr double apart_of_chord = 0.02;             // members along the chord
constexpr double least_bay = 0.02;                  // m, as the reader of a case has it
constexpr double a_hair = 1e-9;                     // sticks may be as thick as the caps are wide
constexpr double deepest_seam = 0.9;                // of the nose

using Found = std::optional<DraftTrouble>;

class Clashes {
 public:
  Clashes(Ask ask, const DraftAnswers& answers) : ask_(ask), all_(answers) {}

  Found find() const {
    switch (ask_) {
      case Ask::tip_chord:
        return first_of(size() > widest_tip * size(Ask::chord) || size() < narrowest_tip * size(Ask::chord),
                        DraftClash::tip_chord_far_off, Ask::chord);
      case Ask::leading_wall: return wall(Ask::leading_tube);
      case Ask::trailing_wall: return wall(Ask::trailing_tube);
      case Ask::rib_wall: return wall(Ask::rib_tube);
      case Ask::end_wall: return wall(Ask::end_tube);
      case Ask::bow_wall: return wall(Ask::bow_tube);
      case Ask::nose_depth:
        return first_of(size() < nose_from * size(Ask::chord) || size() > nose_to * size(Ask::chord),
                        DraftClash::nose_out_of_range, Ask::chord);
      case Ask::edge_leg:
      case Ask::edge_width: return first_of(size() > 0.5 * least_chord(), DraftClash::beyond_chord, Ask::chord);
      case Ask::edge_opening:
        return first_of(size() >= size(Ask::edge_leg), DraftClash::opening_too_wide, Ask::edge_leg);
      case Ask::edge_bend:
        return first_of(2 * size() + size(Ask::edge_sheet) > size(Ask::edge_opening), DraftClash::bend_too_wide,
                        Ask::edge_opening);
      case Ask::web_thickness:
      case Ask::stick:
        return first_of(size() >= size(Ask::cap_width) * (1 + a_hair), DraftClash::wider_than_caps, Ask::cap_width);
      case Ask::front_spar_at: return behind(Ask::nose_depth);
      case Ask::rear_spar_at: return behind(Ask::front_spar_at);
      case Ask::front_thickness: return deep_enough(Ask::front_spar_depth);
      case Ask::rear_thickness: return deep_enough(Ask::rear_spar_depth);
      case Ask::thickest: return thickness();
      case Ask::thickest_at:
        return first_of(size() > (1 - apart_of_chord) * size(Ask::chord), DraftClash::beyond_chord, Ask::chord);
      case Ask::bays:
        return first_of(size(Ask::span) / all_.at(ask_).value < least_bay, DraftClash::bays_too_narrow, Ask::span);
      case Ask::stations: return stations();
      case Ask::rests:
      case Ask::hinges: return places();
      case Ask::horn: return first_of(size() > size(Ask::span), DraftClash::beyond_span, Ask::span);
      case Ask::seam:
        return first_of(size() > deepest_seam * size(Ask::nose_depth), DraftClash::seam_behind_nose, Ask::nose_depth);
      default: return {};
    }
  }

 private:
  double size() const { return all_.size(ask_); }
  double size(Ask other) const { return all_.size(other); }
  bool is_there(Ask ask) const {
    const DraftQuestion* q = question_of(ask, all_.kind());
    return q && is_asked(*q, all_) && all_.find(ask);
  }
  double least_chord() const {
    return is_there(Ask::tip_chord) ? std::min(size(Ask::chord), size(Ask::tip_chord)) : size(Ask::chord);
  }
  Found trouble(DraftClash clash, Ask beside, std::size_t nth = 0) const {
    return DraftTrouble{clash, ask_, beside, nth};
  }
  Found first_of(bool wrong, DraftClash clash, Ask beside) const { return wrong ? trouble(clash, beside) : Found(); }
  Found wall(Ask tube) const { return first_of(2 * size() > size(tube), DraftClash::wall_over_half, tube); }
  Found deep_enough(Ask member) const {
    return first_of(size() < size(member), DraftClash::thinner_than_member, member);
  }

  /// In front of the trailing edge, and behind that one, by what tells two places apart.
  Found behind(Ask other) const {
    const double apart = apart_of_chord * size(Ask::chord);
    if (size() < size(other) + apart) return trouble(DraftClash::not_behind, other);
    return first_of(size() > size(Ask::chord) - apart, DraftClash::beyond_chord, Ask::chord);
  }

  Found thickness() const {
    for (const Ask member : {Ask::leading_tube, Ask::trailing_tube, Ask::spar_depth, Ask::nose_thickness,
                             Ask::front_thickness, Ask::edge_opening, Ask::edge_thickness})
      if (is_there(member) && size() < size(member)) return trouble(DraftClash::thinner_than_member, member);
    return first_of(size() > thickest_of_chord * size(Ask::chord), DraftClash::far_too_thick, Ask::chord);
  }

  Found stations() const {
    const auto& y = all_.at(ask_).sizes;
    if (y.front().value != 0) return trouble(DraftClash::first_station_not_zero, Ask::span);
    for (std::size_t i = 1; i < y.size(); ++i) {
      if (y[i].value <= y[i - 1].value) return trouble(DraftClash::stations_not_rising, Ask::stations, i);
      if (y[i].value - y[i - 1].value < least_bay) return trouble(DraftClash::stations_too_close, Ask::stations, i);
    }
    return first_of(y.back().value != size(Ask::span), DraftClash::last_station_not_span, Ask::span);
  }

  Found places() const {
    const auto& y = all_.at(ask_).sizes;
    for (std::size_t i = 0; i < y.size(); ++i) {
      if (y[i].value > size(Ask::span)) return trouble(DraftClash::beyond_span, Ask::span, i);
      if (i > 0 && y[i].value <= y[i - 1].value) return trouble(DraftClash::twice_there, ask_, i);
      if (ask_ == Ask::rests && (y[i].value <= 0 || y[i].value >= size(Ask::span)))
        return trouble(DraftClash::at_the_end, Ask::span, i);
    }
    return {};
  }

  Ask ask_;
  const DraftAnswers& all_;
};

}  // namespace

std::optional<DraftTrouble> trouble_with(Ask ask, const DraftAnswers& answers) { return Clashes(ask, answers).find(); }

}  // namespace evenpull
