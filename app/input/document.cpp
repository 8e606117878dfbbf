#include "app/input/document.hpp"

#include "app/input/plain_text.hpp"
#include "app/input/raw_file.hpp"
#include "app/input/toml_bounds.hpp"
#include "app/input/toml_slip.hpp"
#include "app/text/most.hpp"
#include "app/text/quoted.hpp"

#include <fmt/format.h>

#define TOML_HEADER_ONLY 0
#include <toml++/toml.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

constexpr std::size_t most_shown_of_key = 100;

FilePlace place_of(const toml::source_region& s) {
  return {static_cast<int>(s.begin.line), static_cast<int>(s.begin.column)};
}

Entry convert(const toml::node& node) {
  Entry e;
  e.place = place_of(node.source());
  if (const auto* table = node.as_table()) {
    e.kind = Entry::Kind::table;
    e.text = "{...}";
    for (const auto& [key, value] : *table) {
      auto& inner = e.table[std::string(key.str())] = convert(value);
      // A table that only exists through its children ([a.b] without [a]) has no place of its own.
      if (inner.place.line == 0) inner.place = place_of(key.source());
    }
  } else if (const auto* list = node.as_array()) {
    e.kind = Entry::Kind::list;
    e.text = "[...]";
    for (const auto& value : *list) e.list.push_back(convert(value));
  } else if (const auto* text = node.as_string()) {
    e.kind = Entry::Kind::text;
    e.text = text->get();
  } else if (const auto* integer = node.as_integer()) {
    e.kind = Entry::Kind::integer;
    e.number = static_cast<double>(integer->get());
    e.text = std::to_string(integer->get());
  } else if (const auto* number = node.as_floating_point()) {
    e.kind = Entry::Kind::number;
    e.number = number->get();
    e.text = std::isfinite(e.number) ? fmt::format("{:.12g}", e.number)
             : std::isnan(e.number)  ? "nan"
             : e.number > 0          ? "inf"
                                     : "-inf";
  } else if (const auto* boolean = node.as_boolean()) {
    e.kind = Entry::Kind::boolean;
    e.boolean = boolean->get();
    e.text = e.boolean ? "true" : "false";
  } else {
    e.text = "a date or time";
  }
  return e;
}

std::string where(const std::string& file, FilePlace place) {
  if (place.line == 0) return shown_file(file);
  if (place.column == 0) return fmt::format("{}:{}", shown_file(file), place.line);
  return fmt::format("{}:{}:{}", shown_file(file), place.line, place.column);
}

void index_places(const Entry& e, const std::string& path, std::map<std::string, FilePlace>& places) {
  if (!path.empty()) places[path] = e.place;
  for (const auto& [key, value] : e.table)
    index_places(value, path.empty() ? key : fmt::format("{}.{}", path, key), places);
  for (size_t i = 0; i < e.list.size(); ++i) index_places(e.list[i], nth(path, i), places);
}

int last_line(const std::string& text) {
  const auto end = text.find_last_not_of(" \t\r\n");
  return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<long>(end), '\n'));
}

}  // namespace

CaseFileError::CaseFileError(std::string file_, FilePlace place_, std::string key_, const std::string& sentence)
    : std::runtime_error(where(file_, place_) + ": " + (key_.empty() ? "" : escaped(key_, most_shown_of_key) + ": ") +
                         on_one_line(sentence)),
      file(std::move(file_)),
      place(place_),
      key(std::move(key_)) {}

std::string nth(const std::string& key, std::size_t index) { return fmt::format("{}[{}]", key, index + 1); }

std::string Entry::shown() const { return kind == Kind::text ? in_quotes(text) : text; }

FilePlace Places::of(std::string key) const {
  for (;;) {
    if (const auto found = at.find(key); found != at.end() && found->second.line > 0) return found->second;
    const auto cut = key.find_last_of(".[");
    if (cut == std::string::npos) return end;
    key.resize(cut);
  }
}

Places places_of(const Entry& document) {
  Places out;
  out.end = {document.last_line, 0};
  index_places(document, "", out.at);
  return out;
}

Entry read_document(const std::string& path, DocumentKind kind) { return document_of(read_raw(path), path, kind); }

Entry document_of(const std::string& bytes, const std::string& path, DocumentKind kind) {
  const auto text = plain_text(bytes, path);
  check_bounds(text, path, kind == DocumentKind::a_case ? most::case_values : most::order_values);
  try {
    auto document = convert(toml::parse(text, path));
    document.last_line = last_line(text);
    document.file_text = text;
    return document;
  } catch (const toml::parse_error& e) {
    const auto place = place_of(e.source());
    throw CaseFileError(path, place, "", words_for_slip(text, place, e.description()));
  }
}

}  // namespace evenpull
