// evenpull blanket: what is cut, lapped and glued.
#include "app/command/commands.hpp"
#include "app/input/case_reader.hpp"
#include "shop/cloth_piece.hpp"
#include "tests/app/case_text.hpp"

#include <nlohmann/json.hpp>

#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

struct BlanketSaid {
  int code = 0;
  std::string out, err;
  nlohmann::json json;
};

BlanketSaid cut(const TemporaryFolder& folder, const std::string& text, const BlanketRequest& q = {}) {
  Request r;
  r.job = Request::Job::blanket;
  r.case_file = folder.write("mine.toml", text);
  r.folder = (folder.path / "cut").string();
  r.blanket = q;
  std::ostringstream out, err;
  BlanketSaid said;
  said.code = run_request(r, out, err);
  said.out = out.str(), said.err = err.str();
  if (said.code == 0) said.json = nlohmann::json::parse(read_all(folder.path / "cut" / "blanket.json"));
  return said;
}

const nlohmann::json& line_of_seams(const BlanketSaid& said, const std::string& name) {
  for (const auto& l : said.json.at("seams").at(0).at("lines"))
    if (l.at("line") == name) return l;
  FAIL("no line " + name);
  throw std::logic_error("");
}

bool warns(const BlanketSaid& said, const std::string& of) {
  for (const auto& w : said.json.at("warnings"))
    if (w.get<std::string>().find(of) != std::string::npos) return true;
  return false;
}

}  // namespace

TEST_CASE("a full wrap is cut as large as its skin, looseness, laps, tucks and the shears ask", "[blanket]") {
  // The template's panel: 1800 x 350 mm, half heights 13, 11, 6 mm at 0, 100, 350 mm, 1 % loose; laps by hand. Free shrink
  // at 350 degF is that of the default cloth, 10 %.
  const TemporaryFolder folder;
  const BlanketSaid said = cut(folder, base());
  REQUIRE(said.code == 0);
  const auto& piece = said.json.at("pieces").at(0);
  const double skin = std::hypot(100, 2) + std::hypot(250, 5);  // straight pieces: the curve is a hair longer
  const double round_te = M_PI * 6, round_le = M_PI * 13, inch = 25.4, shrunk = 1 / 0.9;
  const double width = (2 * skin + round_te) * 1.01 + round_le + 2 * inch * shrunk + 2 * 0.5 * inch;
  const double length = 1800 * 1.01 + 2 * (2 * inch * shrunk + 0.5 * inch);
  CHECK(piece.at("width_mm").get<double>() == Approx(width).margin(1.5));
  CHECK(piece.at("length_mm").get<double>() == Approx(length).margin(0.5));
  CHECK(said.json.at("bolt").at("length_mm").get<double>() == Approx(length).margin(0.5));
  for (const char* file : {"blanket.pdf", "blanket.svg", "blanket.dxf"})
    CHECK(std::filesystem::file_size(folder.path / "cut" / file) > 500);
}

TEST_CASE("laps as the trade has them pass, narrower ones are named, and 1 in is never offered", "[blanket]") {
  const TemporaryFolder folder;
  const auto with_seam = [&](const std::string& keys) { return cut(folder, base() + "\n[seam]\n" + keys); };
  CHECK(with_seam("overlap = \"1.5 in\"\n").json.at("warnings").empty());
  CHECK(warns(with_seam("overlap = \"1 in\"\n"), "TOO NARROW"));
  CHECK(warns(with_seam("overlap = \"2 in\"\nwing = true\n"), "TOO NARROW"));
  CHECK_FALSE(warns(with_seam("overlap = \"2 in\"\nwing = true\nsewn = true\n"), "TOO NARROW"));
  CHECK(line_of_seams(with_seam("wing = true\n"), "leading edge").at("width_mm") == 76.2);
  CHECK(warns(with_seam("nose_tape = \"0 in\"\n"), "will show"));
  CHECK(warns(with_seam("nose_tape = \"2 in\"\n"), "will show"));
}

TEST_CASE("a lap's shear is the pull over its width, and is held against what the case states", "[blanket]") {
  const TemporaryFolder folder;
  const BlanketSaid none = cut(folder, base());
  const auto& lap = line_of_seams(none, "leading edge");
  const double pull = lap.at("pull_high_N_per_m");
  CHECK(lap.at("shear_kPa").get<double>() == Approx(pull / 0.0508 / 1000).epsilon(1e-4));
  CHECK(lap.at("of_stated_shear").is_null());
  CHECK_THAT(none.out, Contains("NO STRENGTH OF THE ADHESIVE IS STATED"));
  // Kendall's T^2/(2 Et) alone where the cloth leaves along the surface; 100 kN/m of the default cloth.
  CHECK(lap.at("peel_N_per_m").get<double>() == Approx(pull * pull / 2e5).epsilon(0.05));
  const BlanketSaid weak = cut(folder, base() + "\n[adhesive]\npeel = \"0.2 lb/in\"\nshear = \"5 psi\"\n");
  CHECK(warns(weak, "TOO MUCH FOR THE GLUE"));
  const BlanketSaid strong = cut(folder, base() + "\n[adhesive]\npeel = \"10 lb/in\"\nshear = \"100 psi\"\n");
  CHECK(strong.json.at("warnings").empty());
  CHECK(line_of_seams(strong, "leading edge").at("of_stated_shear").get<double>() ==
        Approx(pull / 0.0508 / (100 * 6894.757)).epsilon(1e-3));
}

