// Writes the verification book from the records of the published checks, or says whether the one that is kept is stale.
//   make_book write <records> <docs folder>
//   make_book compare <records> <docs folder>      exit code 1 if stale
#include "tests/book/compare.hpp"
#include "tests/book/page.hpp"

#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

namespace fs = std::filesystem;
using namespace evenpull::book;

namespace {

std::string content(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

// Pictures that are there now, by their path below docs.
std::vector<std::string> kept_pictures(const fs::path& docs) {
  std::vector<std::string> out;
  if (fs::is_directory(docs / "verification"))
    for (const fs::directory_entry& e : fs::directory_iterator(docs / "verification"))
      if (e.path().extension() == ".svg") out.push_back("verification/" + e.path().filename().string());
  return out;
}

void write(const Pages& pages, const fs::path& docs) {
  fs::create_directories(docs / "verification");
  for (const std::string& old : kept_pictures(docs))
    if (!pages.contains(old)) fs::remove(docs / old);
  for (const auto& [name, text] : pages) {
    const fs::path file = docs / name, aside = file.string() + ".new";
    std::ofstream out(aside, std::ios::binary);
    out << text;
    out.close();
    if (!out) throw std::runtime_error("cannot write " + aside.string());
    fs::rename(aside, file);
  }
}

int compare(const Pages& pages, const fs::path& docs) {
  std::string complaints;
  const auto complain = [&](const std::string& name, const std::string& what) {
    if (!what.empty()) complaints += "docs/" + name + ": " + what + "\n";
  };
  for (const std::string& old : kept_pictures(docs))
    if (!pages.contains(old)) complain(old, "no check draws it any more");
  for (const auto& [name, text] : pages) {
    if (!fs::exists(docs / name)) complain(name, "is not there");
    else if (name.ends_with(".svg")) complain(name, difference_of_picture(content(docs / name), text));
    else complain(name, difference_of_text(content(docs / name), text));
  }
  if (complaints.empty()) return 0;
  std::cerr << complaints << "The verification book is stale: run ./check --book\n";
  return 1;
}

}  // namespace

int main(int count, char** words) try {
  const std::string what = count == 4 ? words[1] : "";
  if (what != "write" && what != "compare") {
    std::cerr << "make_book write|compare <records> <docs folder>\n";
    return 2;
  }
  std::ifstream in(words[2]);
  if (!in) throw std::runtime_error(std::string("cannot read ") + words[2]);
  std::vector<Record> records = read_records(in);
  if (records.empty()) throw std::runtime_error(std::string("no records in ") + words[2]);
  sort_records(records);
  const fs::path windows = fs::path(words[3]) / "verification" / "windows.md";
  const Pages pages = make_pages(records, fs::exists(windows) ? content(windows) : "");
  if (what == "compare") return compare(pages, words[3]);
  write(pages, words[3]);
  return 0;
} catch (const std::exception& e) {
  std::cerr << e.what() << "\n";
  return 1;
}
