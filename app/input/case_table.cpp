#include "app/input/case_table.hpp"

#include "app/input/instead.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace evenpull {
namespace {

const Entry empty_table = [] {
  Entry e;
  e.kind = Entry::Kind::table;
  return e;
}();

/// A share of 2 is more often 2 %.
std::string percent_hint(const Entry& e, double value, Range range) {
  const bool plain = e.kind == Entry::Kind::number || e.kind == Entry::Kind::integer;
  // Where a whole is within the range, 2 is more than 2 %, and no slip of that kind.
  if (!plain || range.high >= 1 || value <= range.high || value / 100 > range.high) return "";
  return fmt::format("; a plain number is a share: write \"{} %\" or {}", e.text, print_number(value / 100, 12));
}

void check_text(const CaseTable& t, const std::string& key, const std::string& text, size_t letters) {
  if (text.find_first_not_of(' ') == std::string::npos) t.fail(key, "is empty; write something, or leave the key out");
  size_t count = 0;
  for (size_t at = 0; at < text.size(); ++count) {
    const Rune r = rune_at(text, at);
    if (is_hidden(r.code))
      t.fail(key, fmt::format("holds \"{}\", which cannot be printed; write plain text on one line",
                              escaped(std::string_view(text).substr(at, r.bytes))));
    at += r.bytes;
  }
  if (count > letters) t.fail(key, fmt::format("has {} characters; {} is the most", count, letters));
}

}  // namespace

std::string plain_word(std::string word) {
  for (auto& c : word)
    c = (c == '_' || c == '-') ? ' ' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return word;
}

void CaseContext::note_default(const std::string& key, const std::string& value, const std::string& why) {
  defaults_used.push_back({key, value, why});
}

std::size_t CaseContext::hold_default(const std::string& key) {
  defaults_used.push_back({key, "", ""});
  return defaults_used.size() - 1;
}

std::string CaseContext::line_of(const std::string& key) const { return fmt::format("line {}", places.of(key).line); }

void CaseContext::fail(const std::string& key, const std::string& sentence) const {
  throw CaseFileError(file, places.of(key), key, sentence);
}

CaseTable::CaseTable(CaseContext& context, const Entry& entry, std::string path, std::vector<std::string> known)
    : context_(&context), entry_(&entry), path_(std::move(path)) {
  if (entry.kind != Entry::Kind::table)
    context.fail(path_, fmt::format("= {} must be a table with the keys {}", entry.shown(), list_words(known)));
  // The first unknown key of the file, not of the alphabet, is what a person looks for.
  const Entry* first = nullptr;
  const std::string* name = nullptr;
  for (const auto& [key, value] : entry.table) {
    if (std::find(known.begin(), known.end(), key) != known.end()) continue;
    if (!first || std::pair(value.place.line, value.place.column) < std::pair(first->place.line, first->place.column)) {
      first = &value;
      name = &key;
    }
  }
  if (!first) return;
  if (const auto instead = instead_of(path_, *name); !instead.empty()) context.fail(this->path(*name), instead);
  const auto guess = nearest(*name, known);
  const auto in = path_.empty() ? std::string("at the top of the file") : "in [" + path_ + "]";
  context.fail(this->path(*name), guess.empty()
                                      ? fmt::format("this key is not known {}; known here: {}", in, list_words(known))
                                      : fmt::format("this key is not known {}; did you mean \"{}\"?", in, guess));
}

const Entry* CaseTable::find(const std::string& key) const {
  const auto at = entry_->table.find(key);
  return at == entry_->table.end() ? nullptr : &at->second;
}

void CaseTable::fail(const std::string& key, const std::string& sentence) const {
  const auto* e = find(key);
  context_->fail(
      path(key),
      (e && e->kind != Entry::Kind::table && e->kind != Entry::Kind::list ? "= " + e->shown() + " " : "") + sentence);
}

void CaseTable::missing(const std::string& key, const std::string& example) const {
  const auto sentence = fmt::format("is missing; write for example {}", example);
  // What belongs to no table stands at the top; a table is added at the end.
  if (path_.empty() && example[0] != '[') throw CaseFileError(context_->file, {1, 0}, key, sentence);
  context_->fail(path(key), sentence);
}

