#include "viz/page_parts.hpp"

#include <filesystem>
#include <fstream>
#include <set>
#include <stdexcept>

namespace evenpull::viz {

std::string filled(const std::string& text, const std::map<std::string, std::string>& values) {
  std::string out;
  std::set<std::string> used;
  std::size_t from = 0;
  for (;;) {
    const auto open = text.find("{{", from);
    out.append(text, from, open == std::string::npos ? std::string::npos : open - from);
    if (open == std::string::npos) break;
    const auto close = text.find("}}", open);
    const auto name = text.substr(open + 2, close - open - 2);
    const auto value = values.find(name);
    if (close == std::string::npos || value == values.end()) throw std::logic_error("a page has no value for " + name);
    out += value->second;
    used.insert(name);
    from = close + 2;
  }
  for (const auto& [name, value] : values)
    if (!used.count(name)) throw std::logic_error("a page has no place for " + name);
  return out;
}

void write_whole(const std::string& path, const std::string& text) {
  const std::string aside = path + ".part";
  std::ofstream out(aside, std::ios::binary);
  out << text;
  out.close();
  std::error_code error;
  if (out) std::filesystem::rename(aside, path, error);
  if (!out || error) {
    std::error_code ignored;
    std::filesystem::remove(aside, ignored);
    throw std::runtime_error("cannot write " + path + "; check the folder and the free space");
  }
}

}  // namespace evenpull::viz
