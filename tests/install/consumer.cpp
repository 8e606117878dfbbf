// Uses the installed headers by the same paths as the project itself does.
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

int main() {
  evenpull::Case c;
  c.outline.leading_edge = {{0, 0}, {0, 1.8}};
  return c.outline.span() == 1.8 ? 0 : 1;
}
