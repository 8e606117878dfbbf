#include "app/document.hpp"

#include <fmt/format.h>

#define TOML_HEADER_ONLY 0
#include <toml++/toml.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace evenpull {
namespace {

Place place_of(const toml::source_region& s) {
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
    e.text = fmt::format("{:.12g}", e.number);
  } else if (const auto* boolean = node.as_boolean()) {
    e.kind = Entry::Kind::boolean;
    e.boolean = boolean->get();
    e.text = e.boolean ? "true" : "false";
  } else {
    e.text = "a date or time";
  }
  return e;
}

std::string read_text(const std::string& path) {
  if (std::filesystem::is_directory(path))
    throw CaseFileError(path, {}, "", "this is a folder; name the file itself, for example " + path + "/aileron.toml");
  std::ifstream in(path, std::ios::binary);
  if (!in)
    throw CaseFileError(path, {}, "",
                        fmt::format("the file cannot be opened ({}); check its name, or start a new case "
                                    "with `evenpull template > my-case.toml`",
                                    std::strerror(errno)));
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::string where(const std::string& file, Place place) {
  if (place.line == 0) return file;
  if (place.column == 0) return fmt::format("{}:{}", file, place.line);
  return fmt::format("{}:{}:{}", file, place.line, place.column);
}

}  // namespace

CaseFileError::CaseFileError(std::string file_, Place place_, std::string key_, const std::string& sentence)
    : std::runtime_error(where(file_, place_) + ": " + (key_.empty() ? "" : key_ + ": ") + sentence),
      file(std::move(file_)),
      place(place_),
      key(std::move(key_)) {}

Entry read_document(const std::string& path) {
  const auto text = read_text(path);
  try {
    return convert(toml::parse(text, path));
  } catch (const toml::parse_error& e) {
    throw CaseFileError(path, place_of(e.source()), "",
                        fmt::format("the file is not valid TOML here: {}; text stands in quotes (span = \"1800 mm\")",
                                    e.description()));
  }
}

}  // namespace evenpull
