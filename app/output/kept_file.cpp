#include "app/output/kept_file.hpp"

#include "app/output/run_archive.hpp"

#include <zlib.h>
#include <cereal/types/string.hpp>

#include <cstdint>
#include <sstream>
#include <utility>

namespace evenpull {
namespace {

template <class T>
std::string bytes_of(const T& value) {
  std::ostringstream out(std::ios::binary);
  cereal::BinaryOutputArchive archive(out);
  archive(value);
  return std::move(out).str();
}

RunValue value_of(const std::string& bytes) {
  std::istringstream in(bytes, std::ios::binary);
  cereal::BinaryInputArchive archive(in);
  RunValue value;
  archive(value);
  return value;
}

// Length, bytes, checksum: a piece cut off by a kill is told from a whole one.
void write_piece(std::ostream& out, const std::string& bytes) {
  const auto length = static_cast<std::uint64_t>(bytes.size());
  const auto sum = static_cast<std::uint64_t>(crc32_z(0, reinterpret_cast<const Bytef*>(bytes.data()), bytes.size()));
  out.write(reinterpret_cast<const char*>(&length), sizeof length);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.write(reinterpret_cast<const char*>(&sum), sizeof sum);
}

bool read_piece(std::istream& in, std::uint64_t most, std::string& bytes) {
  std::uint64_t length = 0, sum = 0;
  if (!in.read(reinterpret_cast<char*>(&length), sizeof length) || length > most) return false;
  bytes.resize(length);
  if (!in.read(bytes.data(), static_cast<std::streamsize>(length))) return false;
  if (!in.read(reinterpret_cast<char*>(&sum), sizeof sum)) return false;
  return sum == crc32_z(0, reinterpret_cast<const Bytef*>(bytes.data()), bytes.size());
}

// At the head of each such file, before what its runs are of.
constexpr const char* head = "evenpull, kept runs\n";

// What stands at the head of a file of ours; none: it is not ours.
std::optional<std::string> stated_in(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::error_code unknown;
  const std::uint64_t most = std::filesystem::file_size(path, unknown);
  std::string said;
  if (!in || unknown || !read_piece(in, most, said) || said.rfind(head, 0) != 0) return {};
  return said;
}

}  // namespace

std::filesystem::path kept_file_of(const std::filesystem::path& target) {
  std::filesystem::path out = target;
  out += ".unfinished";
  return out;
}

KeptFile::KeptFile(std::filesystem::path path, const std::string& stated, bool go_on) : path_(std::move(path)) {
  runs_.known = [this](const RunJob& job) { return known(job); };
  runs_.keep = [this](const RunJob& job, const RunValue& value) { keep(job, value); };
  std::error_code unknown;
  if (std::filesystem::exists(path_, unknown) && !stated_in(path_)) {  // somebody else's: it stays, and nothing is kept
    path_.clear();
    return;
  }
  if (go_on) read(head + stated);
  known_at_first_ = values_.size();
  // Written anew, without what stood behind a piece cut off; aside, so that a second interruption loses nothing.
  std::filesystem::path aside = path_;
  aside += ".new";
  out_.open(aside, std::ios::binary | std::ios::trunc);
  write_piece(out_, head + stated);
  for (const auto& [job, value] : values_) write_piece(out_, job), write_piece(out_, value);
  out_.flush();
  std::error_code failed;
  std::filesystem::rename(aside, path_, failed);
  if (failed || !out_) {
    std::filesystem::remove(aside, failed);
    out_.setstate(std::ios::failbit);
  }
}

void KeptFile::read(const std::string& stated) {
  std::ifstream in(path_, std::ios::binary);
  if (!in) return;
  std::error_code unknown;
  const std::uint64_t most = std::filesystem::file_size(path_, unknown);
  if (unknown) return;
  std::string was, job, value;
  if (!read_piece(in, most, was) || was != stated) return;
  while (read_piece(in, most, job) && read_piece(in, most, value)) values_[job] = value;
}

std::optional<RunValue> KeptFile::known(const RunJob& job) {
  const std::string key = bytes_of(job);
  std::string found;
  {
    const std::lock_guard lock(one_at_a_time_);
    const auto at = values_.find(key);
    if (at == values_.end()) return {};
    found = at->second;
  }
  return value_of(found);
}

void KeptFile::keep(const RunJob& job, const RunValue& value) {
  const std::string key = bytes_of(job), bytes = bytes_of(value);
  const std::lock_guard lock(one_at_a_time_);
  write_piece(out_, key), write_piece(out_, bytes);
  out_.flush();
}

void KeptFile::remove() {
  out_.close();
  if (path_.empty()) return;
  std::error_code ignored;
  std::filesystem::remove(path_, ignored);
}

}  // namespace evenpull
