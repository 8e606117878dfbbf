#include "app/output/case_edit.hpp"

#include "app/input/case_reader.hpp"
#include "app/input/raw_file.hpp"
#include "app/output/interruption.hpp"
#include "app/output/result_folder.hpp"
#include "app/output/to_disk.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

namespace evenpull {
namespace {

std::string without_blanks(std::string s) {
  s.erase(0, s.find_first_not_of(" \t\r"));
  s.erase(s.find_last_not_of(" \t\r") + 1);
  return s;
}

std::string before_comment(const std::string& line) { return without_blanks(line.substr(0, line.find('#'))); }

bool states_key(const std::string& line, const std::string& key) {
  const auto equals = line.find('=');
  return equals != std::string::npos && without_blanks(line.substr(0, equals)) == key;
}

std::filesystem::path kept_name(const std::filesystem::path& file, const std::string& kept) {
  const std::string stem = file.stem().string();
  for (int n = 1;; ++n) {
    const auto name = file.parent_path() / fmt::format("{}.{}{}{}", stem, kept, n > 1 ? fmt::format("-{}", n) : "",
                                                       file.extension().string());
    if (!std::filesystem::exists(name)) return name;
  }
}

void write_text(const std::filesystem::path& file, const std::string& text) {
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  out << text;
  out.close();
  if (!out) {
    std::error_code ignored;
    std::filesystem::remove(file, ignored);
    throw CannotWrite(fmt::format("{}: cannot be written; the case is as it was", file.string()));
  }
}

}  // namespace

std::string with_key(const std::string& case_text, const std::string& table, const std::string& key,
                     const std::string& value) {
  const std::string line_now = key + " = " + value;
  std::string out;
  bool inside = false, done = false;
  std::size_t behind_head = std::string::npos;
  for (std::size_t at = 0; at < case_text.size();) {
    const auto end = case_text.find('\n', at);
    const std::string line = case_text.substr(at, end == std::string::npos ? end : end - at);
    const std::string plain = before_comment(line);
    const bool head = !plain.empty() && plain[0] == '[';
    if (head) inside = plain == "[" + table + "]";
    if (inside && !head && !done && states_key(plain, key)) out += line_now, done = true;
    else out += line;
    if (end == std::string::npos) break;
    out += '\n';
    if (head && inside) behind_head = out.size();
    at = end + 1;
  }
  if (done) return out;
  if (behind_head != std::string::npos) return out.insert(behind_head, line_now + "\n");
  if (!out.empty() && out.back() != '\n') out += '\n';
  return out + fmt::format("\n[{}]\n{}\n", table, line_now);
}

std::string replace_case(const std::string& path, const std::string& text, const std::string& kept) {
  const std::filesystem::path file(path), aside(path + ".writing");
  const Uninterrupted whole;
  write_text(aside, text);
  try {
    read_case_file(aside.string());
    const auto beside = kept_name(file, kept);
    std::filesystem::copy_file(file, beside);
    std::filesystem::rename(aside, file);
    names_to_disk(std::filesystem::absolute(file).parent_path());
    return beside.string();
  } catch (const std::filesystem::filesystem_error& e) {
    std::error_code ignored;
    std::filesystem::remove(aside, ignored);
    throw CannotWrite(fmt::format("{}: cannot be written ({})", path, e.code().message()));
  } catch (...) {
    std::error_code ignored;
    std::filesystem::remove(aside, ignored);
    throw;
  }
}

}  // namespace evenpull
