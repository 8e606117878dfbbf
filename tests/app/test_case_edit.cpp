// Tables and keys put into the text of a case, and the file changed where it lies.
#include "app/output/case_edit.hpp"
#include "app/output/case_in_place.hpp"
#include "app/output/result_folder.hpp"
#include "tests/app/case_text.hpp"

#include <sys/stat.h>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

CaseEdit set(const char* table, const char* key, const char* value, const char* note = "") {
  return {CaseEdit::Kind::set_key, table, key, value, note};
}
CaseEdit without(const char* table, const char* key) { return {CaseEdit::Kind::remove_key, table, key, "", ""}; }
CaseEdit tables(const char* name, const char* lines) { return {CaseEdit::Kind::replace_tables, name, "", lines, ""}; }

const char* const rows =
    "[[cloth.curve]]\ntemperature = \"80 degC\"\nfree_shrink = \"0 %\"\npull = \"0 N/m\"\n\n"
    "[[cloth.curve]]\ntemperature = \"350 degF\"\nfree_shrink = \"7 %\"\npull = \"620 N/m\"\n";

std::vector<std::string> names_in(const std::filesystem::path& folder) {
  std::vector<std::string> out;
  for (const auto& e : std::filesystem::directory_iterator(folder)) out.push_back(e.path().filename().string());
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

TEST_CASE("a key that stands there gets its new value and keeps its line", "[edit]") {
  const std::string text = "[a]\nx = 1  # why\n\n[spread]\n  pull   =  \"32 %\"\t# mine # twice\nsole = \"7 degF\"\n";
  CHECK(edited_case(text, {set("spread", "pull", "\"20 %\"")}) == with(text, "\"32 %\"", "\"20 %\""));
  CHECK(edited_case(text, {set("a", "x", "[1, 2]")}) == with(text, "x = 1", "x = [1, 2]"));
}

TEST_CASE("values are passed over whole, whatever is in them", "[edit]") {
  const std::string text =
      "a = \"\"\"\n[spread]\npull = 1\n\"\"\"\nb = '''[spread]'''\nc = [ # [\n  \"]\", '#',\n  [1, 2], ]\nd = { e = "
      "\"}\" } # {\n"
      "[spread]\r\npull = \"a \\\" # b\" # c\r\n";
  CHECK(edited_case(text, {set("spread", "pull", "2")}) == with(text, "\"a \\\" # b\"", "2"));
}

TEST_CASE("a key that is not there is added behind the last of its table, with its note", "[edit]") {
  const std::string text = "[spread]\nsole = \"7 degF\"  # a\n# pull = \"3 %\"\n\n# of iron\n[iron]\nswing = 1\n";
  CHECK(edited_case(text, {set("spread", "pull", "\"20 %\"", "new")}) ==
        with(text, "# a\n", "# a\npull = \"20 %\"  # new\n"));
  CHECK(edited_case("[spread]\n", {set("spread", "pull", "1"), set("spread", "sole", "2")}) ==
        "[spread]\npull = 1\nsole = 2\n");
}

TEST_CASE("a table that is not there is added at the end, and lines end as the others do", "[edit]") {
  CHECK(edited_case("a = 1\n", {set("spread", "pull", "2")}) == "a = 1\n\n[spread]\npull = 2\n");
  CHECK(edited_case("a = 1", {set("spread", "pull", "2")}) == "a = 1\n\n[spread]\npull = 2\n");
  CHECK(edited_case("a = 1\r\n", {set("spread", "pull", "2")}) == "a = 1\r\n\r\n[spread]\r\npull = 2\r\n");
  CHECK(edited_case("", {set("spread", "pull", "2")}) == "[spread]\npull = 2\n");
}

TEST_CASE("dotted keys are known as the table that they make", "[edit]") {
  CHECK(edited_case("spread.pull = 1\n[a]\n", {set("spread", "pull", "2")}) == "spread.pull = 2\n[a]\n");
  CHECK(edited_case("spread.pull = 1\n[a]\n", {set("spread", "sole", "2")}) ==
        "spread.pull = 1\nspread.sole = 2\n[a]\n");
  CHECK(edited_case("[ \"spread\" ]\n'pull' = 1\n", {set("spread", "pull", "2")}) == "[ \"spread\" ]\n'pull' = 2\n");
}

TEST_CASE("a key is removed with its line, whatever lines its value takes", "[edit]") {
  const std::string text = "[spread]\npull = [\n 1, # a\n]  # b\n# c\nsole = 1\n";
  CHECK(edited_case(text, {without("spread", "pull")}) == "[spread]\n# c\nsole = 1\n");
  CHECK(edited_case(text, {without("spread", "friction")}) == text);
}

TEST_CASE("tables take the place of those of their name, and comments round them stay", "[edit]") {
  const std::string text =
      "[cloth]\nclass = \"medium\"\n# before\n[[cloth.curve]]\nx = 1 # gone\n# gone\ny = 2\n\n[[cloth.curve]]\nx = "
      "3\n\n# of the "
      "blanket\n[blanket]\nkind = 1\n";
  CHECK(edited_case(text, {tables("cloth.curve", "[[cloth.curve]]\nx = 9\n")}) ==
        "[cloth]\nclass = \"medium\"\n# before\n[[cloth.curve]]\nx = 9\n\n# of the blanket\n[blanket]\nkind = 1\n");
}

TEST_CASE("tables that are not there are added behind their own and before what is said of the next", "[edit]") {
  const std::string text = "[cloth]\nclass = 1\n# looseness = 2\n\n# --- Blanket. ---\n[blanket]\nkind = 1\n";
  CHECK(edited_case(text, {tables("cloth.curve", "[[cloth.curve]]\nx = 9\n")}) ==
        "[cloth]\nclass = 1\n# looseness = 2\n\n[[cloth.curve]]\nx = 9\n\n# --- Blanket. ---\n[blanket]\nkind = 1\n");
  CHECK(edited_case("[cloth]\nclass = 1", {tables("cloth.curve", "[[cloth.curve]]\nx = 9\n")}) ==
        "[cloth]\nclass = 1\n\n[[cloth.curve]]\nx = 9\n");
}

TEST_CASE("a list of tables written as a key becomes tables", "[edit]") {
  const std::string text = "[cloth]\nclass = 1\ncurve = [ { x = 1 },\n  { x = 2 } ]  # c\nshear = 2\n";
  CHECK(edited_case(text, {tables("cloth.curve", "[[cloth.curve]]\nx = 9\n")}) ==
        "[cloth]\nclass = 1\nshear = 2\n\n[[cloth.curve]]\nx = 9\n");
}

TEST_CASE("what only a person can change is refused with what to write", "[edit]") {
  CHECK_THROWS_WITH(edited_case("cloth = { class = 1 }\n", {tables("cloth.curve", "x\n")}),
                    Contains("within braces") && Contains("table of its own"));
  CHECK_THROWS_WITH(edited_case("spread = { pull = 1 }\n", {set("spread", "pull", "1")}), Contains("within braces"));
  CHECK_THROWS_WITH(edited_case("[[stage]]\nx = 1\n", {set("stage", "x", "1")}), Contains("by hand"));
}

TEST_CASE("every line of the template but those that are named is as it was", "[edit]") {
  const std::string text = std::string(template_text());
  const std::string out = edited_case(text, {tables("cloth.curve", rows), set("spread", "pull_common", "\"7 %\"")});
  // Taken out again, what was put in leaves the template byte for byte.
  std::string back = with(out, std::string("\n") + rows, "");
  back = with(back, "\n[spread]\npull_common = \"7 %\"\n", "");
  CHECK(back == text);
}

TEST_CASE("a case is changed where it lies, and the earlier one is kept beside it", "[edit]") {
  const TemporaryFolder folder;
  const std::string file = folder.write("a.toml", std::string(template_text()));
  chmod(file.c_str(), 0640);
  const auto changed = changed_case(file, {tables("cloth.curve", rows)}, "the curve");
  CHECK(read_all(file) == std::string(template_text()));
  REQUIRE(changed.read.value.cloth.curve.size() == 2);
  const auto earlier = put_case_in_place(changed, "coupon");
  CHECK(earlier.filename() == "a.before-coupon.toml");
  CHECK(read_all(earlier) == std::string(template_text()));
  CHECK(read_all(file) == changed.after);
  CHECK(read_case(file).cloth.curve[1].pull.warp == 620);
  struct stat s {};
  REQUIRE(stat(file.c_str(), &s) == 0);
  CHECK((s.st_mode & 0777) == 0640);
  // Once more: the first one kept stays what it is.
  const auto again = put_case_in_place(changed_case(file, {set("spread", "pull", "\"20 %\"")}, "x"), "coupon");
  CHECK(again.filename() == "a.before-coupon-2.toml");
  CHECK(read_all(earlier) == std::string(template_text()));
  CHECK(read_all(again) == changed.after);
  CHECK(names_in(folder.path) == std::vector<std::string>{"a.before-coupon-2.toml", "a.before-coupon.toml", "a.toml"});
}

TEST_CASE("a link is followed and stays one, and a byte order mark stays", "[edit]") {
  const TemporaryFolder folder;
  std::filesystem::create_directory(folder.path / "there");
  const std::string file = folder.write("there/a.toml", "\xEF\xBB\xBF" + std::string(template_text()));
  std::filesystem::create_symlink(file, folder.path / "link.toml");
  const std::string link = (folder.path / "link.toml").string();
  const auto earlier = put_case_in_place(changed_case(link, {tables("cloth.curve", rows)}, "the curve"), "coupon");
  CHECK(std::filesystem::is_symlink(link));
  CHECK(read_all(file).rfind("\xEF\xBB\xBF"
                             "# A case",
                             0) == 0);
  CHECK(earlier.parent_path() == std::filesystem::canonical(folder.path / "there"));
}

TEST_CASE("a case that would no longer read is not changed", "[edit]") {
  const TemporaryFolder folder;
  const std::string file = folder.write("a.toml", std::string(template_text()));
  const auto refused = [&](const std::vector<CaseEdit>& edits, const char* part) {
    CHECK_THROWS_WITH(changed_case(file, edits, "the curve"), Contains(part) && Contains("nothing was changed"));
    CHECK(read_all(file) == std::string(template_text()));
    CHECK(names_in(folder.path) == std::vector<std::string>{"a.toml"});
  };
  refused({tables("cloth.curve", "[[cloth.curve]]\ntemperature = \"80 degC\"\n")}, "no longer read");
  refused({set("spread", "pull", "nonsense")}, "no longer read");
  refused({set("spread", "pul", "\"3 %\"")}, "no longer read");
}

TEST_CASE("a case that was changed meanwhile is left alone", "[edit]") {
  const TemporaryFolder folder;
  const std::string file = folder.write("a.toml", std::string(template_text()));
  const auto changed = changed_case(file, {tables("cloth.curve", rows)}, "the curve");
  folder.write("a.toml", std::string(template_text()) + "# mine\n");
  CHECK_THROWS_WITH(put_case_in_place(changed, "coupon"), Contains("meanwhile"));
  CHECK(read_all(file) == std::string(template_text()) + "# mine\n");
  CHECK(names_in(folder.path) == std::vector<std::string>{"a.toml"});
}

TEST_CASE("standard input and a case with a slip are refused before anything else", "[edit]") {
  CHECK_THROWS_WITH(changed_case("-", {}, "x"), Contains("standard input"));
  const TemporaryFolder folder;
  const std::string file = folder.write("a.toml", with(base(), "class = \"medium\"", "class = \"thick\""));
  CHECK_THROWS_WITH(changed_case(file, {tables("cloth.curve", rows)}, "x"), Contains("thick"));
}

TEST_CASE("every case here takes a curve and spreads, by either kind of line end, and reads", "[edit]") {
  const char* const curve =
      "[[cloth.curve]]\ntemperature = \"80 degC\"\nfree_shrink = \"0 %\"\npull = \"0 N/m\"\n\n"
      "[[cloth.curve]]\ntemperature = \"380 degF\"\nfree_shrink = \"11 %\"\npull = \"620 N/m\"\n";
  const TemporaryFolder folder;
  int count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(EVENPULL_CASES_DIR)) {
    if (entry.path().extension() != ".toml") continue;
    INFO(entry.path());
    for (const bool returns : {false, true}) {
      std::string text = read_all(entry.path());
      if (text.find("[outline]") == std::string::npos) continue;  // an order
      if (returns)
        for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 2) text.insert(at, "\r");
      const auto file = folder.write("case.toml", text);
      const auto changed = changed_case(
          file, {tables("cloth.curve", curve), without("spread", "pull"), set("spread", "pull_common", "\"7 %\"")},
          "it");
      CHECK(changed.read.value.cloth.curve.size() == 2);
      CHECK(changed.read.value.spreads.pull_common == 0.07);
      const auto lone = [](const std::string& t) {
        return std::count(t.begin(), t.end(), '\n') - std::count(t.begin(), t.end(), '\r');
      };
      CHECK(lone(changed.after) == (returns ? 0 : std::count(changed.after.begin(), changed.after.end(), '\n')));
      ++count;
    }
  }
  CHECK(count > 4);
}
