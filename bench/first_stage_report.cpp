// The first stage has no bound worth the name: a prefix of it has hardly loaded anything. What can be said instead: how many
// of the orders drawn at random do better on the coarse model that searches. `evenpull_first_stage_report CASE... [draws]`
#include "app/input/case_reader.hpp"
#include "sequencer/orders/ways.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/search/coarse_model.hpp"
#include "sequencer/search/found.hpp"
#include "sequencer/search/order_finder.hpp"
#include "solver/ironing/ironing.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <numeric>
#include <random>
#include <string>

using namespace evenpull;

namespace {

constexpr int usual_draws = 1000;
// No draw of n is better: with 95 % confidence less than this share of all orders is, times n.
const double rule_of_three = -std::log(0.05);

void report(const std::string& path, int draws) {
  const Case c = read_case(path);
  OrderFinder finder(c, Accuracy::quick, one_by_one);
  if (finder.find().empty()) {
    std::printf("| %s | no order stands |\n", path.c_str());
    return;
  }
  const double found = finder.stages().front().cost;
  const Model mesh(c, search_mesh(Accuracy::quick));
  Ironing ironing(mesh);
  const CoarseModel m(mesh, 0, ironing.begin(), whole_bays(mesh.panel));
  std::vector<int> order(static_cast<std::size_t>(m.size()));
  std::iota(order.begin(), order.end(), 0);
  std::mt19937 random(1);
  std::vector<double> cost;
  int better = 0;
  for (int i = 0; i < draws; ++i) {
    std::shuffle(order.begin(), order.end(), random);
    cost.push_back(evaluate(m, prices_of(c), order).cost);
    if (cost.back() < found) ++better;
  }
  std::sort(cost.begin(), cost.end());
  std::printf("| %s | %.3f | %.3f | %.3f | %d of %d | %s |\n", std::filesystem::path(path).stem().c_str(), found,
              cost.front(), cost[cost.size() / 2], better, draws,
              better > 0 ? "" : (std::to_string(rule_of_three / draws * 100).substr(0, 4) + " %").c_str());
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  std::printf(
      "| case | searched | best drawn | median drawn | better | of all orders better, less than, 95 %% |\n"
      "|---|---|---|---|---|---|\n");
  int draws = usual_draws;
  for (int i = 1; i < argc; ++i)
    if (const int n = std::atoi(argv[i]); n > 0) draws = n;
  for (int i = 1; i < argc; ++i)
    if (std::atoi(argv[i]) == 0) report(argv[i], draws);
}
