// The worked example of the grid convergence index: Celik et al., "Procedure for estimation and reporting of uncertainty
// due to discretization in CFD applications", J. Fluids Eng. 130, 078001 (2008), table 1, first column: three meshes of
// 18000, 8000 and 4500 cells in two dimensions. Looked up in programs that quote the table, not in the paper itself.
#include "sequencer/numbers/mesh_study.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

TEST_CASE("the study of meshes repeats the worked example of the grid convergence index") {
  const auto size = [](double cells) { return 1 / std::sqrt(cells); };
  const MeshStudy s = study_meshes({{size(4500), 5.863}, {size(8000), 5.972}, {size(18000), 6.063}}, 2);
  const std::string check = "Worked example of the grid convergence index",
                    source = "Celik et al., J. Fluids Eng. 130, 078001 (2008), table 1";
  const auto enter = [&](const std::string& quantity, double published, double ours, double digit) {
    book::enter({.chapter = "Mesh studies",
                 .check = check,
                 .quantity = quantity,
                 .source = source,
                 .published = published,
                 .ours = ours,
                 .tolerance = digit / published,
                 .note = "published rounded to the digit that the tolerance stands for"});
  };
  CHECK(s.approach == Approach::settling);
  enter("order [1]", 1.53, s.order, 0.005);
  enter("extrapolated reattachment length [1]", 6.1685, s.value, 0.0006);  // their order is rounded before it is used
  enter("grid convergence index [%]", 2.2, 100 * s.plus_minus / 6.063, 0.05);
}
