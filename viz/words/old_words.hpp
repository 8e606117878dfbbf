// Cloth that was ironed before, and a patch, in words.
#pragma once

#include "shop/old_cloth.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// Why cloth with coats on it, or of which nobody knows, is not ironed.
std::vector<std::string> coated_sentences(bool known);

/// What it pulls now: "about 1.4 lb/in (250 N/m)".
std::string pull_now_text(const OldCloth& old);

struct MoreRow {
  std::string stage, likely, range;
};
MoreRow more_row(const MoreToCome& m);
std::vector<std::string> more_notes(const OldCloth& old, const std::vector<MoreToCome>& more);

/// Steps of ironing a patch.
std::vector<std::string> patch_steps(const PatchIron& p, const OldCloth& surroundings);

}  // namespace evenpull::viz
