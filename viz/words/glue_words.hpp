// Glue lines, what they take, and what the adhesive bears, in words.
#pragma once

#include "shop/glue_lines.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// Of stages left out because the adhesive bears less: what was left out and what to do.
std::string adhesive_bears_sentence(double bears, double coolest_left_out);
/// Where the iron at the hottest stage swings past what the adhesive bears; empty: it does not, or nobody stated that.
std::string swing_past_adhesive(const Case& c, const Adhesive& a);

std::string volume_both(double cubic_metres);  ///< "2.2 fl oz (65 mL)"
std::string area_both(double square_metres);   ///< "2.4 ft² (0.22 m²)"
/// "45 to 120 mL", both units.
std::string volume_range(const Volume& v);

struct GlueRow {
  std::string line, length, width, area;
};
/// Lines of one name on one side put together, in the order of the panel.
std::vector<GlueRow> glue_rows(const Case& c, const std::vector<GlueLine>& lines);

struct GlueVolumeRow {
  std::string coat, likely, range;
};
std::vector<GlueVolumeRow> glue_volume_rows(const GlueNeed& need, const Adhesive& a);

/// "To have at hand: about 2.2 fl oz (65 mL)".
std::string glue_headline(const GlueNeed& need);
/// Order of work with its waits, as its maker states them or not.
std::vector<std::string> glue_steps(const Adhesive& a);
/// What bars a stage, what is not stated; said in bold.
std::vector<std::string> glue_warnings(const Case& c, const Adhesive& a);
std::vector<std::string> glue_notes(const std::vector<DefaultUsed>& taken);
/// "lap: 2 in (51 mm) (common practice, no source); ...": in one sentence, "" where nothing was taken.
std::string taken_sentence(const std::vector<DefaultUsed>& taken);

/// "not stated: ask its maker", or how long.
std::string waiting_text(const std::optional<double>& seconds);

}  // namespace evenpull::viz
