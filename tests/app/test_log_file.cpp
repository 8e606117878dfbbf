// The log as a file: lines with a checksum, only ever added to, read up to any damage.
#include "app/input/document.hpp"
#include "app/input/log_lines.hpp"
#include "app/output/log_append.hpp"
#include "tests/app/case_text.hpp"

#include <filesystem>
#include <fstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

std::string bytes_of_file(const std::filesystem::path& p) {
  std::ifstream in(p, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<LogEntry> every_kind() {
  std::vector<LogEntry> all(6);
  all[0].kind = LogEntry::Kind::ironed;
  all[0].steps = {{(250 + 459.67) / 1.8, 1, Side::top, 2, 1, 0.25}, {(250 + 459.67) / 1.8, 1, Side::bottom, 3, 2, 1}};
  all[0].sole = (281.5 + 459.67) / 1.8, all[0].passes = 3;
  all[1].kind = LogEntry::Kind::read, all[1].after = (250 + 459.67) / 1.8;
  all[1].reading.side = Side::bottom, all[1].reading.bay = 4, all[1].reading.weight = 0.5, all[1].reading.sag = 3.2e-3;
  all[2].kind = LogEntry::Kind::read, all[2].after = (300 + 459.67) / 1.8;
  all[2].reading.shape = Limit::edge_bow, all[2].reading.value = 0.7e-3;
  all[3].kind = LogEntry::Kind::jolted, all[3].text = "fell off the rests";
  all[4].kind = LogEntry::Kind::remark, all[4].text = "quotes \" and \\ and é";
  all[5].kind = LogEntry::Kind::taken_back, all[5].takes_back = 4;
  for (LogEntry& e : all) e.when = "2026-05-04 16:20";
  return all;
}

}  // namespace

TEST_CASE("every kind of entry comes back as it went in", "[log]") {
  std::string text = log_head("0123abcd", "Left \"aileron\"");
  for (const LogEntry& e : every_kind()) text += log_line(e);
  CHECK(looks_like_a_log(text));
  const LogRead read = read_log_text(text, "l");
  CHECK(read.damaged_line == 0);
  CHECK(read.whole_bytes == text.size());
  CHECK(read.log.panel == "0123abcd");
  REQUIRE(read.log.entries.size() == 6);
  std::string again = log_head("0123abcd", "Left \"aileron\"");
  for (const LogEntry& e : read.log.entries) again += log_line(e);
  CHECK(again == text);
  CHECK(read.log.entries[0].steps[1].side == Side::bottom);
  CHECK(read.log.entries[0].steps[0].temperature == Approx((250 + 459.67) / 1.8));
  CHECK(read.log.entries[1].reading.sag == Approx(3.2e-3));
  CHECK(read.log.entries[2].reading.shape == Limit::edge_bow);
}

TEST_CASE("any byte changed in the middle is seen, and what stands before it is read", "[log]") {
  std::string text = log_head("0123abcd", "t");
  std::vector<std::size_t> begins;
  for (const LogEntry& e : every_kind()) begins.push_back(text.size()), text += log_line(e);
  for (std::size_t line = 0; line < begins.size(); ++line) {
    const std::size_t end = line + 1 < begins.size() ? begins[line + 1] : text.size();
    for (std::size_t at = begins[line]; at + 1 < end; at += 7) {
      std::string hurt = text;
      hurt[at] = hurt[at] == '1' ? '2' : '1';
      if (hurt == text) continue;
      const LogRead read = read_log_text(hurt, "l");
      CAPTURE(line, at);
      CHECK(read.damaged_line == static_cast<int>(line) + 2);
      CHECK(read.lines_left_out == static_cast<int>(begins.size() - line));
      CHECK(read.log.entries.size() == line);
      CHECK_FALSE(read.cut_at_end);
    }
  }
}

TEST_CASE("a log cut short at any byte loses its last line alone", "[log]") {
  std::string text = log_head("0123abcd", "t");
  const std::size_t head = text.size();
  for (const LogEntry& e : every_kind()) text += log_line(e);
  for (std::size_t length = head; length < text.size(); length += 5) {
    const LogRead read = read_log_text(text.substr(0, length), "l");
    CHECK((read.damaged_line == 0 || read.cut_at_end));
    CHECK(read.whole_bytes <= length);
    CHECK(text[read.whole_bytes - 1] == '\n');
  }
}

TEST_CASE("what is no log, empty or of a later format is refused by name", "[log]") {
  CHECK_THROWS_WITH(read_log_text("", "my.jsonl"), Contains("my.jsonl") && Contains("is empty"));
  CHECK_THROWS_WITH(read_log_text("format = 1\n", "my.jsonl"), Contains("no log of a job"));
  CHECK_FALSE(looks_like_a_log("format = 1\nsteps = []\n"));
}

TEST_CASE("entries are added at the end, a line cut short by a pulled plug is replaced, a damaged log is left as it is",
          "[log]") {
  TemporaryFolder folder;
  const auto file = folder.path / "job.jsonl";
  append_to_log(file, "0123abcd", "t", {every_kind()[0]});
  const std::string one = bytes_of_file(file);
  append_to_log(file, "0123abcd", "t", {every_kind()[3], every_kind()[4]});
  const std::string three = bytes_of_file(file);
  CHECK(three.substr(0, one.size()) == one);
  CHECK(read_log_text(three, "l").log.entries.size() == 3);
  // The plug.
  folder.write("job.jsonl", three.substr(0, three.size() - 9));
  append_to_log(file, "0123abcd", "t", {every_kind()[5]});
  const LogRead mended = read_log_text(bytes_of_file(file), "l");
  CHECK(mended.damaged_line == 0);
  REQUIRE(mended.log.entries.size() == 3);
  CHECK(mended.log.entries[2].kind == LogEntry::Kind::taken_back);
  // Somebody changed it.
  std::string changed = three;
  changed[one.size() + 12] = '#';
  folder.write("job.jsonl", changed);
  CHECK_THROWS_WITH(append_to_log(file, "0123abcd", "t", {every_kind()[5]}),
                    Contains("line 3") && Contains("damaged") && Contains("nothing was added"));
  CHECK(bytes_of_file(file) == changed);
  // Another panel's.
  folder.write("job.jsonl", three);
  CHECK_THROWS_WITH(append_to_log(file, "ffffffff", "t", {every_kind()[5]}),
                    Contains("another panel") && Contains("--log"));
  CHECK(bytes_of_file(file) == three);
  CHECK_THROWS_WITH(append_to_log(folder.path / "none" / "job.jsonl", "f", "t", {}), Contains("cannot be written"));
}
