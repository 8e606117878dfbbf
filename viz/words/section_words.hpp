// The sections of a case: each once, who has it, how it is written, what it is reckoned as.
#pragma once

#include "solver/statement/case.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// "tube 1/2 in (12.7 mm) x 0.035 in (0.89 mm)": sizes as they were written.
std::string shape_words(const SectionShape& shape, const WrittenSizes& written);

/// "tube 1/2 in (12.7 mm) x 0.035 in (0.89 mm), 6061-T6 tube", with a web of another material and what follows beyond a
/// station.
std::string print_make(const MemberMake& make, const Case& c);

/// What a reader must know of how a shape is reckoned, as sentences; none where it is plain theory.
std::vector<std::string> section_notes(const MemberMake& make, const SectionShape& shape, const Case& c);

/// Those of all sections of the case, each once.
std::vector<std::string> all_section_notes(const Case& c);

/// A section that stands somewhere in the panel.
struct ShownSection {
  std::string carriers;  ///< "leading edge tube", "ribs 1, 7", "tip bow"
  MemberMake make;
  SectionShape shape;                 ///< of `make`, or one of its changes
  WrittenSizes written;               ///< of `make`; empty for a change
  double depth = 0;                   ///< of the panel where it is looked at [m]: inboard, of a rib half-way along it
  Section section;                    ///< there
  std::vector<SectionPoint> outline;  ///< of a closed nose there [m]
};

/// Every section that differs in shape, size or material, in the order: members, ribs, tip bow, braces.
std::vector<ShownSection> shown_sections(const Case& c);

/// "sheet rib 0.020 in (0.51 mm), ...": the shape with who has it, its material and, where it is as deep as the panel,
/// how deep it is shown.
std::string shown_section_text(const ShownSection& s, const Case& c);

/// "area 37 mm², I up 9200 mm⁴, I flat 437 mm⁴, J 3.08 mm⁴"
std::string section_numbers_text(const Section& s);

}  // namespace evenpull
