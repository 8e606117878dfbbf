// Whether two copies of the book say the same: words equal, numbers nearly.
#pragma once

#include <string>

namespace evenpull::book {

/// Numbers agree within this share, or within so many units of the last digit printed (of the finer of the two); whole
/// numbers only within the share.
inline constexpr double same_share = 1e-3;
inline constexpr double same_units = 3;
/// Places in a picture agree within this [px].
inline constexpr double same_pixels = 2;

/// Empty if the two Markdown texts agree, else the first difference in words. In tables, cells of nothing but numbers
/// are compared as numbers; everything else is compared as it stands.
std::string difference_of_text(const std::string& kept, const std::string& fresh);

/// The same for two SVG pictures: what is drawn must be the same, where it is drawn nearly.
std::string difference_of_picture(const std::string& kept, const std::string& fresh);

}  // namespace evenpull::book