double CaseTable::number_of(const Entry& e, const std::string& full_key, Quantity kind, Range range) const {
  const auto words = words_of(kind);
  double value = 0;
  const bool plain = e.kind == Entry::Kind::number || e.kind == Entry::Kind::integer;
  if (plain && kind == Quantity::fraction) {
    value = round_12(e.number);
  } else if (e.kind == Entry::Kind::text) {
    try {
      value = context_->units.parse(e.text, kind);
    } catch (const UnitError& error) {
      context_->fail(full_key, fmt::format("= {} {}", e.shown(), error.what()));
    }
  } else {
    context_->fail(
        full_key,
        plain ? fmt::format("= {} has no unit; write {} in quotes, like {}", e.shown(), words.name, words.example)
              : fmt::format("= {} is not {}; write it like {}", e.shown(), words.name, words.example));
  }
  if (!std::isfinite(value)) context_->fail(full_key, fmt::format("= {} is not a number; {}", e.shown(), range.usual));
  if (value < 0 && range.low >= 0)
    context_->fail(full_key, fmt::format("= {} must not be negative; {}", e.shown(), range.usual));
  if (value < range.low || value > range.high)
    context_->fail(full_key, fmt::format("= {} makes no sense here: it may be {}; {}{}", e.shown(),
                                         print_bounds(kind, range.low, range.high), range.usual,
                                         kind == Quantity::fraction ? percent_hint(e, value, range) : ""));
  return value;
}

double CaseTable::quantity(const std::string& key, Quantity kind, Range range) const {
  const auto* e = find(key);
  if (!e)
    context_->fail(path(key), fmt::format("is missing; write {} like {}; {}", words_of(kind).name,
                                          words_of(kind).example, range.usual));
  return number_of(*e, path(key), kind, range);
}

std::optional<double> CaseTable::quantity_if(const std::string& key, Quantity kind, Range range) const {
  const auto* e = find(key);
  return e ? std::optional(number_of(*e, path(key), kind, range)) : std::nullopt;
}

double CaseTable::quantity_or(const std::string& key, Quantity kind, Range range, Default fallback) const {
  if (const auto* e = find(key)) return number_of(*e, path(key), kind, range);
  context_->note_default(path(key), fallback.printed, fallback.why);
  return round_12(fallback.value);
}

const std::vector<Entry>& CaseTable::list(const std::string& key, const Count& count) const {
  const auto* e = find(key);
  if (!e) missing(key, count.example);
  if (e->kind != Entry::Kind::list)
    context_->fail(path(key), fmt::format("= {} must be a list, for example {}", e->shown(), count.example));
  if (e->list.size() < count.least || e->list.size() > count.most)
    context_->fail(path(key), fmt::format("lists {}; from {} to {} may be listed, for example {}", e->list.size(),
                                          count.least, count.most, count.example));
  return e->list;
}

std::vector<double> CaseTable::quantities(const std::string& key, Quantity kind, Range range,
                                          const Count& count) const {
  const auto& entries = list(key, count);
  std::vector<double> values;
  for (size_t i = 0; i < entries.size(); ++i) values.push_back(number_of(entries[i], nth(path(key), i), kind, range));
  return values;
}

double CaseTable::share_or_length(const Entry& e, const std::string& full_key, double whole, Range range) const {
  const bool plain = e.kind == Entry::Kind::number || e.kind == Entry::Kind::integer;
  const bool share =
      plain || (e.kind == Entry::Kind::text && (e.text.find('%') != std::string::npos ||
                                                e.text.find_first_not_of("0123456789.+-eE/ ") == std::string::npos));
  if (share) return number_of(e, full_key, Quantity::fraction, range);
  return round_12(number_of(e, full_key, Quantity::length, {range.low * whole, range.high * whole, range.usual}) /
                  whole);
}

std::optional<Yarns> CaseTable::yarns_if(const std::string& key, Quantity kind, Range range) const {
  const auto* e = find(key);
  if (!e) return std::nullopt;
  if (e->kind == Entry::Kind::table) {
    const CaseTable both(*context_, *e, path(key), {"warp", "fill"});
    return Yarns{both.quantity("warp", kind, range), both.quantity("fill", kind, range)};
  }
  const double value = number_of(*e, path(key), kind, range);
  return Yarns{value, value};
}

