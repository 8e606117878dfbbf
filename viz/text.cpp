#include "viz/text.hpp"

#include <pango/pangocairo.h>

#include <algorithm>
#include <memory>

namespace evenpull::viz {

namespace {

constexpr unsigned longest_unit = 16;  // letters; paths and the like must still break

struct Unref {
  void operator()(PangoLayout* l) const { g_object_unref(l); }
};
using LayoutPtr = std::unique_ptr<PangoLayout, Unref>;

// "2.3 in/s" breaks before the number or after the unit, not at the stroke.
void keep_units_whole(PangoAttrList* list, const std::string& text) {
  for (std::size_t i = text.find('/'); i != std::string::npos; i = text.find('/', i + 1)) {
    const std::size_t from = text.rfind(' ', i), to = text.find(' ', i);
    PangoAttribute* whole = pango_attr_allow_breaks_new(FALSE);
    whole->start_index = static_cast<guint>(from == std::string::npos ? 0 : from + 1);
    whole->end_index = static_cast<guint>(to == std::string::npos ? text.size() : to);
    if (whole->end_index - whole->start_index <= longest_unit)
      pango_attr_list_insert(list, whole);
    else
      pango_attribute_destroy(whole);
  }
}

LayoutPtr lay_out(cairo_t* cr, const std::string& text, const TextStyle& style) {
  LayoutPtr layout(pango_cairo_create_layout(cr));
  std::unique_ptr<PangoFontDescription, decltype(&pango_font_description_free)> font(pango_font_description_new(),
                                                                                     pango_font_description_free);
  pango_font_description_set_family_static(font.get(), "DejaVu Sans");
  pango_font_description_set_absolute_size(font.get(), style.size * PANGO_SCALE);
  if (style.bold) pango_font_description_set_weight(font.get(), PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description(layout.get(), font.get());
  // Ligatures save nothing on a bench and spoil a search for "fill" in the PDF.
  PangoAttrList* attributes = pango_attr_list_new();
  pango_attr_list_insert(attributes, pango_attr_font_features_new("liga=0"));
  keep_units_whole(attributes, text);
  pango_layout_set_attributes(layout.get(), attributes);
  pango_attr_list_unref(attributes);
  if (style.width > 0) {
    pango_layout_set_width(layout.get(), static_cast<int>(style.width * PANGO_SCALE));
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    pango_layout_set_alignment(layout.get(), style.align == Align::left     ? PANGO_ALIGN_LEFT
                                             : style.align == Align::centre ? PANGO_ALIGN_CENTER
                                                                            : PANGO_ALIGN_RIGHT);
  }
  pango_layout_set_text(layout.get(), text.c_str(), static_cast<int>(text.size()));
  return layout;
}

Extent size_of(PangoLayout* layout) {
  int w = 0, h = 0;
  pango_layout_get_size(layout, &w, &h);
  return {static_cast<double>(w) / PANGO_SCALE, static_cast<double>(h) / PANGO_SCALE};
}

void show(cairo_t* cr, PangoLayout* layout, Point at, const Colour& ink) {
  set_ink(cr, ink);
  cairo_move_to(cr, at.x, at.y);
  pango_cairo_show_layout(cr, layout);
  cairo_new_path(cr);
}

}  // namespace

Extent draw_text(cairo_t* cr, Point at, const std::string& text, const TextStyle& style) {
  const auto layout = lay_out(cr, text, style);
  const Extent size = size_of(layout.get());
  if (style.width <= 0 && style.align != Align::left)
    at.x -= style.align == Align::centre ? size.width / 2 : size.width;
  show(cr, layout.get(), at, style.colour);
  return size;
}

Extent measure_text(cairo_t* cr, const std::string& text, const TextStyle& style) {
  return size_of(lay_out(cr, text, style).get());
}

void draw_centred(cairo_t* cr, Point centre, const std::string& text, const TextStyle& style, double angle) {
  TextStyle line = style;
  line.width = 0;
  const auto layout = lay_out(cr, text, line);
  const Extent size = size_of(layout.get());
  cairo_save(cr);
  cairo_translate(cr, centre.x, centre.y);
  cairo_rotate(cr, angle);
  show(cr, layout.get(), {-size.width / 2, -size.height / 2}, style.colour);
  cairo_restore(cr);
}

double fitting_size(cairo_t* cr, const std::string& text, const TextStyle& style, Extent box, double least,
                    double most) {
  TextStyle trial = style;
  trial.size = most;
  trial.width = 0;
  const Extent at_most = measure_text(cr, text, trial);
  const double shrink = std::min(box.width / at_most.width, box.height / at_most.height);
  return std::clamp(most * std::min(1.0, shrink), least, most);
}

}  // namespace evenpull::viz
