// Tables and keys set in the text of a case file, every other byte as it was, comments too.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace evenpull {

/// One change of a text in TOML.
struct CaseEdit {
  enum class Kind {
    set_key,  ///< `key = value` in a table: where it stands its value alone is replaced; the table is added if need be
    remove_key,     ///< with its line; nothing where it is not there
    add_table,      ///< one more [[name]] at the end of the text: `value`, whole lines with its header
    replace_tables  ///< all [name] or [[name]], with what lies within them, by `value`: whole lines with their headers
  };
  Kind kind = Kind::set_key;
  std::string table;  ///< "spread", "cloth.curve"
  std::string key;
  std::string value;  ///< as TOML has it: "\"7 %\""
  std::string note;   ///< comment behind a key that is added; empty: none
};

/// The text cannot be changed so by this program; what() is a clause that says why and what to do.
struct CannotEdit : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// `text` is TOML without a slip. New tables go behind the table that they are part of, else to the end; lines end as
/// most others do. A comment is only removed from within a table that is replaced, or from the line of a key that is
/// removed. Throws CannotEdit.
std::string edited_case(std::string text, const std::vector<CaseEdit>& edits);

}  // namespace evenpull
