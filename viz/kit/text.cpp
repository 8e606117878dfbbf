#include "viz/kit/text.hpp"

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
    if (whole->end_index - whole->start_index <= longest_unit) pango_attr_list_insert(list, whole);
    else pango_attribute_destroy(whole);
  }
}

LayoutPtr lay_out(cairo_t* cr, const std::string& words, const TextStyle& style) {
  const std::string text = readable(words);
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

/// Length of the UTF-8 character that begins there; 0 if none does.
std::size_t character_length(const std::string& text, std::size_t at) {
  const gunichar c = g_utf8_get_char_validated(text.data() + at, static_cast<gssize>(text.size() - at));
  if (c == static_cast<gunichar>(-1) || c == static_cast<gunichar>(-2)) return 0;
  return static_cast<std::size_t>(g_utf8_next_char(text.data() + at) - (text.data() + at));
}

bool begins_character(const std::string& text, std::size_t at) {
  return at >= text.size() || (static_cast<unsigned char>(text[at]) & 0xC0) != 0x80;
}

}  // namespace

std::string readable(const std::string& text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const auto c = static_cast<unsigned char>(text[i]);
    const bool control = (c < 0x20 && c != '\n') || c == 0x7F;
    const std::size_t n = control ? 1 : character_length(text, i);
    if (control) out += ' ';
    else if (n == 0) out += "\uFFFD";
    else out.append(text, i, n);
    i += std::max<std::size_t>(n, 1);
  }
  return out;
}

std::string cut_to_width(cairo_t* cr, const std::string& words, const TextStyle& style, double room) {
  // No line of ours holds that many letters, and to set them all only to drop them takes long.
  constexpr std::size_t most = 1000;
  TextStyle line = style;
  line.width = 0;
  std::string text = readable(words);
  std::replace(text.begin(), text.end(), '\n', ' ');
  if (text.size() <= most && measure_text(cr, text, line).width <= room) return text;
  const auto cut_at = [&](std::size_t n) {
    while (!begins_character(text, n)) --n;
    while (n > 0 && text[n - 1] == ' ') --n;
    return text.substr(0, n) + "…";
  };
  std::size_t fits = 0, too_long = std::min(text.size(), most) + 1;
  while (too_long - fits > 1) {
    const std::size_t half = (fits + too_long) / 2;
    (measure_text(cr, cut_at(half), line).width <= room ? fits : too_long) = half;
  }
  return cut_at(fits);
}

std::vector<std::string> split_by_height(cairo_t* cr, const std::string& words, const TextStyle& style, double height) {
  std::vector<std::string> pieces;
  const std::string text = readable(words);
  const auto layout = lay_out(cr, text, style);
  std::unique_ptr<PangoLayoutIter, decltype(&pango_layout_iter_free)> line(pango_layout_get_iter(layout.get()),
                                                                           pango_layout_iter_free);
  std::size_t from = 0;
  int top = 0;
  const auto cut = [&](std::size_t to) {
    std::string piece = text.substr(from, to - from);
    while (!piece.empty() && (piece.back() == ' ' || piece.back() == '\n')) piece.pop_back();
    pieces.push_back(std::move(piece));
    from = to;
  };
  do {
    int y0 = 0, y1 = 0;
    pango_layout_iter_get_line_yrange(line.get(), &y0, &y1);
    const auto begin = static_cast<std::size_t>(pango_layout_iter_get_index(line.get()));
    if (begin > from && y1 - top > height * PANGO_SCALE) {
      cut(begin);
      top = y0;
    }
  } while (pango_layout_iter_next_line(line.get()));
  cut(text.size());
  return pieces;
}

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
