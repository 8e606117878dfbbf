// What the book says of its records.
#include "tests/book/page.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

using namespace evenpull::book;

namespace {

std::string block(const std::string& chapter, const std::string& check, double published, double ours,
                  const std::string& more = "") {
  std::ostringstream out;
  out << "chapter\t" << chapter << "\ncheck\t" << check << "\nquantity\trise [mm]\nsource\tinvented\npublished\t"
      << published << "\nours\t" << ours << "\ntolerance\t0.05\nscale\t0\n"
      << more << "\n";
  return out.str();
}

std::vector<Record> read(const std::string& text) {
  std::istringstream in(text);
  return read_records(in);
}

Pages pages_of(const std::string& text) {
  std::vector<Record> r = read(text);
  sort_records(r);
  return make_pages(r);
}

}  // namespace

TEST_CASE("the book does not depend on the order in which the checks ran") {
  const std::string a = block("Cloth", "Strip of 2", 1, 1), b = block("Cloth", "Strip of 10", 1, 1.001),
                    c = block("Frame", "Beam", 2, 2);
  CHECK(pages_of(a + b + c) == pages_of(c + b + a));
  const std::string page = pages_of(c + b + a).at("verification.md"), text = page.substr(page.find("## Cloth"));
  CHECK(text.find("## Cloth") < text.find("## Frame"));
  CHECK(text.find("Strip of 2") < text.find("Strip of 10"));
}

TEST_CASE("a deviation above one per cent is listed with its cause, or said to have none") {
  const std::string text = pages_of(block("Cloth", "Good", 1, 1) + block("Cloth", "Far", 1, 1.02, "note\tthe moon\n") +
                                    block("Cloth", "Further", 1, 1.04))
                               .at("verification.md");
  const std::string list = text.substr(text.find("### Off by more"), text.find("### Order") - text.find("### Off by"));
  CHECK(list.find("Far | rise [mm] | 2.0 % | the moon") != std::string::npos);
  CHECK(list.find("Further | rise [mm] | 4.0 % | no cause stated") != std::string::npos);
  CHECK(list.find("Good") == std::string::npos);
}

TEST_CASE("each check with a mesh study has one picture that the page shows") {
  const std::string study =
      "level\t0.4\t1.16\nlevel\t0.2\t1.04\nlevel\t0.1\t1.01\ntheory\t2\nleast_order\t0\norder\t2\n"
      "plus_minus\t0.01\napproach\tsettling\n";
  const Pages pages = pages_of(block("Cloth", "Disc, nu = 0.3", 1, 1, study) + block("Frame", "Beam", 1, 1));
  REQUIRE(pages.size() == 2);
  const std::string picture = "verification/cloth-disc-nu-0-3.svg";
  REQUIRE(pages.contains(picture));
  CHECK(pages.at("verification.md").find("](" + picture + ")") != std::string::npos);
  CHECK(pages.at(picture).find("slope 2") != std::string::npos);
}

TEST_CASE("records that say the same twice, or half of it, are refused") {
  CHECK_THROWS(read(block("Cloth", "Disc", 1, 1) + block("Cloth", "Disc", 1, 2)));
  CHECK_THROWS(read("chapter\tCloth\n\n"));
  CHECK_THROWS(read(block("Cloth", "Disc", 0, 0)));
  CHECK_THROWS(read("nonsense\n"));
  CHECK_THROWS(read(block("Cloth", "Disc", 1, 1, "flavour\tsweet\n")));
}
