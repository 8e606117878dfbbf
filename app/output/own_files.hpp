// Which files of a result folder are ours, at its top and in the folders within it.
#pragma once

#include <filesystem>
#include <string>

namespace evenpull {

/// True if everything in the folder, and in the folders within it, is what evenpull writes there; `foreign` gets the first
/// name that is not, as seen from the folder.
bool holds_only_ours(const std::filesystem::path& folder, std::string* foreign = nullptr);
/// True if a result (plan.json or its like) stands in the folder.
bool holds_a_result(const std::filesystem::path& folder);

}  // namespace evenpull
