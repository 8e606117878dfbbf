#include "app/input/log_lines.hpp"

#include "app/input/document.hpp"
#include "app/input/read_measured.hpp"

#include <fmt/format.h>
#include <zlib.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace evenpull {
namespace {

using LogJson = nlohmann::ordered_json;

constexpr const char* head_key = "evenpull_log";
constexpr std::array<std::pair<LogEntry::Kind, const char*>, 5> kinds_of_entry = {
    {{LogEntry::Kind::ironed, "ironed"},
     {LogEntry::Kind::read, "read"},
     {LogEntry::Kind::jolted, "jolted"},
     {LogEntry::Kind::remark, "remark"},
     {LogEntry::Kind::taken_back, "taken back"}}};

std::string checksum(const std::string& text) {
  return fmt::format("{:08x}", crc32_z(0, reinterpret_cast<const Bytef*>(text.data()), text.size()));
}

// The checksum is of the line without it.
std::string sealed(LogJson j) {
  const std::string sum = checksum(j.dump(-1, ' ', false, LogJson::error_handler_t::replace));
  j["sum"] = sum;
  return j.dump(-1, ' ', false, LogJson::error_handler_t::replace) + "\n";
}

LogJson unsealed(const std::string& line) {
  LogJson j = LogJson::parse(line);
  const std::string sum = j.at("sum").get<std::string>();
  j.erase("sum");
  if (checksum(j.dump(-1, ' ', false, LogJson::error_handler_t::replace)) != sum) throw std::runtime_error("checksum");
  return j;
}

// To a millionth of a degree: what a stage was called comes back as the same temperature.
double degF(double kelvin) { return std::round((kelvin * 1.8 - 459.67) * 1e6) / 1e6; }
double kelvin(double fahrenheit) { return (fahrenheit + 459.67) / 1.8; }

const char* log_side(Side side) { return side == Side::top ? "top" : "bottom"; }
Side side_of(const LogJson& j) {
  const auto word = j.at("side").get<std::string>();
  if (word != "top" && word != "bottom") throw std::runtime_error("side");
  return word == "top" ? Side::top : Side::bottom;
}

LogJson step_json(const OrderStep& s) {
  return {{"stage_degF", degF(s.temperature)},
          {"pass", s.pass},
          {"side", log_side(s.side)},
          {"bay", s.bay},
          {"strip", s.strip},
          {"dose", s.dose}};
}

OrderStep step_of(const LogJson& j) {
  OrderStep s;
  s.temperature = kelvin(j.at("stage_degF").get<double>());
  s.pass = j.at("pass").get<int>();
  s.side = side_of(j);
  s.bay = j.at("bay").get<int>(), s.strip = j.at("strip").get<int>();
  s.dose = j.at("dose").get<double>();
  if (!(std::isfinite(s.temperature) && s.pass > 0 && s.bay > 0 && s.strip > 0 && s.dose > 0 && s.dose <= 1))
    throw std::runtime_error("step");
  return s;
}

void put_reading(LogJson& j, const LogEntry& e) {
  j["after_degF"] = degF(e.after);
  if (e.reading.shape) {
    j["what"] = shape_name(*e.reading.shape);
    j["value_mm"] = e.reading.value * 1e3;
    return;
  }
  j["side"] = log_side(e.reading.side);
  j["bay"] = e.reading.bay + 1;
  if (e.reading.tone > 0) {
    j["tone_Hz"] = e.reading.tone;
    return;
  }
  j["weight_g"] = e.reading.weight * 1e3;
  j["sag_mm"] = e.reading.sag * 1e3;
}

void take_reading(LogEntry& e, const LogJson& j) {
  e.after = kelvin(j.at("after_degF").get<double>());
  if (j.contains("what")) {
    const auto& names = shape_names();
    const auto at = std::find(names.begin(), names.end(), j.at("what").get<std::string>());
    if (at == names.end()) throw std::runtime_error("what");
    e.reading.shape = shape_limit(static_cast<std::size_t>(at - names.begin()));
    e.reading.value = j.at("value_mm").get<double>() / 1e3;
    if (!(e.reading.value >= 0)) throw std::runtime_error("value");
    return;
  }
  e.reading.side = side_of(j);
  e.reading.bay = j.at("bay").get<int>() - 1;
  if (j.contains("tone_Hz")) {
    e.reading.tone = j.at("tone_Hz").get<double>();
  } else {
    e.reading.weight = j.at("weight_g").get<double>() / 1e3;
    e.reading.sag = j.at("sag_mm").get<double>() / 1e3;
  }
  const bool holds = e.reading.bay >= 0 && (e.reading.tone > 0 || (e.reading.weight > 0 && e.reading.sag > 0));
  if (!holds) throw std::runtime_error("reading");
}

LogEntry entry_of(const LogJson& j) {
  LogEntry e;
  const auto did = j.at("did").get<std::string>();
  const auto kind =
      std::find_if(kinds_of_entry.begin(), kinds_of_entry.end(), [&](const auto& k) { return did == k.second; });
  if (kind == kinds_of_entry.end()) throw std::runtime_error("did");
  e.kind = kind->first;
  e.when = j.at("when").get<std::string>();
  e.text = j.value("text", "");
  if (e.kind == LogEntry::Kind::ironed) {
    for (const LogJson& s : j.at("steps")) e.steps.push_back(step_of(s));
    if (j.contains("sole_degF")) e.sole = kelvin(j.at("sole_degF").get<double>());
    e.passes = j.value("passes", 0);
  }
  if (e.kind == LogEntry::Kind::read) take_reading(e, j);
  if (e.kind == LogEntry::Kind::taken_back) e.takes_back = j.at("entry").get<int>();
  return e;
}

// Either names the trouble of a file that is no log that this program can read.
void check_head(const LogJson& j, const std::string& path) {
  if (!j.contains(head_key))
    throw CaseFileError(path, {1, 0}, "", "is no log of a job; one is begun by evenpull log CASE");
  if (j.at(head_key) != log_format)
    throw CaseFileError(path, {1, 0}, head_key,
                        fmt::format("= {} is not known to this program, which reads logs of format {}",
                                    j.at(head_key).dump(), log_format));
}

}  // namespace

