// evenpull attach: when the cloth is fastened to ribs, side by side.
#include "app/command/commands.hpp"
#include "tests/app/case_text.hpp"

#include <nlohmann/json.hpp>

#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

// Two bays, one light stage: enough to tell a schedule from none.
std::string two_bays() {
  std::string text = base();
  text = with(text, "span = \"1800 mm\"", "span = \"600 mm\"");
  text = with(text, ", \"900 mm\", \"1200 mm\", \"1500 mm\", \"1800 mm\"]", "]");
  text = with(text, "at = \"1500 mm\"", "at = \"600 mm\"");
  text = with(text, "passes = [\"light\", \"light\", \"full\"]", "passes = [\"full\"]");
  const auto second = text.find("[[stage]]", text.find("[[stage]]") + 1);
  return text.erase(second, text.find("[work]") - second);
}

struct AttachSaid {
  int code = 0;
  std::string out, err;
};

AttachSaid ask_attach(const TemporaryFolder& folder, const std::string& text) {
  Request r;
  r.job = Request::Job::attach;
  r.case_file = folder.write("mine.toml", text);
  r.folder = (folder.path / "page").string();
  r.quiet = false;
  std::ostringstream out, err;
  const int code = run_request(r, out, err);
  return {code, out.str(), err.str()};
}

}  // namespace

TEST_CASE("attach compares moments in a first look that calls nothing safe", "[attach]") {
  const TemporaryFolder folder;
  const AttachSaid said = ask_attach(folder, two_bays() +
                                                 "\n[[attach]]\nribs = [2]\nhow = \"glued\"\nwhen = \"before "
                                                 "ironing\"\n");
  REQUIRE(said.code == 0);
  CHECK_THAT(said.out, Contains("all before ironing (as stated)") && Contains("all after ironing") &&
                           Contains("calls nothing safe") && Contains("Rib 2 is fastened before ironing"));
  CHECK(std::filesystem::exists(folder.path / "page" / "attach.pdf"));
  const auto j = nlohmann::json::parse(read_all(folder.path / "page" / "attach.json"));
  CHECK(j.at("first_look") == true);
  REQUIRE(j.at("schedules").size() == 2);
  CHECK(j.at("schedules")[0].at("stated") == true);
  CHECK(j.at("schedules")[1].at("stages")[0].at("bays_read_otherwise_by") == 0);
  CHECK(j.at("schedules")[0].at("stages")[0].at("bays_read_otherwise_by") > 0);
  CHECK(j.at("attachments")[0].at("ribs") == nlohmann::json({2}));
}

TEST_CASE("attach refuses a panel without an inner rib", "[attach]") {
  const TemporaryFolder folder;
  const AttachSaid said = ask_attach(folder, with(two_bays(), ", \"300 mm\", \"600 mm\"]", ", \"600 mm\"]"));
  CHECK(said.code == 3);
  CHECK_THAT(said.err, Contains("no inner rib"));
}
