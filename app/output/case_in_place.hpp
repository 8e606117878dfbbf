// A case file changed where it lies: read back before anything is written, the earlier one kept beside it.
#pragma once

#include "app/input/case_reader.hpp"
#include "app/output/case_edit.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace evenpull {

struct ChangedCase {
  std::filesystem::path file;  ///< as it was named
  std::string before, after;   ///< all bytes
  CaseFile read;               ///< what the reader makes of the new text
};

/// Reads the file, changes its text, and reads that back. Nothing is written. `what` names what is put in, for
/// messages: "the curve of the coupon". Throws CaseFileError where the case does not read, no longer reads, cannot be
/// changed by a program, or would say something else besides.
ChangedCase changed_case(const std::string& file, const std::vector<CaseEdit>& edits, const std::string& what);

/// Puts the new text in place of the old, with its mode, by one rename; links are followed. The earlier file stays as
/// `<name>.before-<by>.toml`, with a number where that is taken; nothing is ever written over. Gives its path. Throws
/// CannotWrite with the case as it was; also where the file was changed meanwhile.
std::filesystem::path put_case_in_place(const ChangedCase& changed, const std::string& by);

}  // namespace evenpull
