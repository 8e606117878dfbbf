#include "viz/panel/zone_words.hpp"

#include <algorithm>
#include <vector>

namespace evenpull::viz {

namespace {

constexpr double line_height = 1.2;     ///< of the type size, DejaVu Sans through Pango
constexpr double share_of_room = 0.80;  ///< of a zone's width that words may fill
constexpr double word_space = 0.4;      ///< between two words on a line, of the small type size
constexpr double close_line = 0.9;      ///< height of the small line under the large one, of its full height

struct Placed {
  ZoneWords words;
  Point centre;
  Extent room;
};

/// Two words a zone stand one above the other or side by side.
struct Arrangement {
  bool beside = false;
  bool fits = true;
  double size = 0;  ///< of the large words
};

Arrangement arrange(cairo_t* cr, const std::vector<Placed>& all, bool beside, double least, double most) {
  // A little into the margin is better than no label.
  constexpr double slack = 1.2;
  Arrangement a{beside, true, most};
  for (const auto& p : all) {
    if (p.words.large.empty()) continue;
    Extent room{p.room.width * share_of_room, p.room.height};
    if (!p.words.small.empty()) {
      const double small_width = measure_text(cr, p.words.small, {.size = least}).width;
      if (beside) room.width -= small_width + word_space * least;
      else room.height -= close_line * line_height * least;
      const Extent needed = measure_text(cr, p.words.large, {.size = least, .bold = true});
      a.fits = a.fits && needed.width <= slack * room.width && needed.height <= slack * room.height &&
               small_width <= 0.97 * p.room.width;
    }
    a.size = std::min(a.size, fitting_size(cr, p.words.large, {.bold = true}, room, least, most));
  }
  return a;
}

/// Words that are much larger than their zone lie on those of its neighbours, and nobody reads either.
bool far_too_large(cairo_t* cr, const Placed& p, double least) {
  constexpr double most = 2;
  const std::string& word = p.words.large.empty() ? p.words.small : p.words.large;
  const Extent size = measure_text(cr, word, {.size = least, .bold = true});
  return size.width > most * p.room.width || size.height > most * p.room.height;
}

/// Hides what is under words so that they can be read.
void draw_plate(cairo_t* cr, Point centre, Extent words) {
  const double w = words.width + 4, h = 0.86 * words.height;
  fill_box(cr, {centre.x - w / 2, centre.y - h / 2, w, h}, white);
}

void draw_one(cairo_t* cr, const Placed& p, const TextStyle& style) {
  const bool none = p.words.large.empty();
  const std::string& word = none ? p.words.small : p.words.large;
  if (p.words.plate) draw_plate(cr, p.centre, measure_text(cr, word, style));
  draw_centred(cr, p.centre, word, style);
}

void draw_both(cairo_t* cr, const Placed& p, const TextStyle& large, const TextStyle& small, bool beside) {
  const double w = measure_text(cr, p.words.large, large).width, v = measure_text(cr, p.words.small, small).width;
  if (beside) {
    const double whole = w + v + word_space * small.size, left = p.centre.x - whole / 2;
    if (p.words.plate) draw_plate(cr, p.centre, {whole, line_height * large.size});
    draw_centred(cr, {left + w / 2, p.centre.y}, p.words.large, large);
    draw_centred(cr, {left + whole - v / 2, p.centre.y}, p.words.small, small);
    return;
  }
  const double whole = line_height * (large.size + close_line * small.size), upper = p.centre.y - whole / 2;
  if (p.words.plate) draw_plate(cr, p.centre, {std::max(w, v), whole});
  draw_centred(cr, {p.centre.x, upper + line_height * large.size / 2}, p.words.large, large);
  draw_centred(cr, {p.centre.x, upper + whole - line_height * small.size / 2}, p.words.small, small);
}

}  // namespace

int draw_zone_words(cairo_t* cr, const Panel& panel, const SkinView& view, double least, double most,
                    const std::function<ZoneWords(const Zone&)>& words) {
  std::vector<Placed> all;
  for (const auto& zone : panel.zones)
    if (!zone.quads.empty()) all.push_back({words(zone), view.centre(panel, zone), room_in_zone(panel, zone, view)});
  const auto too_small =
      std::remove_if(all.begin(), all.end(), [&](const Placed& p) { return far_too_large(cr, p, least); });
  const auto left_out = static_cast<int>(all.end() - too_small);
  all.erase(too_small, all.end());
  Arrangement best = arrange(cr, all, false, least, most);
  const Arrangement other = arrange(cr, all, true, least, most);
  if (other.fits && (!best.fits || other.size > best.size)) best = other;
  if (!best.fits) {
    for (auto& p : all)
      if (!p.words.large.empty()) p.words.small.clear();
    best = arrange(cr, all, false, least, most);
  }
  for (const auto& p : all) {
    const TextStyle large{.size = best.size, .bold = true, .colour = p.words.ink};
    const TextStyle small{.size = least, .colour = p.words.ink};
    if (p.words.large.empty() || p.words.small.empty()) draw_one(cr, p, p.words.large.empty() ? small : large);
    else draw_both(cr, p, large, small, best.beside);
  }
  return left_out;
}

}  // namespace evenpull::viz
