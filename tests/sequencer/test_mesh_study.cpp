#include "sequencer/numbers/mesh_study.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

std::vector<MeshLevel> levels(double exact, double slope, double order, const std::vector<double>& sizes) {
  std::vector<MeshLevel> out;
  for (double h : sizes) out.push_back({h, exact + slope * std::pow(h, order)});
  return out;
}

const std::vector<std::vector<double>> families = {{4, 2, 1}, {2, 1, 2.0 / 3}, {3, 2, 1.5}, {9, 4, 2, 1}};

}  // namespace

TEST_CASE("a number that settles as c h^p gives back its limit and its order") {
  for (const auto& sizes : families)
    for (double order : {0.7, 1.0, 1.5, 2.0})
      for (double slope : {-0.03, 0.05}) {
        const MeshStudy s = study_meshes(levels(0.8, slope, order, sizes), 2);
        INFO("order " << order << ", slope " << slope);
        CHECK(s.approach == Approach::settling);
        CHECK(s.order == Approx(order).epsilon(1e-6));
        CHECK(s.value == Approx(0.8).epsilon(1e-8));
        // 1.25 times the error of the finest value.
        CHECK(s.plus_minus == Approx(1.25 * std::abs(slope) * std::pow(sizes.back(), order)).epsilon(1e-6));
      }
}

TEST_CASE("an order above that of theory is told but not believed") {
  const auto four = levels(0.8, 0.05, 4, {4, 2, 1});
  const MeshStudy s = study_meshes(four, 2);
  CHECK(s.order == Approx(4).epsilon(1e-6));
  CHECK(s.plus_minus == Approx(1.25 * std::abs(four[2].value - four[1].value) / 3));
}

TEST_CASE("with two meshes the order is assumed and the bar is the whole change") {
  // Edge halved and order 2: three times a third of the change. It covers order 1, where the change is the error.
  const MeshStudy s = study_meshes(levels(0.8, 0.05, 1, {2, 1}), 2);
  CHECK(s.approach == Approach::assumed);
  CHECK(s.order == 2);
  CHECK(s.value == Approx(0.85));
  CHECK(s.plus_minus == Approx(0.05));
}

TEST_CASE("a number that wavers, grows away or hardly settles has its spread as bar") {
  const std::vector<std::vector<MeshLevel>> bad = {{{4, 0.80}, {2, 0.85}, {1, 0.83}},
                                                   {{4, 0.80}, {2, 0.81}, {1, 0.86}},
                                                   {{4, 0.80}, {2, 0.85}, {1, 0.89}},
                                                   {{4, 0.80}, {2, 0.85}, {1, 0.85}}};
  for (const auto& l : bad) {
    const MeshStudy s = study_meshes(l, 2);
    CHECK(s.approach == Approach::wavering);
    CHECK(s.value == l.back().value);
    CHECK(s.plus_minus == Approx(0.05));
  }
}

TEST_CASE("a number that does not change has no bar") {
  const MeshStudy s = study_meshes({{4, 0.8}, {2, 0.8}, {1, 0.8}}, 2);
  CHECK(s.approach == Approach::unchanging);
  CHECK(s.value == 0.8);
  CHECK(s.plus_minus == 0);
}
