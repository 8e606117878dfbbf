#include "app/output/own_files.hpp"

#include <algorithm>
#include <map>
#include <regex>
#include <set>
#include <string_view>
#include <vector>

namespace evenpull {
namespace {

namespace fs = std::filesystem;

/// Everything a run writes at the top of its folder.
const std::set<std::string> at_the_top = {
    "plan.json",    "plan.pdf",    "plan.html",    "order.dot",     "order.toml",    "timing.json", "fields.pvd",
    "survey.json",  "survey.pdf",  "survey.png",   "contrast.json", "lesson.pdf",    "lesson.html", "iron.json",
    "log.json",     "old.json",    "log.pdf",      "old.pdf",       "iron-card.pdf", "coupon.json", "coupon.pdf",
    "tap.json",     "tap.pdf",     "push.json",    "push.pdf",      "attach.json",   "attach.pdf",  "stiffen.json",
    "stiffen.pdf",  "glue.json",   "glue.pdf",     "weigh.json",    "weigh.pdf",     "clock.json",  "clock.pdf",
    "signoff.json", "signoff.pdf", "blanket.json", "blanket.pdf",   "blanket.svg",   "blanket.dxf", "tiles.pdf"};
constexpr const char* results[] = {"plan.json",  "survey.json", "contrast.json", "iron.json",
                                   "log.json",   "old.json",    "coupon.json",   "tap.json",
                                   "push.json",  "attach.json", "stiffen.json",  "glue.json",
                                   "weigh.json", "clock.json",  "signoff.json",  "blanket.json"};

/// And in the folders within it (viz/pictures/pictures.hpp, viz/fields/fields.hpp): a stage stands in a name as 250F,
/// or 250F_2 where another is printed the same. What people lay beside a plan, like pictures from the bench, goes by
/// other names.
const std::map<std::string, std::regex>& within() {
  static const std::map<std::string, std::regex> names = {
      {"pictures",
       std::regex(
           R"((pull_\d+F(_\d+)?_(largest|chord_and_span)|frame_use)\.(png|svg)|)"
           R"((order_\d+F(_\d+)?|turn_overs|frame_buckling|sag_between_ribs|uneven_pull_risk|step_by_step)\.png)")},
      {"fields", std::regex(R"(((top|bottom|frame|iron)_\d{3,}|buckling_\d+F(_\d+)?_(cloth|frame))\.vtu)")}};
  return names;
}

std::string without_part(const std::string& name) {
  constexpr std::string_view half_written = ".part";  // a file on its way
  const bool half = name.size() > half_written.size() &&
                    name.compare(name.size() - half_written.size(), half_written.size(), half_written) == 0;
  return half ? name.substr(0, name.size() - half_written.size()) : name;
}

/// Names in a folder, in order, so that the same one is told each time; a folder has a stroke behind it.
std::vector<std::string> names_in(const fs::path& folder, std::error_code& error) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    std::error_code gone;
    names.push_back(entry.path().filename().string() + (fs::is_directory(entry.symlink_status(gone)) ? "/" : ""));
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

bool holds_only_ours(const fs::path& folder, std::string* foreign) {
  const auto is_foreign = [&](const std::string& name) {
    if (foreign) *foreign = name;
    return false;
  };
  std::error_code error, inner_error;
  for (const auto& name : names_in(folder, error)) {
    if (at_the_top.count(without_part(name))) continue;
    const auto inner = within().find(name.substr(0, name.size() - 1));
    if (name.back() != '/' || inner == within().end()) return is_foreign(name);
    for (const auto& file : names_in(folder / inner->first, inner_error))
      if (!std::regex_match(without_part(file), inner->second)) return is_foreign(name + file);
    if (inner_error) error = inner_error;
  }
  return !error;
}

bool holds_a_result(const fs::path& folder) {
  std::error_code error;
  return std::any_of(std::begin(results), std::end(results),
                     [&](const char* name) { return fs::exists(folder / name, error); });
}

}  // namespace evenpull
