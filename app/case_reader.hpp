// From a case file (TOML, format 1) to a Case in SI. Everything a person can get wrong in the file is caught here.
#pragma once

#include "app/document.hpp"
#include "solver/case.hpp"

#include <map>
#include <string>

namespace evenpull {

/// The newest format of a case file that this program reads.
constexpr int case_format = 1;

struct CaseFile {
  Case value;
  std::map<std::string, Place> places;  ///< key path -> place, for errors found later

  /// Place of a key or of the nearest table above it; {0, 0} if it is not in the file.
  Place place_of(const std::string& key) const;
};

/// Throws CaseFileError.
CaseFile read_case_file(const std::string& path);
Case read_case(const std::string& path);

}  // namespace evenpull