int CaseTable::whole_number(const std::string& key, Range range) const {
  const auto* e = find(key);
  if (!e) missing(key, fmt::format("{} = {} ({})", key, static_cast<int>(range.low), range.usual));
  if (e->kind != Entry::Kind::integer || e->number < range.low || e->number > range.high)
    context_->fail(path(key), fmt::format("= {} must be a whole number from {:.0f} to {:.0f}; {}", e->shown(),
                                          range.low, range.high, range.usual));
  return static_cast<int>(e->number);
}

bool CaseTable::flag(const std::string& key) const {
  const auto* e = find(key);
  if (e->kind != Entry::Kind::boolean)
    context_->fail(path(key), fmt::format("= {} must be true or false, without quotes", e->shown()));
  return e->boolean;
}

bool CaseTable::flag_or(const std::string& key, bool fallback, const char* why) const {
  if (has(key)) return flag(key);
  context_->note_default(path(key), fallback ? "true" : "false", why);
  return fallback;
}

std::string CaseTable::text(const std::string& key, const std::string& example, size_t letters) const {
  const auto* e = find(key);
  if (!e) missing(key, fmt::format("{} = \"{}\"", key, example));
  if (e->kind != Entry::Kind::text) context_->fail(path(key), fmt::format("= {} must be text in quotes", e->shown()));
  check_text(*this, key, e->text, letters);
  return e->text;
}

std::string CaseTable::prose_or_nothing(const std::string& key) const {
  const auto* e = find(key);
  if (!e) return "";
  if (e->kind != Entry::Kind::text) context_->fail(path(key), fmt::format("= {} must be text in quotes", e->shown()));
  auto text = e->text;
  for (auto& c : text)
    if (c == '\n' || c == '\r' || c == '\t') c = ' ';
  check_text(*this, key, text, most::string_letters);
  return text;
}

std::string CaseTable::text_or(const std::string& key, const std::string& fallback) const {
  return has(key) ? text(key, "") : fallback;
}

int CaseTable::choice_if(const std::string& key, const std::vector<std::string>& words) const {
  if (!has(key)) return -1;
  const auto word = plain_word(text(key, words.front()));
  for (size_t i = 0; i < words.size(); ++i)
    if (plain_word(words[i]) == word) return static_cast<int>(i);
  const auto guess = nearest(word, words);
  fail(key,
       fmt::format("is not one of {}{}", list_words(words), guess.empty() ? "" : "; did you mean \"" + guess + "\"?"));
}

int CaseTable::choice(const std::string& key, const std::vector<std::string>& words) const {
  const int index = choice_if(key, words);
  if (index < 0) missing(key, fmt::format("{} = \"{}\" (one of {})", key, words.front(), list_words(words)));
  return index;
}

CaseTable CaseTable::table(const std::string& key, std::vector<std::string> known, const std::string& example) const {
  const auto* e = find(key);
  if (!e) missing(key, example);
  return CaseTable(*context_, *e, path(key), std::move(known));
}

CaseTable CaseTable::table_or_empty(const std::string& key, std::vector<std::string> known) const {
  const auto* e = find(key);
  return CaseTable(*context_, e ? *e : empty_table, path(key), std::move(known));
}

std::vector<CaseTable> CaseTable::tables(const std::string& key, const std::vector<std::string>& known,
                                         size_t most) const {
  std::vector<CaseTable> out;
  const auto* e = find(key);
  if (!e) return out;
  if (e->kind != Entry::Kind::list)
    context_->fail(path(key), fmt::format("= {} must be a list of tables; begin each with [[{}]] in double brackets",
                                          e->shown(), path(key)));
  if (e->list.size() > most)
    context_->fail(path(key), fmt::format("there are {} of them; {} is the most", e->list.size(), most));
  for (size_t i = 0; i < e->list.size(); ++i) out.emplace_back(*context_, e->list[i], nth(path(key), i), known);
  return out;
}

}  // namespace evenpull
