// What stands open before a sign-off, and what a licensed mechanic must still look at, in words.
#pragma once

#include "shop/sign_off.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

std::string open_item_text(OpenItem item);
/// "3 THINGS ARE OPEN"; where none is: that inspection is still to come.
std::string sign_off_headline(const std::vector<OpenItem>& open);
/// What was planned, a row each: what, and how it stands.
std::vector<std::vector<std::string>> planned_rows(const Case& c, const Adhesive& a, const PlanDigest& plan);
/// What the paper on the bench must hold beside this page; for the mechanic, each with a box.
std::vector<std::string> inspection_list(const Case& c);
std::vector<std::string> sign_off_lines();
std::string sign_off_caution();

}  // namespace evenpull::viz
