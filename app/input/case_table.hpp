// One table of a case file, read key by key with checked kinds and ranges. Every complaint names file, line, key and
// value; every default that steps in is written down.
#pragma once

#include "app/input/document.hpp"
#include "app/text/most.hpp"
#include "app/text/units.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace evenpull {

/// What makes sense for a value, in SI, both ends allowed; `usual` is for the message ("usually 0.3 to 6 m").
struct Range {
  double low;
  double high;
  const char* usual;
};

/// How many entries a list may have (app/text/most.hpp), and how one is written.
struct Count {
  size_t least;
  size_t most;
  std::string example;
};

/// A default with the reason it has. `why` is a source, or "estimate".
struct Default {
  double value;
  const char* printed;
  const char* why;
};

/// What a case leaves to be computed from the rest of it: done once it is whole (complete_case). The numbers are places
/// among the defaults, held so that these stay in the order of the file.
struct LeftOpen {
  std::optional<std::size_t> cooling_time;  ///< of the iron
  std::optional<std::size_t> first_passes;  ///< of the first stage
  std::optional<std::size_t> all_stages;    ///< with their passes
  double full_dose = 1;
};

/// What all tables of one file share.
struct CaseContext {
  std::string file;
  Units units;
  Places places;
  std::vector<DefaultUsed> defaults_used;
  std::vector<std::string> doubts;
  LeftOpen left_open;

  CaseContext(std::string file_, const Entry& document) : file(std::move(file_)), places(places_of(document)) {}

  void note_default(const std::string& key, const std::string& value, const std::string& why);
  /// The same of a value that is not known yet; returns its place among the defaults.
  std::size_t hold_default(const std::string& key);
  /// "line 12", where the key stands: for a sentence about another one.
  std::string line_of(const std::string& key) const;
  [[noreturn]] void fail(const std::string& key, const std::string& sentence) const;
};

class CaseTable {
 public:
  /// Refuses any key that is not among `known`, naming the nearest.
  CaseTable(CaseContext& context, const Entry& entry, std::string path, std::vector<std::string> known);

  bool has(const std::string& key) const { return find(key) != nullptr; }
  std::string path(const std::string& key) const { return path_.empty() ? key : path_ + "." + key; }
  const std::string& own_path() const { return path_; }
  CaseContext& context() const { return *context_; }
  [[noreturn]] void fail(const std::string& key, const std::string& sentence) const;  ///< about a key that is there
  [[noreturn]] void missing(const std::string& key, const std::string& example) const;

  double quantity(const std::string& key, Quantity kind, Range range) const;
  std::optional<double> quantity_if(const std::string& key, Quantity kind, Range range) const;
  double quantity_or(const std::string& key, Quantity kind, Range range, Default fallback) const;
  std::vector<double> quantities(const std::string& key, Quantity kind, Range range, const Count& count) const;
  /// The entries of a list, as many as may be.
  const std::vector<Entry>& list(const std::string& key, const Count& count) const;
  /// A share, or a length divided by `whole` [m].
  double share_or_length(const Entry& entry, const std::string& key, double whole, Range range) const;
  /// One value for both yarns, or { warp = ..., fill = ... }.
  std::optional<Yarns> yarns_if(const std::string& key, Quantity kind, Range range) const;

  int whole_number(const std::string& key, Range range) const;
  bool flag(const std::string& key) const;  ///< of a key that is there
  bool flag_or(const std::string& key, bool fallback, const char* why) const;
  /// Text that will be printed: no hidden characters, at most so many letters, not empty.
  std::string text(const std::string& key, const std::string& example, size_t letters = most::name_letters) const;
  std::string text_or(const std::string& key, const std::string& fallback) const;
  /// Text that may go over several lines, which become one.
  std::string prose_or_nothing(const std::string& key) const;
  /// Index into `words`; -1 if the key is absent.
  int choice_if(const std::string& key, const std::vector<std::string>& words) const;
  int choice(const std::string& key, const std::vector<std::string>& words) const;

  CaseTable table(const std::string& key, std::vector<std::string> known, const std::string& example) const;
  /// An empty table when the key is absent, so that its defaults are filled in as usual.
  CaseTable table_or_empty(const std::string& key, std::vector<std::string> known) const;
  std::vector<CaseTable> tables(const std::string& key, const std::vector<std::string>& known, size_t most) const;

  const Entry* find(const std::string& key) const;
  const Entry& entry() const { return *entry_; }
  double number_of(const Entry& entry, const std::string& full_key, Quantity kind, Range range) const;

 private:
  CaseContext* context_;
  const Entry* entry_;
  std::string path_;
};

/// A word with spaces, hyphens and underscores made alike, in lower case: "Full_wrap" = "full wrap".
std::string plain_word(std::string word);

}  // namespace evenpull
