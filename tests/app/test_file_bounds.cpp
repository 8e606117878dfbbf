// A file that is too large, endless or no text is refused at once, with what is allowed.
#include "app/input/document.hpp"
#include "app/input/raw_file.hpp"
#include "app/text/most.hpp"
#include "app/text/quoted.hpp"
#include "tests/app/case_text.hpp"

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <thread>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;
using Catch::Matchers::EndsWith;

namespace {

// Reading takes milliseconds; a machine that does much else takes longer. The memory is what the checks themselves need.
constexpr double at_once = 5;               // s
constexpr long some_megabytes = 40 * 1024;  // kB

long kilobytes_used() {
  rusage r{};
  getrusage(RUSAGE_SELF, &r);
  return r.ru_maxrss;
}

/// What is said of a file, which is to come at once and to need little memory.
std::string refusal(const std::string& path) {
  const auto before = std::chrono::steady_clock::now();
  const long memory = kilobytes_used();
  std::string what = "(nothing)";
  try {
    read_document(path, DocumentKind::a_case);
  } catch (const CaseFileError& e) {
    what = e.what();
  }
  CHECK(std::chrono::duration<double>(std::chrono::steady_clock::now() - before).count() < at_once);
  CHECK(kilobytes_used() - memory < some_megabytes);
  CHECK(what == on_one_line(what));
  CHECK(what.size() < 500);
  return what;
}

std::string refusal_of(const std::string& text) {
  const TemporaryFolder folder;
  return refusal(folder.write("case.toml", text));
}

std::string times(size_t n, const std::string& piece) {
  std::string out;
  for (size_t i = 0; i < n; ++i) out += piece;
  return out;
}

}  // namespace

TEST_CASE("a file of 50 MB is refused by its size, and one of 4 MB is read", "[bounds]") {
  const TemporaryFolder folder;
  const auto path = folder.write("case.toml", "");
  std::filesystem::resize_file(path, 50'000'000);
  CHECK_THAT(refusal(path),
             EndsWith("case.toml: the file has 50000000 bytes, and no more than 4194304 are read (4 MB; a case or "
                      "an order has some kB); is it the right one?"));
  const auto largest = "format = 1\n" + times(most::file_bytes / 64, "#" + std::string(62, '-') + "\n");
  CHECK(read_document(folder.write("c.toml", largest.substr(0, most::file_bytes)), DocumentKind::a_case).table.size() ==
        1);
}

TEST_CASE("a device that has no end is read no further than a file may be long", "[bounds]") {
  CHECK_THAT(refusal("/dev/zero"), Contains("/dev/zero: goes on beyond 4194304 bytes"));
}

