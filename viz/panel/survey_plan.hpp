// The panel in plan view with everything a case states about it.
#pragma once

#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"
#include "viz/kit/text.hpp"

#include <string>

namespace evenpull::viz {

class SurveyPlan {
 public:
  /// To scale in a strip of the given width whose upper edge is at y.
  SurveyPlan(const Case& c, const Panel& panel, double x, double y, double width);
  void draw(cairo_t* cr) const;
  double bottom() const;  ///< of all that is drawn

 private:
  Point at(double x, double y) const;
  Point joint(int index) const;
  Point support_place(const Support& s, double station) const;
  void draw_zones(cairo_t* cr) const;
  void draw_outline(cairo_t* cr) const;
  void draw_cut_outs(cairo_t* cr) const;
  void draw_numbers(cairo_t* cr) const;
  /// The middle of a zone, or beside the hinge gap in it.
  Point number_place(const Zone& zone) const;
  void draw_members(cairo_t* cr) const;
  void draw_fastenings(cairo_t* cr) const;
  void draw_going_on(cairo_t* cr) const;
  void draw_names(cairo_t* cr) const;
  void draw_stations(cairo_t* cr) const;
  void draw_supports(cairo_t* cr) const;
  void draw_chords(cairo_t* cr) const;
  Point beside_member(const FrameMember& m) const;
  bool lies_below_the_cloth(const FrameMember& m) const;
  double stations_bottom() const;
  std::size_t names_shown() const;
  double lower_edge() const;  ///< of the outline on paper

  const Case& case_;
  const Panel& panel_;
  double left_ = 0, right_ = 0, top_ = 0, outer_ = 0;
  double scale_ = 1, x_low_ = 0, x_high_ = 1, y_high_ = 1;
};

/// "P1" for a pocket, "G1" for a hinge gap: index into Panel::cut_outs.
std::string cut_out_letter(const Case& c, std::size_t which);

/// Symbols that differ in shape: a triangle under what is held while ironed, a ring round what is held in use.
void draw_ironed_symbol(cairo_t* cr, Point at);
void draw_in_use_symbol(cairo_t* cr, Point at);

}  // namespace evenpull::viz
