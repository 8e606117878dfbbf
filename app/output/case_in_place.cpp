#include "app/output/case_in_place.hpp"

#include "app/input/raw_file.hpp"
#include "app/output/interruption.hpp"
#include "app/output/result_folder.hpp"
#include "app/output/to_disk.hpp"
#include "app/output/toml_lines.hpp"
#include "app/text/quoted.hpp"

#include <fmt/format.h>

#include <fcntl.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace evenpull {
namespace {

namespace fs = std::filesystem;

constexpr const char* byte_order_mark = "\xEF\xBB\xBF";
constexpr int most_earlier = 1000;
constexpr mode_t mode_bits = 07777;

[[noreturn]] void no_change(const fs::path& file, const std::string& reason) {
  throw CannotWrite(
      fmt::format("{}: cannot be changed ({}); the case is as it was", shown_file(file.string()), reason));
}

bool is_of_tables(const CaseEdit& e) {
  return e.kind == CaseEdit::Kind::replace_tables || e.kind == CaseEdit::Kind::add_table;
}

bool touched(const std::string& path, const std::vector<CaseEdit>& edits) {
  for (const CaseEdit& e : edits) {
    const std::string name = is_of_tables(e) ? e.table : e.table + "." + e.key;
    if (path == name) return true;
  }
  return false;
}

bool same_value(const Entry& a, const Entry& b) {
  if (a.kind != b.kind || a.text != b.text || a.number != b.number || a.boolean != b.boolean ||
      a.list.size() != b.list.size() || a.table.size() != b.table.size())
    return false;
  for (std::size_t i = 0; i < a.list.size(); ++i)
    if (!same_value(a.list[i], b.list[i])) return false;
  for (const auto& [key, value] : a.table) {
    const auto other = b.table.find(key);
    if (other == b.table.end() || !same_value(value, other->second)) return false;
  }
  return true;
}

// The same statement but for what the edits name.
bool same_besides(const Entry& a, const Entry& b, const std::string& path, const std::vector<CaseEdit>& edits) {
  const Entry nothing;
  std::map<std::string, std::pair<const Entry*, const Entry*>> all;
  for (const auto& [key, value] : a.table) all[key].first = &value;
  for (const auto& [key, value] : b.table) all[key].second = &value;
  for (const auto& [key, both] : all) {
    const std::string name = path.empty() ? key : path + "." + key;
    if (touched(name, edits)) continue;
    const bool above = std::any_of(edits.begin(), edits.end(), [&](const CaseEdit& e) {
      const auto whole = is_of_tables(e) ? e.table : e.table + "." + e.key;
      return whole.rfind(name + ".", 0) == 0;
    });
    const Entry &x = both.first ? *both.first : nothing, &y = both.second ? *both.second : nothing;
    if (above ? !same_besides(x, y, name, edits) : !same_value(x, y)) return false;
  }
  return true;
}

fs::path earlier_name(const fs::path& file, const std::string& by, int number) {
  const std::string extension = file.has_extension() ? file.extension().string() : "";
  return file.parent_path() /
         (file.stem().string() + ".before-" + by + (number > 1 ? "-" + std::to_string(number) : "") + extension);
}

void write_all(int descriptor, const std::string& text, const fs::path& file) {
  for (std::size_t at = 0; at < text.size();) {
    const auto written = ::write(descriptor, text.data() + at, text.size() - at);
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) no_change(file, std::strerror(errno));
    at += static_cast<std::size_t>(written);
  }
  if (fsync(descriptor) != 0 && errno != EINVAL && errno != ENOTSUP) no_change(file, std::strerror(errno));
}

/// A file of ours that goes away unless it is kept.
class Aside {
 public:
  Aside(fs::path path, int descriptor) : path_(std::move(path)), descriptor_(descriptor) {}
  ~Aside() {
    if (descriptor_ >= 0) ::close(descriptor_);
    if (!kept_) ::unlink(path_.c_str());
  }
  Aside(const Aside&) = delete;
  Aside& operator=(const Aside&) = delete;
  const fs::path& path() const { return path_; }
  int descriptor() const { return descriptor_; }
  void keep() { kept_ = true; }

