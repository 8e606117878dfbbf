#include "app/output/result_folder.hpp"

#include "app/output/in_place.hpp"
#include "app/output/own_files.hpp"
#include "app/output/to_disk.hpp"
#include "viz/words/trouble.hpp"

#include <fmt/format.h>

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <climits>
#include <cstring>
#include <fstream>

namespace evenpull {
namespace {

namespace fs = std::filesystem;

// What the hidden names beside a folder add to its own at most (work_lock.cpp, in_place.cpp).
constexpr std::size_t room_for_hidden_names = 16;

void refuse_if_not_ours(const fs::path& folder) {
  std::string foreign;
  if (!holds_only_ours(folder, &foreign)) {
    if (foreign.empty())
      throw CannotWrite(fmt::format("{}: cannot be read; choose another folder with --out", folder.string()));
    throw CannotWrite(fmt::format(
        "{}: the folder holds \"{}\", which evenpull did not write, so nothing in it is replaced; choose another "
        "folder with --out",
        folder.string(), foreign));
  }
  std::error_code error;
  if (!fs::is_empty(folder, error) && !holds_a_result(folder))
    throw CannotWrite(
        fmt::format("{}: the folder is not empty and holds no earlier result of evenpull (no plan.json, survey.json, "
                    "contrast.json or "
                    "iron.json); choose another folder with --out",
                    folder.string()));
}

/// An earlier result that may not be taken away cannot be replaced.
void refuse_if_write_protected(const fs::path& folder) {
  std::error_code error;
  std::vector<fs::path> folders{folder};
  for (const auto& entry : fs::directory_iterator(folder, error))
    if (entry.is_directory(error) && !entry.is_symlink(error)) folders.push_back(entry.path());
  for (const auto& f : folders)
    if (access(f.c_str(), W_OK | X_OK) != 0)
      throw CannotWrite(
          fmt::format("{}: the earlier result may not be replaced ({}: {}); choose another folder with --out",
                      folder.string(), f.string(), std::strerror(errno)));
}

void refuse_unless_free_or_ours(const fs::path& target) {
  std::error_code error;
  const auto status = fs::symlink_status(target, error);
  if (!fs::exists(status)) return;
  if (!fs::is_directory(status))
    throw CannotWrite(fmt::format("{}: is {}, not a folder; choose another place with --out", target.string(),
                                  !fs::is_symlink(status)     ? "a file"
                                  : fs::exists(target, error) ? "a link to a file"
                                                              : "a link that leads nowhere"));
  refuse_if_not_ours(target);
  refuse_if_write_protected(target);
}

/// What lies in a result folder goes with it when the next run replaces that.
void refuse_if_within_a_result(const fs::path& target) {
  for (auto above = target.parent_path(); above.has_relative_path(); above = above.parent_path())
    if (holds_a_result(above) && holds_only_ours(above))
      throw CannotWrite(
          fmt::format("{}: lies in the result folder {}, which the next run replaces whole; name a folder beside "
                      "that with --out",
                      target.string(), above.string()));
}

/// A mount point cannot be renamed; found out before the long run.
void refuse_if_mount_point(const fs::path& target) {
  struct stat here {
  }, above{};
  if (stat(target.c_str(), &here) == 0 && stat(target.parent_path().c_str(), &above) == 0 &&
      here.st_dev != above.st_dev)
    throw CannotWrite(fmt::format(
        "{}: is a disk's own folder, which cannot be replaced; name a folder in it with --out", target.string()));
}

/// Absolute, and where a link leads to: the folder is replaced, not the link.
fs::path place_of(const fs::path& target) {
  std::error_code error;
  auto place = fs::absolute(target).lexically_normal();
  if (place.filename().empty()) place = place.parent_path();
  if (fs::is_symlink(place, error) && fs::is_directory(place, error)) place = fs::canonical(place, error);
  return place;
}

}  // namespace

ResultFolder::ResultFolder(const fs::path& target, std::function<void(const std::string&)> say)
    : target_(place_of(target)), say_(std::move(say)) {
  std::error_code error;
  refuse_if_within_a_result(target_);
  refuse_unless_free_or_ours(target_);
  refuse_if_mount_point(target_);
  if (fs::equivalent(target_, fs::current_path(error), error))
    throw CannotWrite(
        fmt::format("{}: is the folder you are in, and would be replaced under your feet; name a folder in it "
                    "with --out",
                    target_.string()));
  if (target_.filename().string().size() + room_for_hidden_names > NAME_MAX)
    throw CannotWrite(fmt::format("{}: the name is too long; choose a shorter one with --out", target_.string()));
  // Found out before the long run, not after it.
  auto above = target_.parent_path();
  while (!fs::exists(above, error) && above.has_relative_path()) above = above.parent_path();
  if (!fs::is_directory(above, error))
    throw CannotWrite(
        fmt::format("{}: {} is not a folder; choose another place with --out", target_.string(), above.string()));
  if (access(above.c_str(), W_OK | X_OK) != 0)
    throw CannotWrite(fmt::format("{}: {} cannot be written to ({}); choose another folder with --out",
                                  target_.string(), above.string(), std::strerror(errno)));
  const Uninterrupted whole;
  try {
    make_parents();
    lock_.emplace(target_);
    if (lock_->held())
      for (const auto& sentence : mend_after_killed_run(target_)) tell(sentence);
    refuse_unless_free_or_ours(target_);  // another run may have ended just now
    on_interruption_.emplace([this] { return interrupted(); });
  } catch (...) {
    discard();
    throw;
  }
}

ResultFolder::~ResultFolder() {
  const Uninterrupted whole;
  on_interruption_.reset();
  discard();
}

void ResultFolder::make_parents() {
  std::error_code error;
  std::vector<fs::path> missing;
  for (auto p = target_.parent_path(); !fs::exists(p, error) && p.has_relative_path(); p = p.parent_path())
    missing.push_back(p);
  std::reverse(missing.begin(), missing.end());
  for (const auto& p : missing) {
    if (fs::create_directory(p, error)) made_.push_back(p);
    if (error) throw CannotWrite(fmt::format("{}: cannot be made ({})", p.string(), error.message()));
  }
}

void ResultFolder::discard() {
  take_away_aside();
  aside_.clear();
  give_back();
}

void ResultFolder::take_away_aside() const {
  if (!aside_.empty()) take_away(aside_);
}

void ResultFolder::give_back() {
  if (lock_) lock_->release();
  std::error_code ignored;
  for (auto p = made_.rbegin(); p != made_.rend(); ++p) fs::remove(*p, ignored);  // none that holds anything
  made_.clear();
}

std::string ResultFolder::interrupted() {
  // The thread that writes may be at work with what is known of the folder: that stays, so that whatever it still tries
  // fails in the folder aside and nowhere else.
  take_away_aside();
  give_back();
  std::error_code error;
  if (published_) return "the results in " + target_.string() + " are whole";
  const std::string stands = fs::exists(target_, error) && holds_a_result(target_)
                                 ? "the earlier result in " + target_.string() + " is as it was"
                                 : "nothing was written";
  return when_interrupted_.empty() ? stands : stands + "; " + when_interrupted_;
}

void ResultFolder::when_interrupted(std::string sentence) {
  const Uninterrupted whole;
  when_interrupted_ = std::move(sentence);
}

void ResultFolder::tell(const std::string& sentence) const {
  if (say_) say_(sentence);
}

fs::path ResultFolder::open() {
  const Uninterrupted whole;
  if (aside_.empty()) aside_ = make_beside(target_, "writing");
  return aside_;
}

void ResultFolder::publish() {
  const Uninterrupted whole;
  refuse_unless_free_or_ours(target_);  // it may have changed during the run
  try {
    folder_to_disk(aside_);  // before any name leads to it: a power failure must not find a new result with holes
  } catch (const NotOnDisk& e) {
    throw CannotWrite(
        fmt::format("{}: the disk does not say that it is written ({}), so nothing was replaced; check the disk, or "
                    "choose another one with --out",
                    as_it_will_be_called(e.path).string(), e.reason));
  }
  const auto earlier = put_in_place(aside_, target_);
  aside_.clear();
  published_ = true;
  if (const auto why = why_the_earlier_stays(earlier); !why.empty())
    tell(fmt::format("{}: the new results are in place; {}: see {}", target_.string(), why, earlier.string()));
  discard();  // whoever dies of a closed pipe while printing leaves no lock
}

std::string ResultFolder::why_the_earlier_stays(const fs::path& earlier) const {
  try {
    names_to_disk(target_.parent_path());  // before the earlier ones go
    for (const auto& made : made_) names_to_disk(made.parent_path());
  } catch (const NotOnDisk& e) {
    return earlier.empty()
               ? ""
               : fmt::format("the disk does not say that their name is written ({}), so the earlier ones stay",
                             e.reason);
  }
  if (earlier.empty()) return "";
  std::string foreign;
  if (!holds_only_ours(earlier, &foreign))  // laid into it this very moment
    return fmt::format("the earlier ones hold \"{}\", which evenpull did not write, so they stay", foreign);
  const auto why = take_away(earlier);
  return why.empty() ? "" : fmt::format("the earlier ones cannot be removed wholly ({})", why);
}

fs::path ResultFolder::as_it_will_be_called(const fs::path& file) const {
  // The folder aside is gone when a message is read.
  const auto name = file.lexically_relative(aside_);
  return name.empty() || name == "." ? target_ : target_ / name;
}

void ResultFolder::cannot_write(const fs::path& file, const std::string& reason) const {
  throw CannotWrite(fmt::format("{}: cannot be written ({}); check the folder and the free space",
                                as_it_will_be_called(file).string(), reason));
}

void ResultFolder::draw(const std::function<void()>& work) const {
  try {
    work();
  } catch (const CannotWriteFile& e) {
    cannot_write(e.path, e.reason);
  } catch (const fs::filesystem_error& e) {
    cannot_write(e.path1(), e.code().message());
  }
}

void ResultFolder::write(const std::string& name, const std::string& text) {
  const auto path = open() / name;
  errno = 0;
  std::ofstream out(path, std::ios::binary);
  out << text;
  out.close();
  if (!out) cannot_write(path, std::strerror(errno));
}

}  // namespace evenpull
