#include "viz/words/after_iron_words.hpp"

#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {
namespace {

// A dark skin square to a high sun and no wind; estimate.
constexpr double dark_paint_in_sun = 394.3;  // K, 250 °F

}  // namespace

bool coats_tauten(const Case& c) { return c.finish == FinishKind::tautening; }

std::string no_stage_text(const Plan& plan) { return coats_tauten(plan.the_case) ? "NO VERDICT" : "NONE"; }

double lasting_of_frame(const Case& c) {
  double most = 1;
  const auto take = [&](const MemberMake& make) {
    most = std::max(most, c.materials[static_cast<std::size_t>(make.material)].lasting_movement);
  };
  for (const SpanMember& m : c.span_members) take(m.make);
  for (const Rib& r : c.ribs) take(r.make);
  return most;
}

std::string after_iron_in_short(const Case& c) {
  if (coats_tauten(c)) return "";
  std::string text = "For coats that do not tauten; their weight and sun on dark paint are not counted.";
  if (lasting_of_frame(c) > 1) text += " Wood gives more in time: limits of bow count it, stress and twist do not.";
  return text;
}

std::vector<std::string> after_iron_sentences(const Case& c) {
  std::vector<std::string> list;
  if (coats_tauten(c))
    list.push_back("No verdict: the coats to come tauten and pull the cloth further, and no data say by how much.");
  else if (c.finish == FinishKind::unstated)
    list.push_back(
        "The case does not say which coats come after the iron. All this is for coats that do not tauten; with others "
        "it holds nothing.");
  list.push_back(
      fmt::format("Not counted: what coats weigh, and sun on dark paint, which may bring the cloth to {} (estimate) "
                  "and let it pull "
                  "again where the iron was no hotter.",
                  degrees_both(dark_paint_in_sun)));
  if (const double lasting = lasting_of_frame(c); lasting > 1)
    list.push_back(fmt::format(
        "Wood gives under lasting pull: in time about {} times what it gives at once (estimate). The limits of bow "
        "count that; stress, twist and buckling do not.",
        number_text(lasting, 1)));
  return list;
}

}  // namespace evenpull::viz
