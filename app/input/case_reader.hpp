// From a case file (TOML, format 1) to a Case in SI. Everything a person can get wrong in the file is caught here.
#pragma once

#include "app/input/document.hpp"
#include "shop/adhesive.hpp"
#include "shop/finish.hpp"
#include "shop/trimming.hpp"
#include "solver/statement/case.hpp"

#include <string>

namespace evenpull {

/// The newest format of a case file that this program reads.
constexpr int case_format = 1;

struct CaseFile {
  Case value;
  Trimming trimming{};  ///< how the cloth is cut and lapped
  Adhesive adhesive;
  Finish finish;
  Places places;     ///< where each key stands, for errors found later
  std::string text;  ///< as read

  /// Place of a key or of the nearest table above it, or of the end of the file.
  FilePlace place_of(const std::string& key) const { return places.of(key); }
};

/// Whether what weights on the bare frame said ([measured_frame]) is put into the case; where the frame is measured
/// anew it is not.
enum class MeasuredFrame { counts, left_out };

/// Throws CaseFileError.
CaseFile read_case_file(const std::string& path, MeasuredFrame measured = MeasuredFrame::counts);
Case read_case(const std::string& path);
/// The same of bytes that are at hand; `path` is for messages.
CaseFile read_case_text(const std::string& bytes, const std::string& path,
                        MeasuredFrame measured = MeasuredFrame::counts);

}  // namespace evenpull
