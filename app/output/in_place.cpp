#include "app/output/in_place.hpp"

#include "app/output/own_files.hpp"
#include "app/output/result_folder.hpp"

#include <fmt/format.h>

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <cstring>
#include <vector>

namespace evenpull {
namespace {

namespace fs = std::filesystem;

constexpr const char* earlier = "earlier";
constexpr const char* writing = "writing";
constexpr const char* mark = "XXXXXX";  // what mkdtemp replaces

std::string beside(const fs::path& target, const char* purpose) {
  return "." + target.filename().string() + "." + purpose + "-";
}

/// Folders beside `target` that a run of ours made for a purpose, the youngest first.
std::vector<fs::path> strays(const fs::path& target, const char* purpose) {
  const auto stem = beside(target, purpose);
  std::vector<fs::path> list;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(target.parent_path(), error)) {
    const auto name = entry.path().filename().string();
    if (name.size() != stem.size() + std::strlen(mark) || name.rfind(stem, 0) != 0) continue;
    if (!std::all_of(name.begin() + static_cast<std::ptrdiff_t>(stem.size()), name.end(),
                     [](unsigned char c) { return std::isalnum(c) != 0; }))
      continue;
    if (entry.is_symlink(error) || !entry.is_directory(error)) continue;
    list.push_back(entry.path());
  }
  std::sort(list.begin(), list.end(), [&](const fs::path& a, const fs::path& b) {
    const auto ta = fs::last_write_time(a, error), tb = fs::last_write_time(b, error);
    return ta != tb ? ta > tb : a < b;
  });
  return list;
}

bool exchanged(const fs::path& a, const fs::path& b) {
#ifdef RENAME_EXCHANGE
  return renameat2(AT_FDCWD, a.c_str(), AT_FDCWD, b.c_str(), RENAME_EXCHANGE) == 0;
#else
  (void)a, (void)b;
  return false;
#endif
}

}  // namespace

fs::path make_beside(const fs::path& target, const char* purpose) {
  auto name = (target.parent_path() / (beside(target, purpose) + mark)).string();
  if (!mkdtemp(name.data()))
    throw CannotWrite(fmt::format("{}: cannot be written ({}); choose another folder with --out", target.string(),
                                  std::strerror(errno)));
  // mkdtemp keeps others out; a result is as open as any folder that its owner makes.
  const mode_t mask = umask(0);
  umask(mask);
  struct stat made {};
  constexpr mode_t special = 07000, all = 0777;
  if (stat(name.c_str(), &made) == 0) (void)!chmod(name.c_str(), (made.st_mode & special) | (all & ~mask));
  return name;
}

fs::path put_in_place(const fs::path& fresh, const fs::path& target, Exchange how) {
  std::error_code error;
  const auto refuse = [&] {
    throw CannotWrite(
        fmt::format("{}: the results cannot be put in place ({}); {}", target.string(), error.message(),
                    fs::is_directory(target) ? "the earlier result is as it was" : "nothing was written"));
  };
  if (!fs::exists(fs::symlink_status(target, error))) {
    fs::rename(fresh, target, error);
    if (error) refuse();
    return {};
  }
  if (how == Exchange::at_once_if_possible && exchanged(fresh, target)) return fresh;
  const auto aside = make_beside(target, earlier);
  fs::rename(target, aside, error);  // onto the empty folder just made, so the name is ours
  if (!error) {
    fs::rename(fresh, target, error);
    std::error_code back;
    if (error) fs::rename(aside, target, back);
    if (back)
      throw CannotWrite(
          fmt::format("{}: the results cannot be put in place ({}), nor the earlier ones back ({}); those lie whole in "
                      "{}: rename that, or run again, which puts them back",
                      target.string(), error.message(), back.message(), aside.string()));
  }
  if (error) {
    std::error_code ignored;
    fs::remove(aside, ignored);
    refuse();
  }
  return aside;
}

std::string take_away(const fs::path& folder) {
  // Somebody who still writes into it may add a file while we empty it.
  constexpr int tries = 1000;
  std::error_code error;
  for (int i = 0; i < tries; ++i) {
    fs::remove_all(folder, error);
    if (!fs::exists(fs::symlink_status(folder))) return "";
    if (error && error != std::errc::directory_not_empty) break;
  }
  return error ? error.message() : "it is being written to";
}

std::vector<std::string> mend_after_killed_run(const fs::path& target) {
  std::error_code error;
  std::vector<std::string> said;
  for (const auto& folder : strays(target, earlier)) {
    const bool successor = fs::exists(fs::symlink_status(target, error)) && !fs::is_empty(target, error);
    if (!successor && holds_a_result(folder)) {
      fs::rename(folder, target, error);
      if (!error)
        said.push_back(fmt::format(
            "{}: a run was killed while it put its results in place; the result from before it was put back",
            target.string()));
      continue;
    }
    if (std::string foreign; holds_only_ours(folder, &foreign)) take_away(folder);
    else if (holds_a_result(folder))
      said.push_back(fmt::format(
          "{}: was left by a run that was killed and holds \"{}\", which evenpull did not write, so it stays; take out "
          "what is yours and remove the rest",
          folder.string(), foreign));
  }
  for (const auto& folder : strays(target, writing))
    if (holds_only_ours(folder)) take_away(folder);
  return said;
}

}  // namespace evenpull