TEST_CASE("a cooler last stage lets the laps see less", "[blanket]") {
  const TemporaryFolder folder;
  BlanketRequest cool;
  cool.stage = "250 degF";
  const double at_350 = line_of_seams(cut(folder, base()), "rib 1").at("pull_high_N_per_m");
  const double at_250 = line_of_seams(cut(folder, base(), cool), "rib 1").at("pull_high_N_per_m");
  CHECK(at_250 < 0.7 * at_350);
  cool.stage = "600 degF";
  CHECK_THAT(cut(folder, base(), cool).err, Contains("--stage") && Contains("what is known of this cloth"));
}

TEST_CASE("several panels and cases share a bolt, which is never shorter than their area", "[blanket]") {
  const TemporaryFolder folder;
  BlanketRequest q;
  q.panels = 2;
  q.tiles = true;
  q.also = {folder.write("other.toml", with(base(), "kind = \"full wrap\"", "kind = \"two sheets\""))};
  const BlanketSaid said = cut(folder, base(), q);
  REQUIRE(said.code == 0);
  CHECK(std::filesystem::file_size(folder.path / "cut" / "tiles.pdf") > 500);
  CHECK(said.json.at("on_the_bolt").size() == 6);
  CHECK(said.json.at("pieces").size() == 3);
  CHECK(said.json.at("bolt").at("length_mm") >= said.json.at("bolt").at("least_length_mm"));
}

TEST_CASE("a bolt that is too narrow says how wide it must be, and what else would do", "[blanket]") {
  const TemporaryFolder folder;
  const auto narrow = cut(folder, base() + "\n[bolt]\nwidth = \"25 in\"\n");
  CHECK(narrow.code == 3);
  CHECK_THAT(narrow.err,
             Contains("mine.toml:") && Contains("bolt.width") && Contains("a bolt") && Contains("two sheets"));
  CHECK_FALSE(std::filesystem::exists(folder.path / "cut"));
  CHECK(cut(folder, base() + "\n[bolt]\nwidth = \"60 in\"\nwarp = \"either way\"\n").code == 0);
}

TEST_CASE("pockets and hinge gaps are drawn where they are, and their corners named", "[blanket]") {
  const TemporaryFolder folder;
  const std::string text = read_all(std::string(EVENPULL_CASES_DIR) + "/welded_elevator.toml");
  const BlanketSaid said = cut(folder, text);
  REQUIRE(said.code == 0);
  const auto& openings = said.json.at("pieces").at(0).at("openings");
  REQUIRE(openings.size() >= 1);
  const Case c = read_case(folder.write("again.toml", text));
  const Pocket& p = c.pockets.at(0);
  double low = 1e9, high = -1e9;
  for (const auto& q : openings.at(0).at("line_mm"))
    low = std::min(low, q[0].get<double>()), high = std::max(high, q[0].get<double>());
  CHECK(high - low == Approx(1000 * (p.to - p.from) * (1 + c.cloth.looseness.warp)).epsilon(0.06));  // its sides lean
  CHECK_THAT(said.out, Contains("Front corners of " + p.name));
}

TEST_CASE("nonsense about bolt, seam and adhesive is named with what would be right", "[blanket]") {
  for (const auto& [keys, key] :
       {std::pair("[bolt]\nwidth = \"60 mm\"\n", "bolt.width"),
        std::pair("[bolt]\nwidth = \"12 in\"\nselvedge = \"3 in\"\n", "bolt.selvedge"),
        std::pair("[seam]\noverlap = \"200 mm\"\n", "seam.overlap"),
        std::pair("[seam]\noverlap = \"2 lb\"\n", "seam.overlap"), std::pair("[seam]\nlap = \"2 in\"\n", "seam.lap"),
        std::pair("[adhesive]\nshear = \"0 psi\"\n", "adhesive.shear")}) {
    INFO(keys);
    CHECK(complaint(base() + "\n" + keys).key == key);
  }
}

TEST_CASE("two runs give the same bytes", "[blanket]") {
  const TemporaryFolder folder;
  std::vector<std::string> before;
  const char* const files[] = {"blanket.json", "blanket.pdf", "blanket.svg", "blanket.dxf"};
  cut(folder, base());
  for (const char* f : files) before.push_back(read_all(folder.path / "cut" / f));
  cut(folder, base());
  for (std::size_t i = 0; i < before.size(); ++i) CHECK(read_all(folder.path / "cut" / files[i]) == before[i]);
}
