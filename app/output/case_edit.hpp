// A key put into the text of a case; all else stays byte for byte.
#pragma once

#include <string>

namespace evenpull {

/// The text with `key = value` in `[table]`: in the place of the key where it stands on a line of its own there, else
/// behind the head of the table, else in a table added at the end. `value` is TOML as it is to be written.
std::string with_key(const std::string& case_text, const std::string& table, const std::string& key,
                     const std::string& value);

/// Writes a case aside, reads it back and puts it in the place of the file, which stays beside it as
/// `<name>.<kept>.toml` (`kept-2`, ... where that is taken); gives the name of that. Throws CaseFileError where what
/// would be written is no case, and CannotWrite; the file is then as it was.
std::string replace_case(const std::string& path, const std::string& text, const std::string& kept);

}  // namespace evenpull
