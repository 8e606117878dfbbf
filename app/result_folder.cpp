#include "app/result_folder.hpp"

#include <fmt/format.h>

#include <stdlib.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <set>

namespace evenpull {
namespace {

namespace fs = std::filesystem;

/// Everything a run writes at the top of its folder.
const std::set<std::string> ours = {"plan.json",  "plan.pdf", "plan.html", "order.dot", "order.toml",  "timing.json",
                                    "fields.pvd", "fields",   "pictures",  "survey.json", "survey.pdf",
                                    "survey.png", "contrast.json", "lesson.pdf", "lesson.html",
                                    "iron.json",  "iron-card.pdf"};

void refuse_if_not_ours(const fs::path& folder) {
  bool result = false, empty = true;
  for (const auto& entry : fs::directory_iterator(folder)) {
    const auto name = entry.path().filename().string();
    empty = false;
    if (!ours.count(name))
      throw CannotWrite(fmt::format(
          "{}: the folder holds \"{}\", which evenpull did not write, so nothing in it is replaced; choose another "
          "folder with --out",
          folder.string(), name));
    result = result || name == "plan.json" || name == "survey.json" || name == "contrast.json" || name == "iron.json";
  }
  if (!empty && !result)
    throw CannotWrite(fmt::format(
        "{}: the folder is not empty and holds no earlier result of evenpull (no plan.json, survey.json, contrast.json or "
        "iron.json); choose "
        "another folder with --out",
        folder.string()));
}

/// A folder beside `target` with a name that nobody else has.
fs::path make_beside(const fs::path& target, const char* purpose) {
  auto name = (target.parent_path() / ("." + target.filename().string() + "." + purpose + "-XXXXXX")).string();
  if (!mkdtemp(name.data()))
    throw CannotWrite(fmt::format("{}: cannot be written ({}); choose another folder with --out", target.string(),
                                  std::strerror(errno)));
  fs::permissions(name, fs::perms::group_read | fs::perms::group_exec | fs::perms::others_read | fs::perms::others_exec,
                  fs::perm_options::add);
  return name;
}

}  // namespace

ResultFolder::ResultFolder(const fs::path& target) {
  std::error_code error;
  target_ = fs::absolute(target).lexically_normal();
  if (target_.filename().empty()) target_ = target_.parent_path();
  if (fs::exists(target_, error) && !fs::is_directory(target_, error))
    throw CannotWrite(fmt::format("{}: is a file, not a folder; choose another place with --out", target_.string()));
  if (fs::is_directory(target_, error)) {
    try {
      refuse_if_not_ours(target_);
    } catch (const fs::filesystem_error& e) {
      throw CannotWrite(fmt::format("{}: cannot be read ({})", target_.string(), e.code().message()));
    }
  }
  // Found out before the long run, not after it.
  auto above = target_.parent_path();
  while (!fs::exists(above, error) && above.has_relative_path()) above = above.parent_path();
  if (!fs::is_directory(above, error))
    throw CannotWrite(
        fmt::format("{}: {} is not a folder; choose another place with --out", target_.string(), above.string()));
  if (access(above.c_str(), W_OK) != 0)
    throw CannotWrite(fmt::format("{}: {} cannot be written to ({}); choose another folder with --out",
                                  target_.string(), above.string(), std::strerror(errno)));
}

ResultFolder::~ResultFolder() {
  std::error_code ignored;
  if (!aside_.empty()) fs::remove_all(aside_, ignored);
}

const fs::path& ResultFolder::open() {
  if (!aside_.empty()) return aside_;
  std::error_code error;
  fs::create_directories(target_.parent_path(), error);
  if (error) throw CannotWrite(fmt::format("{}: cannot be made ({})", target_.parent_path().string(), error.message()));
  return aside_ = make_beside(target_, "writing");
}

void ResultFolder::publish() {
  std::error_code error;
  fs::path earlier;
  if (fs::exists(target_, error)) {
    refuse_if_not_ours(target_);  // it may have changed during the run
    earlier = make_beside(target_, "earlier");
    fs::rename(target_, earlier, error);  // onto the empty folder just made, so the name is ours
    if (error) {
      std::error_code ignored;
      fs::remove(earlier, ignored);
      throw CannotWrite(
          fmt::format("{}: the earlier result cannot be moved aside ({})", target_.string(), error.message()));
    }
  }
  fs::rename(aside_, target_, error);
  if (error) {
    std::error_code ignored;
    if (!earlier.empty()) fs::rename(earlier, target_, ignored);
    throw CannotWrite(fmt::format("{}: cannot be put in place ({}); an earlier result is untouched", target_.string(),
                                  error.message()));
  }
  aside_.clear();
  if (!earlier.empty()) fs::remove_all(earlier, error);
}

void draw_files(const std::function<void()>& work) {
  try {
    work();
  } catch (const std::logic_error&) {
    throw;  // ours, not the disk's
  } catch (const std::runtime_error& e) {
    throw CannotWrite(e.what());
  }
}

void write_text(const fs::path& path, const std::string& text) {
  std::ofstream out(path, std::ios::binary);
  out << text;
  out.close();
  if (!out)
    throw CannotWrite(
        fmt::format("{}: cannot be written ({}); is the disk full?", path.string(), std::strerror(errno)));
}

}  // namespace evenpull
