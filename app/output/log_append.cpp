#include "app/output/log_append.hpp"

#include "app/input/document.hpp"
#include "app/output/interruption.hpp"
#include "app/output/result_folder.hpp"
#include "app/output/to_disk.hpp"
#include "app/output/work_lock.hpp"
#include "app/text/most.hpp"

#include <fmt/format.h>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>

namespace evenpull {
namespace {

[[noreturn]] void cannot_log(const std::filesystem::path& file, const std::string& why) {
  throw CannotWrite(fmt::format("{}: cannot be written ({}); nothing was added to the log", file.string(), why));
}

// An open file that is closed whatever happens.
class LogFile {
 public:
  explicit LogFile(const std::filesystem::path& path) : path_(path) {
    descriptor_ = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0644);
    if (descriptor_ < 0) cannot_log(path_, std::strerror(errno));
    struct stat about {};
    if (fstat(descriptor_, &about) != 0 || !S_ISREG(about.st_mode)) cannot_log(path_, "it is no plain file");
    if (static_cast<std::size_t>(about.st_size) > most::file_bytes) cannot_log(path_, "it is too long for a log");
  }
  ~LogFile() { ::close(descriptor_); }
  LogFile(const LogFile&) = delete;
  LogFile& operator=(const LogFile&) = delete;

  std::string read() const {
    std::string all;
    std::array<char, 65536> part{};
    for (;;) {
      const auto n = pread(descriptor_, part.data(), part.size(), static_cast<off_t>(all.size()));
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) cannot_log(path_, std::strerror(errno));
      if (n == 0) return all;
      all.append(part.data(), static_cast<std::size_t>(n));
    }
  }

  /// All of it, or the file is as long as before.
  void write_at(std::size_t begin, const std::string& text) const {
    for (std::size_t done = 0; done < text.size();) {
      const auto n = pwrite(descriptor_, text.data() + done, text.size() - done, static_cast<off_t>(begin + done));
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) {
        const int error = errno;
        shorten(begin);
        cannot_log(path_, std::strerror(error));
      }
      done += static_cast<std::size_t>(n);
    }
    if (fsync(descriptor_) != 0 && errno != EINVAL && errno != ENOTSUP) cannot_log(path_, std::strerror(errno));
  }
  void shorten(std::size_t to) const {
    if (ftruncate(descriptor_, static_cast<off_t>(to)) != 0) cannot_log(path_, std::strerror(errno));
  }

 private:
  const std::filesystem::path& path_;
  int descriptor_ = -1;
};

void check_goes_on_at_its_end(const LogRead& read, const std::string& path) {
  if (read.damaged_line == 0 || read.cut_at_end) return;
  throw CaseFileError(
      path, {read.damaged_line, 0}, "",
      fmt::format("is damaged, and {} line{} from there on cannot be trusted: nothing was added. Copy the file, cut "
                  "the copy before line {}, and log again what came after",
                  read.lines_left_out, read.lines_left_out == 1 ? "" : "s", read.damaged_line));
}

}  // namespace

void append_to_log(const std::filesystem::path& file, const std::string& panel, const std::string& title,
                   const std::vector<LogEntry>& entries) {
  const auto absolute = std::filesystem::absolute(file);
  const WorkLock alone(absolute);
  const Uninterrupted whole;
  const LogFile log(absolute);
  const std::string before = log.read();
  std::string text;
  std::size_t end = before.size();
  if (before.empty()) {
    text = log_head(panel, title);
  } else {
    const LogRead read = read_log_text(before, file.string());
    check_goes_on_at_its_end(read, file.string());
    check_log_is_of(read.log, panel, file.string());
    if (read.cut_at_end) log.shorten(end = read.whole_bytes);
  }
  for (const LogEntry& e : entries) text += log_line(e);
  log.write_at(end, text);
  if (before.empty()) names_to_disk(absolute.parent_path());
}

}  // namespace evenpull
