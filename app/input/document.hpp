// A TOML file as a plain tree that remembers where each value stood, so that every later message can name its line.
// Only document.cpp knows the TOML library.
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace evenpull {

/// Where a value stands in its file, counted from 1; 0 = not in the file.
struct FilePlace {
  int line = 0;
  int column = 0;
};

struct Entry {
  enum class Kind { text, number, integer, boolean, list, table, other };
  Kind kind = Kind::other;
  FilePlace place;
  std::string text;  ///< the value as a person would write it
  double number = 0;
  bool boolean = false;
  std::vector<Entry> list;
  std::map<std::string, Entry> table;
  int last_line = 0;      ///< of the file; at the root alone
  std::string file_text;  ///< at the root alone

  /// For messages: quoted where it is text, on one line and cut.
  std::string shown() const;
};

/// Where the keys of a file stand, by their paths.
struct Places {
  std::map<std::string, FilePlace> at;
  FilePlace end;  ///< the last line of the file, where a missing table would be added

  /// Of a key or of the nearest table above it; of the end if there is none.
  FilePlace of(std::string key) const;
};
Places places_of(const Entry& document);

/// A file cannot be understood. what() is the whole message, on one line: file, line, key, value, what would be right.
struct CaseFileError : std::runtime_error {
  std::string file;
  FilePlace place;
  std::string key;  ///< "cloth.looseness", "member[2].at" (list places counted from 1)
  CaseFileError(std::string file, FilePlace place, std::string key, const std::string& sentence);
};

enum class DocumentKind { a_case, an_order };

/// Reads a file ("-": standard input) and parses it; throws CaseFileError for one that is missing, no plain text,
/// larger than a case or an order can be, or has a slip in the TOML.
Entry read_document(const std::string& path, DocumentKind kind);
/// The same of bytes that were read from it.
Entry document_of(std::string bytes, const std::string& path, DocumentKind kind);

/// Name of element `index` (from 0) of a list, as shown to a person: "member[2]" for index 1.
std::string nth(const std::string& key, std::size_t index);

}  // namespace evenpull
