#include "viz/kit/page_parts.hpp"

#include "viz/words/trouble.hpp"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <set>

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
    if (close == std::string::npos || value == values.end()) throw CannotDraw("a page has no value for " + name);
    out += value->second;
    used.insert(name);
    from = close + 2;
  }
  for (const auto& [name, value] : values)
    if (!used.count(name)) throw CannotDraw("a page has no place for " + name);
  return out;
}

std::string escaped(const std::string& text) {
  std::string out;
  for (char c : text) {
    switch (c) {
      case '&': out += "&amp;"; break;
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '"': out += "&quot;"; break;
      default: out += c;
    }
  }
  return out;
}

void write_whole(const std::string& path, const std::string& text) {
  const std::string aside = path + ".part";
  errno = 0;
  std::ofstream out(aside, std::ios::binary);
  out << text;
  out.close();
  std::error_code error;
  if (out) std::filesystem::rename(aside, path, error);
  if (!out || error) {
    const std::string reason = error ? error.message() : std::strerror(errno);
    std::error_code ignored;
    std::filesystem::remove(aside, ignored);
    throw CannotWriteFile(path, reason);
  }
}

}  // namespace evenpull::viz