TEST_CASE("a pipe that has no end is read no further either, and one that ends is read whole", "[bounds]") {
  const TemporaryFolder folder;
  const auto pipe = (folder.path / "pipe").string();
  REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
  const auto before = std::signal(SIGPIPE, SIG_IGN);
  const auto writer = [&](size_t times) {
    return std::thread([&pipe, times] {
      const int out = open(pipe.c_str(), O_WRONLY);
      const std::string line = times > 1 ? std::string(65536, '#') : "format = 1\n";
      for (size_t i = 0; i < times && write(out, line.data(), line.size()) > 0; ++i) {
      }
      close(out);
    });
  };
  auto endless = writer(1'000'000'000);
  CHECK_THAT(refusal(pipe), Contains("goes on beyond 4194304 bytes"));
  endless.join();
  auto once = writer(1);
  CHECK(read_raw(pipe) == "format = 1\n");
  once.join();
  std::signal(SIGPIPE, before);
}

TEST_CASE("a pipe into which nobody writes is given up", "[bounds]") {
  const TemporaryFolder folder;
  const auto pipe = (folder.path / "pipe").string();
  REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
  CHECK_THROWS_WITH(read_raw(pipe, std::chrono::milliseconds(100)),
                    Contains("nothing came out of this pipe for 0.1 s"));
}

TEST_CASE("a name that is empty, a folder and a file that is not there are told apart", "[bounds]") {
  CHECK_THAT(refusal(""), Contains("the name of the file is empty"));
  CHECK_THAT(refusal("/"), Contains("this is a folder"));
  CHECK_THAT(refusal("no\nsuch\x1b[2J.toml"), Contains("no\\nsuch\\x1b[2J.toml: the file cannot be opened"));
}

TEST_CASE("what is no plain text is named by what it is", "[bounds]") {
  const auto is = [](const std::string& bytes, const char* words) { CHECK_THAT(refusal_of(bytes), Contains(words)); };
  is("{\\rtf1\\ansi format = 1}", "case.toml:1:1: this is rich text (RTF)");
  is(std::string("PK\x03\x04\x14\0", 6), "this is a zipped file, as word processors");
  is("%PDF-1.7\n", "this is a PDF");
  is("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "a document of an old word processor");
  is("\x1f\x8b\x08", "a compressed file (gzip)");
  is("<!DOCTYPE html>", "a page or a drawing (HTML, XML)");
  is(std::string("\xff\xfe"
                 "f\0o\0r\0m\0",
                 10),
     "text in UTF-16");
  is(std::string("f\0o\0r\0m\0a\0t\0", 12), "text in UTF-16");
  is("", "the file is empty");
  is(" \n\n", "the file is empty");
  for (const auto& bytes : {std::string("{\\rtf1}"), std::string("f\0o\0r\0m\0", 8)})
    CHECK_THAT(refusal_of(bytes),
               EndsWith("save the case as plain text (UTF-8), for example with a simple text editor"));
}

TEST_CASE("a letter in Latin-1 is named with its line and what it stands for", "[bounds]") {
  CHECK_THAT(refusal_of("format = 1\ntitle = \"250 \xb0"
                        "F\"\n"),
             Contains("case.toml:2:14: the byte \\xb0 is no UTF-8; it is ° in Latin-1"));
  CHECK_THAT(refusal_of("format = 1\n# H\xf6henruder\n"), Contains("case.toml:2:4: the byte \\xf6"));
  CHECK_THAT(refusal_of(std::string("format = 1\n\0\n", 13)), Contains("case.toml:2:1: the control character \\x00"));
}

TEST_CASE("a byte order mark is no mistake", "[bounds]") {
  CHECK(case_of("\xef\xbb\xbf" + base()).title == case_of(base()).title);
  CHECK(complaint("\xef\xbb\xbf" + with(base(), "format = 1", "format = 7")).place.column ==
        complaint(with(base(), "format = 1", "format = 7")).place.column);
}

TEST_CASE("lines that end as another system ends them are lines", "[bounds]") {
  std::string text;
  for (const char c : base()) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
  CHECK(case_of(text).title == case_of(base()).title);
}

TEST_CASE("text of more than 2000 characters is refused with line and key, 2000 are not", "[bounds]") {
  const std::string x(most::string_letters, 'x');
  for (const std::string mark : {"\"", "'", "\"\"\"", "'''"}) {
    INFO(mark);
    CHECK_THAT(refusal_of("format = 1\n[cloth]\nclass = " + mark + x + "x" + mark),
               Contains("case.toml:3:9: cloth.class: this text has more than 2000 characters, which is the most"));
    CHECK(refusal_of("format = 1\n[cloth]\nclass = " + mark + x + mark) == "(nothing)");
  }
  CHECK_THAT(refusal_of("title = \"" + std::string(4'000'000, 'x') + "\""), Contains("case.toml:1:9: title:"));
  CHECK_THAT(refusal_of(std::string(3'000'000, 'x')), Contains("a word has more than 2000 letters"));
  // An escaped quote does not end a text, and a text's own brackets, dots and signs count for nothing.
  CHECK(refusal_of("title = \"\\\"[[[[[[[[[[........==,,\"\ndescription = '\\'\nx = '''\n'[[[[[[[[[[[['''") ==
        "(nothing)");
}

TEST_CASE("keys of many parts and brackets in brackets are refused before they are taken apart", "[bounds]") {
  CHECK_THAT(refusal_of(times(20000, "a.") + "a = 1\n"),
             Contains("case.toml:1:16: a key has more than 8 parts between dots"));
  CHECK_THAT(refusal_of("x = 1\n[" + times(20000, "a.") + "a]\n"), Contains("case.toml:2:17:"));
  CHECK_THAT(refusal_of("deep = " + times(100000, "[")),
             Contains("case.toml:1:16: deep: brackets stand more than 8 deep"));
  CHECK_THAT(refusal_of("deep = " + times(1000, "{ a = ")), Contains("brackets stand more than 8 deep"));
  CHECK(refusal_of("a.b.c.d = [[[[1.5, 2.5], [3.5]]]]\n[[x]]\n[[x]]\n[y.z]\n") == "(nothing)");
}

TEST_CASE("a file of more keys and entries than a panel has is refused before it is parsed", "[bounds]") {
  CHECK_THAT(refusal_of("at = [" + times(100000, "0,") + "]"),
             Contains("at: the file holds more than 10000 keys and list entries, which is far more"));
  CHECK_THAT(refusal_of(times(20000, "[[member]]\n")), Contains("member: the file holds more than 10000"));
  std::string keys;
  for (int i = 0; i < 20000; ++i) keys += "k" + std::to_string(i) + " = 1\n";
  CHECK_THAT(refusal_of(keys), Contains("case.toml:10001:"));
}
