// The pages of `evenpull blanket`: the bolt, each piece with its dimensions, laps, tapes.
#pragma once

#include "shop/cloth_piece.hpp"
#include "viz/sheet/sheet.hpp"

#include <string>
#include <utility>
#include <vector>

namespace evenpull {

struct BlanketOpening {
  std::string letter;  ///< "P1"
  Polygon line;
};

/// One kind of piece; lengths in m, u to the right and v down as it lies with its outer face up.
struct BlanketPiecePage {
  std::string heading;  ///< "A, B: whole wrap, 74 × 31 in"
  std::string of_title;
  Polygon line, cut;
  std::vector<BlanketOpening> openings;
  std::vector<std::pair<std::string, Polygon>> ribs;  ///< number, line
  std::vector<Polygon> folds;                         ///< trailing edge of a full wrap
  std::string upper, lower;                           ///< what lies along these edges
  double warp = 0;                                    ///< rad from u towards v
  std::string length_words, width_words;
  std::vector<std::string> edges, opening_places, notes;
  std::vector<std::vector<std::string>> corners;  ///< letter, along the bolt, across
};

struct BlanketOnBolt {
  std::string letter;
  Polygon shape;  ///< m, on the bolt
};

struct BlanketSheet {
  std::string name, title, headline;
  std::vector<std::string> warnings;
  std::vector<BlanketOnBolt> on_bolt;
  double bolt_length = 0, bolt_width = 0;  ///< that is used, m
  std::string length_words, width_words;
  std::vector<std::string> bolt_notes;
  std::vector<BlanketPiecePage> pieces;
  std::vector<std::string> opening_steps;
  std::vector<std::string> line_heads;
  std::vector<std::vector<std::string>> lines, tapes;
  std::vector<std::string> places, notes, cautions, defaults;
};

/// Letter or A4, as many pages as it takes. Throws CannotWriteFile that names the file when it cannot be written.
void write_blanket_sheet(const BlanketSheet& sheet, Paper paper, const std::string& version, const std::string& path);

}  // namespace evenpull
