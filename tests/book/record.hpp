// The records that the published checks leave (tests/support/book.cpp), read back and put in a fixed order.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace evenpull::book {

struct Level {
  double size = 0, value = 0;
};

/// One check; the fields are those of book::Entry and MeshStudy.
struct Record {
  std::string chapter, check, quantity, source, note;
  double published = 0, ours = 0, tolerance = 0, scale = 0;
  std::vector<Level> levels;  ///< from coarse to fine; empty = no mesh study
  double theory = 0, least_order = 0, order = 0, plus_minus = 0;
  std::string approach;  ///< "settling", "wavering", "unchanging", "assumed"; empty = no mesh study

  bool is_study() const { return levels.size() >= 3; }
  /// What errors are a share of.
  double measure() const;
  double error() const;  ///< |ours - published| / measure()
  double error_of(double value) const;
};

/// Reads all records; throws std::runtime_error with the line's number if one is not understood or two have the same
/// chapter, check and quantity.
std::vector<Record> read_records(std::istream& in);

/// Chapters in the order of the book, then check, then quantity; numbers within names count as numbers.
void sort_records(std::vector<Record>& records);

}  // namespace evenpull::book
