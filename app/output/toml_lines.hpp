// The statements of a text in TOML with the bytes that they take: headers, keys, and what is neither. For text that a
// TOML library has read without complaint; values are not understood, only passed over.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace evenpull {

struct TomlStatement {
  enum class Kind { header, list_header, pair, comment, blank };
  Kind kind = Kind::blank;
  std::size_t begin = 0, end = 0;              ///< whole lines, the line end with them
  std::size_t value_begin = 0, value_end = 0;  ///< of a pair, without comment
  std::vector<std::string> table;              ///< the table in which it stands; of a header: the one that it begins
  std::vector<std::string> key;                ///< of a pair, one part for each between dots

  bool is_header() const { return kind == Kind::header || kind == Kind::list_header; }
  std::vector<std::string> path() const;  ///< table and key
};

std::vector<TomlStatement> toml_statements(const std::string& text);

/// "cloth.curve" in its parts; no quotes.
std::vector<std::string> dotted(const std::string& name);
bool begins_with(const std::vector<std::string>& path, const std::vector<std::string>& with);

}  // namespace evenpull
