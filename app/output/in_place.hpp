// A finished folder put in the place of an earlier one, and what a run that was killed on the way left beside it.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace evenpull {

/// A new folder beside `target` under a hidden name that says what for. Throws CannotWrite.
std::filesystem::path make_beside(const std::filesystem::path& target, const char* purpose);

enum class Exchange { at_once_if_possible, in_two_steps };
/// Puts `fresh` where `target` is or shall be; gives where the earlier folder lies now (empty if there was none). At
/// once where the file system can exchange two names, else in two steps. Throws CannotWrite with the earlier one in its
/// place.
std::filesystem::path put_in_place(const std::filesystem::path& fresh, const std::filesystem::path& target,
                                   Exchange how = Exchange::at_once_if_possible);

/// Takes a folder of ours away; gives why not if it cannot.
std::string take_away(const std::filesystem::path& folder);

/// What a killed run left beside `target`: an earlier result without a successor is put back, all else of ours is taken
/// away, and what holds a file of somebody's own stays. Only for whoever holds the lock. Gives what there is to say.
std::vector<std::string> mend_after_killed_run(const std::filesystem::path& target);

}  // namespace evenpull
