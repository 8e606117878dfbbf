// The entries of the verification book (docs/verification.md): a check against something outside the project asserts
// its bar here, and the same call writes the line that the book prints, so that the book cannot say what no test holds.
#pragma once

#include "sequencer/numbers/mesh_study.hpp"

#include <string>
#include <vector>

namespace evenpull::book {

struct Entry {
  std::string chapter;   ///< "Cloth", "Frame", "Edge and friction", "Heat shrink", "Air and vibration", "Whole panels"
  std::string check;     ///< "Circular membrane under pressure, nu = 0.3"
  std::string quantity;  ///< with its unit: "pull at the centre [N/m]"
  std::string source;    ///< author, report, table; "derived here"; "common practice, no source"; "from memory" if so
  double published = 0;  ///< the number outside the project
  double ours = 0;  ///< without `levels`: what the solver says; with three or more: replaced by the extrapolated value
  double tolerance = 0;  ///< largest |ours - published|, as a share of |published| (of `scale` if that is given)
  double scale = 0;      ///< what the tolerance is a share of where the published number is zero
  std::vector<MeshLevel> levels = {};  ///< a mesh study, from coarse to fine
  double theory = 0;                   ///< order that theory promises; 0 = no study
  double least_order = 0;              ///< order that must be observed; 0 = not asserted
  std::string note = {};               ///< the cause of what deviation there is, or what the check leaves out
};

/// Asserts (Catch2 CHECK) and, if the environment names a file in EVENPULL_BOOK_RECORDS, adds the entry to it.
/// Returns the study, if there is one.
MeshStudy enter(Entry e);

/// What a mesh study has to show.
struct Order {
  double theory = 2, least = 1.8;  ///< as Entry::theory, Entry::least_order
};

/// Entries of one chapter in a line each; the words are those of Entry.
struct Chapter {
  const char* name;

  void number(const std::string& check, const std::string& quantity, const std::string& source, double published,
              double ours, double tolerance, const std::string& note = {}) const;
  void study(const std::string& check, const std::string& quantity, const std::string& source, double published,
             double tolerance, const std::vector<MeshLevel>& levels, const Order& order = {},
             const std::string& note = {}) const;
};

}  // namespace evenpull::book
