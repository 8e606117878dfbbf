// The checksum of a file, so that a page of paper and the files that it speaks of can be held against each other.
#pragma once

#include <string>

namespace evenpull {

/// SHA-256 (FIPS 180-4) in hexadecimal, by GLib.
std::string sha256(const std::string& bytes);

}  // namespace evenpull
