// What a covering weighs and its moment about the hinge line, in words.
#pragma once

#include "shop/weigh.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

std::string small_mass_both(double kilograms);    ///< "3.6 oz (102 g)"
std::string moment_both(double kilogram_metres);  ///< "1.4 lb·in (0.16 N·m)", as weight hangs
/// The same with what it may be off by, 95 of 100: "3.6 oz (102 ± 9 g)".
std::string mass_with_range(const Weighed& w);
/// "+1.4 lb·in (0.160 ± 0.014 N·m)"; "not known" without one.
std::string moment_with_range(const Weighed& w);

struct WeighRow {
  std::string part, mass, moment;
};
std::vector<WeighRow> weigh_rows(const CoveringWeight& now, const std::optional<Weighed>& old);

std::string weigh_headline(const CoveringWeight& now);
/// Which line the moments are about; what to state where there is none.
std::string hinge_line_sentence(const Case& c, const std::optional<HingeLine>& h);
/// What is not counted, and a cloth lighter or heavier than any that is made for this.
std::vector<std::string> weigh_warnings(const Case& c, const Finish& f, const std::optional<Weighed>& old);
std::vector<std::string> weigh_notes(const Adhesive& a, const Finish& f);

}  // namespace evenpull::viz
