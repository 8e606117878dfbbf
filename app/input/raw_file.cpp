#include "app/input/raw_file.hpp"

#include "app/input/document.hpp"
#include "app/text/most.hpp"
#include "app/text/quoted.hpp"

#include <fmt/format.h>

#include <fcntl.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <utility>

namespace evenpull {
namespace {

[[noreturn]] void refuse(const std::string& path, const std::string& sentence) {
  throw CaseFileError(path, {}, "", sentence);
}

/// Closes what was opened; standard input stays open.
class Descriptor {
 public:
  explicit Descriptor(const std::string& path) : own_(path != "-") {
    // Without waiting: the other end of a pipe may never be opened.
    if (own_) number_ = open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC);
  }
  ~Descriptor() {
    if (own_ && number_ >= 0) close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int number() const { return number_; }

 private:
  bool own_;
  int number_ = STDIN_FILENO;
};

/// False when nothing came for so long.
bool wait_for(int descriptor, int milliseconds) {
  pollfd p{descriptor, POLLIN, 0};
  int ready = 0;
  do ready = poll(&p, 1, milliseconds);
  while (ready < 0 && errno == EINTR);
  return ready != 0;
}

void refuse_what_is_no_file(const std::string& path, const struct stat& what) {
  if (S_ISDIR(what.st_mode))
    refuse(path, "this is a folder; name the file itself, for example " + shown_file(path + "/aileron.toml"));
  if (S_ISBLK(what.st_mode)) refuse(path, "this is a disk, not a file; name the file itself");
  if (S_ISREG(what.st_mode) && what.st_size > static_cast<off_t>(most::file_bytes))
    refuse(path,
           fmt::format("the file has {} bytes, and no more than {} are read (4 MB; a case or an order has some kB); is "
                       "it the right one?",
                       what.st_size, most::file_bytes));
}

}  // namespace

std::string read_raw(const std::string& path, std::chrono::milliseconds patience) {
  if (path.empty()) refuse("evenpull", "the name of the file is empty; name a file, or - for standard input");
  const Descriptor file(path);
  struct stat what {};
  if (file.number() < 0 || fstat(file.number(), &what) != 0)
    refuse(path,
           fmt::format("the file cannot be opened ({}); check its name, or start a new case with `evenpull template > "
                       "my-case.toml`",
                       std::strerror(errno)));
  refuse_what_is_no_file(path, what);
  const bool may_be_silent = S_ISFIFO(what.st_mode) && path != "-";
  std::string text;
  std::array<char, 65536> piece{};
  for (;;) {
    if (!wait_for(file.number(), may_be_silent ? static_cast<int>(patience.count()) : -1))
      refuse(path, fmt::format("nothing came out of this pipe for {} s; is anything writing into it?",
                               std::chrono::duration<double>(patience).count()));
    const auto got = read(file.number(), piece.data(), std::min(piece.size(), most::file_bytes + 1 - text.size()));
    if (got == 0) return text;
    if (got < 0 && (errno == EINTR || errno == EAGAIN)) continue;
    if (got < 0) refuse(path, fmt::format("cannot be read ({})", std::strerror(errno)));
    text.append(piece.data(), static_cast<std::size_t>(got));
    if (text.size() > most::file_bytes)
      refuse(path,
             fmt::format("goes on beyond {} bytes, and no more are read (4 MB; a case or an order has some kB); is it "
                         "the right one?",
                         most::file_bytes));
  }
}

}  // namespace evenpull
