#include "app/case_table.hpp"

#include "app/nearest.hpp"

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

std::string shown(const Entry& e) {
  if (e.kind == Entry::Kind::text) return '"' + e.text + '"';
  return e.text;
}

}  // namespace

std::string nth(const std::string& key, size_t index) {
  return fmt::format("{}[{}]", key, index + 1);
}

std::string plain_word(std::string word) {
  for (auto& c : word)
    c = (c == '_' || c == '-') ? ' ' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return word;
}

void index_places(const Entry& e, const std::string& path, std::map<std::string, Place>& places) {
  if (!path.empty()) places[path] = e.place;
  for (const auto& [key, value] : e.table) index_places(value, path.empty() ? key : path + "." + key, places);
  for (size_t i = 0; i < e.list.size(); ++i) index_places(e.list[i], nth(path, i), places);
}

void CaseContext::note_default(const std::string& key, const std::string& value, const std::string& why) {
  defaults_used.push_back({key, value, why});
}

Place CaseContext::place_of(std::string key) const {
  for (;;) {
    if (const auto at = places.find(key); at != places.end() && at->second.line > 0) return at->second;
    const auto cut = key.find_last_of(".[");
    if (cut == std::string::npos) return {};
    key.resize(cut);
  }
}

void CaseContext::fail(const std::string& key, const std::string& sentence) const {
  throw CaseFileError(file, place_of(key), key, sentence);
}

CaseTable::CaseTable(CaseContext& context, const Entry& entry, std::string path, std::vector<std::string> known)
    : context_(&context), entry_(&entry), path_(std::move(path)) {
  if (entry.kind != Entry::Kind::table)
    context.fail(path_, fmt::format("= {} must be a table with the keys {}", shown(entry), list_words(known)));
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
      (e && e->kind != Entry::Kind::table && e->kind != Entry::Kind::list ? "= " + shown(*e) + " " : "") + sentence);
}

void CaseTable::missing(const std::string& key, const std::string& example) const {
  context_->fail(path(key), fmt::format("is missing; write for example {}", example));
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
      context_->fail(full_key, fmt::format("= {} {}", shown(e), error.what()));
    }
  } else {
    context_->fail(
        full_key,
        plain ? fmt::format("= {} has no unit; write {} as text, like \"{}\"", shown(e), words.name, words.example)
              : fmt::format("= {} is not {}; write it like \"{}\"", shown(e), words.name, words.example));
  }
  if (!std::isfinite(value)) context_->fail(full_key, fmt::format("= {} is not a number; {}", shown(e), range.usual));
  if (value < 0 && range.low >= 0)
    context_->fail(full_key, fmt::format("= {} must not be negative; {}", shown(e), range.usual));
  if (value < range.low || value > range.high)
    context_->fail(full_key, fmt::format("= {} makes no sense here; {}", shown(e), range.usual));
  return value;
}

double CaseTable::quantity(const std::string& key, Quantity kind, Range range) const {
  const auto* e = find(key);
  if (!e) missing(key, fmt::format("{} = \"{}\" ({})", key, words_of(kind).example, range.usual));
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

std::vector<double> CaseTable::quantities(const std::string& key, Quantity kind, Range range) const {
  const auto* e = find(key);
  const auto example = fmt::format("{} = [\"{}\", ...]", key, words_of(kind).example);
  if (!e) missing(key, example);
  if (e->kind != Entry::Kind::list)
    context_->fail(path(key), fmt::format("= {} must be a list, for example {}", shown(*e), example));
  std::vector<double> values;
  for (size_t i = 0; i < e->list.size(); ++i) values.push_back(number_of(e->list[i], nth(path(key), i), kind, range));
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
    context_->fail(path(key), fmt::format("= {} must be a whole number; {}", shown(*e), range.usual));
  return static_cast<int>(e->number);
}

bool CaseTable::flag_or(const std::string& key, bool fallback, const char* why) const {
  const auto* e = find(key);
  if (!e) {
    context_->note_default(path(key), fallback ? "true" : "false", why);
    return fallback;
  }
  if (e->kind != Entry::Kind::boolean)
    context_->fail(path(key), fmt::format("= {} must be true or false, without quotes", shown(*e)));
  return e->boolean;
}

std::string CaseTable::text(const std::string& key, const std::string& example) const {
  const auto* e = find(key);
  if (!e) missing(key, fmt::format("{} = \"{}\"", key, example));
  if (e->kind != Entry::Kind::text) context_->fail(path(key), fmt::format("= {} must be text in quotes", shown(*e)));
  return e->text;
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

std::vector<CaseTable> CaseTable::tables(const std::string& key, const std::vector<std::string>& known) const {
  std::vector<CaseTable> out;
  const auto* e = find(key);
  if (!e) return out;
  if (e->kind != Entry::Kind::list)
    context_->fail(path(key),
                   fmt::format("must be a list of tables; begin each with [[{}]] in double brackets", path(key)));
  for (size_t i = 0; i < e->list.size(); ++i) out.emplace_back(*context_, e->list[i], nth(path(key), i), known);
  return out;
}

}  // namespace evenpull