std::string log_head(const std::string& panel, const std::string& title) {
  return sealed({{head_key, log_format}, {"panel", panel}, {"title", title}});
}

std::string log_line(const LogEntry& e) {
  LogJson j;
  j["did"] = std::find_if(kinds_of_entry.begin(), kinds_of_entry.end(), [&](const auto& k) {
               return e.kind == k.first;
             })->second;
  j["when"] = e.when;
  if (e.kind == LogEntry::Kind::ironed) {
    j["steps"] = LogJson::array();
    for (const OrderStep& s : e.steps) j["steps"].push_back(step_json(s));
    if (e.sole) j["sole_degF"] = degF(*e.sole);
    if (e.passes > 0) j["passes"] = e.passes;
  }
  if (e.kind == LogEntry::Kind::read) put_reading(j, e);
  if (e.kind == LogEntry::Kind::taken_back) j["entry"] = e.takes_back;
  if (!e.text.empty()) j["text"] = e.text;
  return sealed(std::move(j));
}

bool looks_like_a_log(const std::string& bytes) {
  const auto first = bytes.substr(0, bytes.find('\n'));
  return !first.empty() && first[0] == '{' && first.find(fmt::format("\"{}\"", head_key)) != std::string::npos;
}

void check_log_is_of(const JobLog& log, const std::string& panel, const std::string& path) {
  if (log.panel == panel) return;
  throw CaseFileError(
      path, {1, 0}, "panel",
      "is the log of another panel: outline, ribs or zones are not those of this case. Name the log of this "
      "one with --log, or begin one under another name");
}

LogRead read_log_text(const std::string& bytes, const std::string& path) {
  LogRead out;
  int line = 0;
  for (std::size_t at = 0; at < bytes.size();) {
    const auto end = bytes.find('\n', at);
    const bool whole = end != std::string::npos;
    const std::string text = bytes.substr(at, whole ? end - at : std::string::npos);
    ++line;
    try {
      if (!whole) throw std::runtime_error("no line end");
      const LogJson j = unsealed(text);
      if (line == 1) check_head(j, path), out.log.panel = j.at("panel").get<std::string>();
      else out.log.entries.push_back(entry_of(j));
    } catch (const CaseFileError&) {
      throw;
    } catch (const std::exception&) {  // of the parser, of a value of another kind, or of ours above
      if (line == 1)
        throw CaseFileError(path, {1, 0}, "",
                            "is damaged in its first line, or is no log of a job: nothing of it can be read");
      out.damaged_line = line;
      out.lines_left_out =
          1 + static_cast<int>(std::count(bytes.begin() + static_cast<std::ptrdiff_t>(at), bytes.end() - 1, '\n'));
      out.cut_at_end = !whole;
      return out;
    }
    at = end + 1;
    out.whole_bytes = at;
  }
  if (line == 0) throw CaseFileError(path, {1, 0}, "", "is empty: it is no log of a job");
  return out;
}

}  // namespace evenpull
