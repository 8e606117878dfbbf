#include "app/sound/recording.hpp"

#include "app/input/document.hpp"
#include "app/text/most.hpp"
#include "app/text/quoted.hpp"

#include <fmt/format.h>
#include <sndfile.h>

#include <cmath>
#include <filesystem>
#include <memory>

namespace evenpull {
namespace {

constexpr int least_rate = 4000, most_rate = 384000, most_channels = 16;
constexpr double full_scale = 0.998;  // what converters and 16 bits leave below 1
constexpr int clipped_run = 3;        // samples in a row

[[noreturn]] void refuse(const std::string& path, const std::string& sentence) {
  throw CaseFileError(path, {}, "--wav", sentence);
}

void see_that_it_is_a_file(const std::string& path) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status))
    refuse(path, "is not there; give the recording that the phone or recorder wrote");
  if (!std::filesystem::is_regular_file(status)) refuse(path, "is no file; give a recording as a WAV file");
  const auto bytes = std::filesystem::file_size(path, error);
  if (error) refuse(path, "cannot be read");
  if (bytes > most::recording_bytes)
    refuse(path, fmt::format("is larger than {} MB, the most that a recording of taps may take; ten seconds are plenty",
                             most::recording_bytes / 1000000));
}

}  // namespace

Recording read_recording(const std::string& path) {
  see_that_it_is_a_file(path);
  SF_INFO info{};
  const std::unique_ptr<SNDFILE, int (*)(SNDFILE*)> file(sf_open(path.c_str(), SFM_READ, &info), sf_close);
  if (!file)
    refuse(path,
           "is no sound file that can be read; save the recording as WAV (other common kinds may be read as well)");
  if (info.samplerate < least_rate || info.samplerate > most_rate || info.channels < 1 || info.channels > most_channels)
    refuse(path, fmt::format("has {} samples a second in {} channels; {} to {} and 1 to {} can be read",
                             info.samplerate, info.channels, least_rate, most_rate, most_channels));
  if (info.frames > most::recording_seconds * info.samplerate)
    refuse(path, fmt::format("is longer than {} s; cut it to the taps of one bay", most::recording_seconds));
  Recording out;
  out.rate = info.samplerate;
  const auto channels = static_cast<std::size_t>(info.channels);
  std::vector<double> all(static_cast<std::size_t>(info.frames) * channels);
  const auto got = sf_readf_double(file.get(), all.data(), info.frames);
  const auto frames = static_cast<std::size_t>(got > 0 ? got : 0);
  std::vector<int> run(channels, 0);
  std::size_t clipped = 0;
  for (std::size_t i = 0; i < frames; ++i) {
    double sum = 0;
    for (std::size_t c = 0; c < channels; ++c) {
      const double x = all[i * channels + c];
      if (!std::isfinite(x)) refuse(path, "holds samples that are no numbers; record it again");
      run[c] = std::abs(x) >= full_scale ? run[c] + 1 : 0;
      if (run[c] == clipped_run) clipped += clipped_run;
      else if (run[c] > clipped_run) ++clipped;
      sum += x;
    }
    out.samples.push_back(sum / static_cast<double>(channels));
  }
  if (frames > 0) out.clipped_share = static_cast<double>(clipped) / static_cast<double>(frames * channels);
  return out;
}

}  // namespace evenpull
