// A TOML file as a plain tree that remembers where each value stood, so that every later message can name its line.
// Only document.cpp knows the TOML library.
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace evenpull {

/// Where a value stands in its file, counted from 1; 0 = not in the file.
struct Place {
  int line = 0;
  int column = 0;
};

struct Entry {
  enum class Kind { text, number, integer, boolean, list, table, other };
  Kind kind = Kind::other;
  Place place;
  std::string text;  ///< the value as a person would write it, for messages too
  double number = 0;
  bool boolean = false;
  std::vector<Entry> list;
  std::map<std::string, Entry> table;
};

/// A file cannot be understood. what() is the whole message: file, line, key, value, what would be right.
struct CaseFileError : std::runtime_error {
  std::string file;
  Place place;
  std::string key;  ///< "cloth.looseness", "member[2].at" (list places counted from 1)
  CaseFileError(std::string file, Place place, std::string key, const std::string& sentence);
};

/// Reads and parses; throws CaseFileError for a missing file or a slip in the TOML.
Entry read_document(const std::string& path);

}  // namespace evenpull
