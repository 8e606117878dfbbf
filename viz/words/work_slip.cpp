#include "viz/words/work_slip.hpp"

#include "viz/words/terminal_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

constexpr std::size_t widest_cell = 40;

std::string padded(const std::string& text, std::size_t width) {
  const std::size_t n = letters(text);
  return text + std::string(n < width ? width - n : 0, ' ');
}

std::string table_text(const SlipPart& part) {
  std::vector<std::vector<std::string>> all{{}};
  for (const SlipColumn& c : part.columns) all.front().push_back(c.head);
  all.insert(all.end(), part.rows.begin(), part.rows.end());
  std::vector<std::size_t> widths(part.columns.size(), 0);
  for (const auto& row : all)
    for (std::size_t i = 0; i < widths.size(); ++i)
      widths[i] = std::max(widths[i], std::min(widest_cell, letters(row[i])));
  std::string text;
  for (const auto& row : all) {
    std::string line = "   ";
    for (std::size_t i = 0; i < row.size(); ++i)
      line += " " + (i + 1 < row.size() ? padded(row[i], widths[i] + 1) : row[i]);
    text += line + "\n";
  }
  return text;
}

std::string checks_text(const std::vector<SlipCheck>& checks) {
  std::size_t clock = 0;
  for (const SlipCheck& c : checks) clock = std::max(clock, letters(c.clock));
  std::string text;
  for (const SlipCheck& c : checks) {
    const std::string front = "  [ ] " + (clock > 0 ? padded(c.clock, clock) + "  " : "");
    text += front +
            wrap_text(c.what + (c.length.empty() ? "" : " (" + c.length + ")"), static_cast<int>(letters(front))) +
            "\n";
  }
  return text;
}

std::string part_lines(const SlipPart& part) {
  if (!part.to_write.empty()) return "";  // for paper alone
  std::string text = part.heading.empty() ? "" : "\n  " + part.heading + "\n";
  for (const auto& w : part.warnings) text += "  " + wrap_text(w, 2) + "\n";
  if (!part.rows.empty()) text += table_text(part);
  int number = 0;
  for (const auto& s : part.steps) text += fmt::format("  {}. ", ++number) + wrap_text(s, 5) + "\n";
  for (const auto& n : part.notes) text += "  - " + wrap_text(n, 4) + "\n";
  return text + checks_text(part.checks);
}

}  // namespace

std::string work_slip_text(const WorkSlip& slip, const std::string& file) {
  std::string text = slip.name + ": " + slip.title + "\n\n  " + wrap_text(slip.headline, 2) + "\n";
  for (const SlipPart& part : slip.parts) text += part_lines(part);
  return text + "\n  To print: " + file + "\n";
}

}  // namespace evenpull
