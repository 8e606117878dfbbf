// What a person types behind an option of the bench: cut up, read as quantities and places, and named in messages.
#pragma once

#include "app/input/case_table.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace evenpull {

/// Without blanks at its ends.
std::string trimmed(const std::string& text);
std::string lower_case(std::string text);
/// Parts between a sign, each trimmed; one part where it does not stand.
std::vector<std::string> parted_at(const std::string& text, char sign);
/// A whole number and nothing else; a plus in front may stand.
std::optional<int> whole_number_in(const std::string& text);

/// One option's text. Everything that refuses throws CaseFileError, which names option and text.
class Typed {
 public:
  Typed(std::string option, std::string text) : option_(std::move(option)), text_(std::move(text)) {}
  const std::string& text() const { return text_; }

  /// The sentence goes on from the text.
  [[noreturn]] void refuse(const std::string& sentence) const;
  /// The sentence goes on from a part of it.
  [[noreturn]] void refuse_part(const std::string& part, const std::string& sentence) const;

  /// A part, or the whole text, as a quantity within its range, SI.
  double quantity(const std::string& part, Quantity kind, const Range& range) const;
  double quantity(Quantity kind, const Range& range) const { return quantity(text_, kind, range); }
  /// "top, bay 2" or "bay 2 top": the side, and the bay counted from 0; `example` shows how such a text is written.
  std::pair<Side, int> bay(const std::string& part, int bays, const std::string& example) const;

 private:
  std::string option_, text_;
};

}  // namespace evenpull
