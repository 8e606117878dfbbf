// A sound file as numbers: one channel, full scale 1. Only recording.cpp knows the library that reads them.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

struct Recording {
  double rate = 0;              ///< samples a second
  std::vector<double> samples;  ///< mean of the channels
  double clipped_share = 0;     ///< of the samples that stand with their neighbours at full scale in any channel
};

/// Throws CaseFileError: no such file, no sound file, larger or longer than most::recording_*, of a rate that no
/// recorder has.
Recording read_recording(const std::string& path);

}  // namespace evenpull