 private:
  fs::path path_;
  int descriptor_;
  bool kept_ = false;
};

/// Keeps the earlier file under a name that was free: another name of the same file, or a copy where there are none.
fs::path keep_earlier(const fs::path& file, const std::string& text, mode_t mode, const std::string& by) {
  for (int number = 1; number <= most_earlier; ++number) {
    const fs::path name = earlier_name(file, by, number);
    if (::link(file.c_str(), name.c_str()) == 0) return name;
    if (errno == EEXIST) continue;
    const int descriptor = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
    if (descriptor < 0 && errno == EEXIST) continue;
    if (descriptor < 0) no_change(file, fmt::format("{}: {}", name.string(), std::strerror(errno)));
    Aside copy(name, descriptor);
    write_all(descriptor, text, file);
    copy.keep();
    return name;
  }
  no_change(file, fmt::format("there are {} earlier ones beside it already", most_earlier));
}

}  // namespace

ChangedCase changed_case(const std::string& file, const std::vector<CaseEdit>& edits, const std::string& what) {
  if (file == "-") throw CaseFileError("-", {}, "", "standard input cannot be changed; name the file of the case");
  ChangedCase out;
  out.file = file;
  out.before = read_raw(file);
  const Entry before = document_of(out.before, file, DocumentKind::a_case);
  read_case_text(out.before, file);  // what is wrong already is told as it is
  const std::string mark = out.before.rfind(byte_order_mark, 0) == 0 ? byte_order_mark : "";
  try {
    out.after = mark + edited_case(out.before.substr(mark.size()), edits);
  } catch (const CannotEdit& e) {
    throw CaseFileError(file, {}, "", fmt::format("{}; nothing was changed", e.what()));
  }
  try {
    out.read = read_case_text(out.after, file);
  } catch (const CaseFileError& e) {
    throw CaseFileError(
        file, {}, "",
        fmt::format("with {} the case would no longer read, so nothing was changed. It would say, by its "
                    "new lines: {}",
                    what, e.what()));
  }
  if (!same_besides(before, document_of(out.after, file, DocumentKind::a_case), "", edits))
    throw CaseFileError(file, {}, "",
                        fmt::format("is written in a way in which {} cannot be put in by a program, so nothing was "
                                    "changed; copy the lines in by hand",
                                    what));
  return out;
}

fs::path put_case_in_place(const ChangedCase& changed, const std::string& by) {
  const Uninterrupted whole;
  std::error_code error;
  const fs::path file = fs::canonical(changed.file, error);
  if (error) no_change(changed.file, error.message());
  struct stat was {};
  if (stat(file.c_str(), &was) != 0) no_change(changed.file, std::strerror(errno));
  if (!S_ISREG(was.st_mode)) no_change(changed.file, "it is no plain file");
  if (access(file.c_str(), W_OK) != 0) no_change(changed.file, "it is protected against writing");
  if (read_raw(file.string()) != changed.before)
    no_change(changed.file, "somebody else changed it meanwhile; run again");
  std::string name = (file.parent_path() / ("." + file.filename().string() + ".writing-XXXXXX")).string();
  const int descriptor = mkstemp(name.data());
  if (descriptor < 0) no_change(changed.file, std::strerror(errno));
  Aside fresh(name, descriptor);
  (void)!fchown(descriptor, was.st_uid, was.st_gid);  // who owns it, where we may say so
  if (fchmod(descriptor, was.st_mode & mode_bits) != 0) no_change(changed.file, std::strerror(errno));
  write_all(descriptor, changed.after, changed.file);
  const fs::path earlier = keep_earlier(file, changed.before, was.st_mode & mode_bits, by);
  if (::rename(name.c_str(), file.c_str()) != 0) {
    const int reason = errno;
    ::unlink(earlier.c_str());
    no_change(changed.file, std::strerror(reason));
  }
  fresh.keep();
  try {
    names_to_disk(file.parent_path());
  } catch (const NotOnDisk&) {
    // Both files are whole, under their names; a power failure may bring the earlier one back.
  }
  return earlier;
}

}  // namespace evenpull
