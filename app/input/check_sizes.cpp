// Sizes of a section against each other: each slip gets the size that cannot be, and the one beside which it cannot.
#include "app/input/section_sizes.hpp"
#include "solver/statement/section_shapes.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

namespace evenpull {
namespace {

using Kind = SectionShape::Kind;

class Sizes {
 public:
  Sizes(const CaseTable& table, const SectionShape& shape) : t_(table), s_(shape) {}

  void check() const {
    switch (s_.kind) {
      case Kind::tube:
        if (2 * s_.wall > s_.outside_diameter)
          t_.fail("wall", fmt::format("is more than half the outside diameter ({}); check the units",
                                      shown("outside_diameter")));
        break;
      case Kind::sheet_rib: sheet_rib(); break;
      case Kind::folded_edge: folded_edge(); break;
      case Kind::channel:
        bends("flange", s_.width, 1);
        if (s_.height > 0) bends("height", s_.height, 2);
        break;
      case Kind::angle:
        bends("width", s_.width, 1);
        bends("height", s_.height, 1);
        break;
      case Kind::hat:
        bends("width", s_.width, 2);
        bends("height", s_.height, 2);
        if (s_.flange <= s_.fold_radius)
          t_.fail("flange", fmt::format("ends within the bend; it is measured from the outside of the web and must be "
                                        "wider than bend_radius ({})",
                                        shown("bend_radius")));
        break;
      case Kind::i_section:
      case Kind::capstrip_rib:
      case Kind::truss_rib: capped(); break;
      case Kind::bar:
      case Kind::closed_nose:
      case Kind::properties:
      case Kind::triangle: break;
    }
  }

 private:
  std::string shown(const char* key) const { return t_.has(key) ? t_.find(key)->shown() : "not stated"; }

  /// A width over all that must hold `count` bends and their sheet.
  void bends(const char* key, double value, int count) const {
    if (value > count * (s_.wall + s_.fold_radius)) return;
    const std::string bend = count == 1 ? "the bend" : "the two bends";
    t_.fail(key, s_.fold_radius > 0
                     ? fmt::format("leaves nothing beside {} of {} sheet with a bend_radius of {}; it is measured over "
                                   "all: check the units",
                                   bend, shown("sheet"), shown("bend_radius"))
                     : fmt::format("leaves nothing beside the sheet ({}); it is measured over all: check the units",
                                   shown("sheet")));
  }

  void sheet_rib() const {
    if (s_.fold_radius > 0) bends("flange", s_.width, 1);
    if (s_.fold_radius > 0 && s_.height > 0) bends("height", s_.height, 2);
    if (s_.lip > 0 && s_.height > 0 && 2 * s_.lip >= s_.height)
      t_.fail("lip", fmt::format("is turned in from both flanges, and two of them are more than the height ({})",
                                 shown("height")));
    if (s_.hole == 0) return;
    if (s_.height > 0 && s_.hole > hole_at(s_, s_.height))
      t_.fail("hole_diameter",
              fmt::format("leaves less than a quarter of the height ({}) beside the hole; check the units",
                          shown("height")));
    if (s_.hole_spacing <= s_.hole)
      t_.fail("hole_spacing", fmt::format("is from the middle of one hole to the middle of the next, and must be more "
                                          "than hole_diameter ({})",
                                          shown("hole_diameter")));
  }

  void folded_edge() const {
    if (s_.fold_radius == 0) {
      if (s_.height >= 2 * s_.width)
        t_.fail("opening", fmt::format("is wider than the two legs of {} can reach; check the units", shown("leg")));
      return;
    }
    bends("leg", s_.width, 1);
    const double narrowest = 2 * s_.fold_radius + s_.wall, straight = s_.width - s_.fold_radius - s_.wall;
    if (s_.height < narrowest)
      t_.fail("opening", fmt::format("is narrower than the fold itself, {} between the middles of the legs; check "
                                     "bend_radius ({})",
                                     print_length(narrowest), shown("bend_radius")));
    if (s_.height >= 2 * straight)
      t_.fail("opening", fmt::format("is wider than the two legs of {} can reach from a fold of {}; check the units",
                                     shown("leg"), shown("bend_radius")));
  }

  void capped() const {
    if (s_.kind == Kind::truss_rib && s_.web > s_.width)
      t_.fail("stick", fmt::format("is thicker than the caps are wide ({}); check the units", shown("width")));
    if (s_.kind != Kind::truss_rib && s_.web >= s_.width)
      t_.fail("web", fmt::format("is as thick as the caps are wide ({}); a section of one piece is a \"bar\"",
                                 shown("width")));
    if (s_.height > 0 && 2 * s_.wall >= s_.height)
      t_.fail("cap",
              fmt::format("is half the height ({}) or more, so that nothing is left between the caps; a section of "
                          "one piece is a \"bar\"",
                          shown("height")));
  }

  const CaseTable& t_;
  const SectionShape& s_;
};

}  // namespace

void check_sizes(const CaseTable& section, const SectionShape& shape) { Sizes(section, shape).check(); }

}  // namespace evenpull
