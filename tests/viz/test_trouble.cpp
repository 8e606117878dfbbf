// What cannot be written is the disk's trouble or ours, and the two are told apart.
#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/fields/fields.hpp"
#include "viz/kit/canvas.hpp"
#include "viz/kit/film.hpp"
#include "viz/kit/page_parts.hpp"
#include "viz/page/packed.hpp"
#include "viz/page/page.hpp"
#include "viz/pictures/pictures.hpp"
#include "viz/pictures/survey_picture.hpp"
#include "viz/sheet/sheet.hpp"
#include "viz/words/trouble.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <functional>
#include <limits>

#include <signal.h>
#include <sys/resource.h>

using namespace evenpull;
using namespace evenpull::reading;

namespace {

/// While it lives no file grows beyond that, as on a full disk.
class SmallDisk {
 public:
  explicit SmallDisk(rlim_t bytes) {
    getrlimit(RLIMIT_FSIZE, &before_);
    handler_ = signal(SIGXFSZ, SIG_IGN);
    const rlimit now{bytes, before_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &now);
  }
  ~SmallDisk() {
    setrlimit(RLIMIT_FSIZE, &before_);
    signal(SIGXFSZ, handler_);
  }

 private:
  rlimit before_{};
  void (*handler_)(int) = nullptr;
};

using Writer = std::function<void(const std::string& path)>;

void draw_a_line(cairo_t* cr) { viz::stroke_line(cr, {1, 1}, {50, 50}, 2); }

}  // namespace

TEST_CASE("whatever is written, a disk one byte too small is told of with the file's name, and no part of it is left",
          "[trouble]") {
  const Plan plan = sample_plan();
  const Case c = sample_case();
  const std::pair<const char*, Writer> writers[] = {
      {"a.pdf", [&](const std::string& path) { write_sheet(plan, Paper::a4, "0", path); }},
      {"a.html", [&](const std::string& path) { write_page(plan, "0", path); }},
      {"s.pdf", [&](const std::string& path) { write_survey_picture(c, sample_panel(c), path); }},
      {"s.png", [&](const std::string& path) { write_survey_picture(c, sample_panel(c), path); }},
      {"v.svg",
       [](const std::string& path) {
         viz::write_png_and_svg(path.substr(0, path.size() - 4), {60, 60}, draw_a_line);
       }},
      {"f.png", [](const std::string& path) {
         viz::Film film({60, 60});
         film.add(1, draw_a_line);
         film.write(path);
       }}};
  for (const auto& [name, write] : writers) {
    INFO(name);
    Folder good, bad;
    write(good / name);
    const auto size = std::filesystem::file_size(good / name);
    try {
      const SmallDisk disk(size - 1);
      write(bad / name);
      FAIL("nothing was said");
    } catch (const CannotWriteFile& e) {
      CHECK_FALSE(e.path.empty());
      CHECK(e.path.rfind(bad.path(), 0) == 0);
      CHECK_FALSE(e.reason.empty());
      CHECK_THAT(e.what(), Catch::Contains("free space"));
    }
    for (const auto& entry : std::filesystem::directory_iterator(bad.path())) {
      INFO(entry.path());
      CHECK(entry.path().extension() != ".part");
      CHECK(entry.path().filename() != name);
    }
  }
}

TEST_CASE("fields that the disk does not take are told of with the file's name", "[trouble]") {
  Folder folder;
  const Plan plan = sample_plan();
  for (const rlim_t room : {rlim_t{0}, rlim_t{1000}, rlim_t{5000}}) {
    INFO(room);
    try {
      const SmallDisk disk(room);
      write_fields(plan, folder.path());
      FAIL("nothing was said");
    } catch (const CannotWriteFile& e) {
      CHECK_THAT(e.path, Catch::Contains(".vtu"));
      CHECK_FALSE(e.reason.empty());
    }
  }
}

TEST_CASE("a value that is no number is a mistake of ours, not the disk's", "[trouble]") {
  Folder folder;
  const float nan = std::numeric_limits<float>::quiet_NaN();
  Plan plan = sample_plan();
  plan.snapshots[3].pull_major[0] = nan;
  CHECK_THROWS_AS(write_fields(plan, folder.path()), CannotDraw);
  CHECK_THROWS_AS(write_page(plan, "0", folder / "plan.html"), CannotDraw);
  CHECK_FALSE(std::filesystem::exists(folder / "plan.html"));
  plan = sample_plan();
  plan.snapshots[3].pull_major.pop_back();
  CHECK_THROWS_AS(write_fields(plan, folder.path()), CannotDraw);
  CHECK_THROWS_AS(write_page(plan, "0", folder / "plan.html"), CannotDraw);
}

TEST_CASE("a picture too large to draw is a mistake of ours, not the disk's", "[trouble]") {
  Folder folder;
  CHECK_THROWS_AS(viz::write_png(folder / "a.png", {100, 40000}, draw_a_line), CannotDraw);
  CHECK(std::filesystem::is_empty(folder.path()));
}
