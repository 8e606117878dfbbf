// What is cut, lapped and glued, in words.
#pragma once

#include "shop/cloth_nest.hpp"
#include "shop/seam_check.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// A piece that is cut, one of `count` alike, by its letter.
struct CutPiece {
  const ClothPiece* piece = nullptr;
  const Case* of = nullptr;
  int number = 0;  ///< of all that are cut, from 0: "A"
};

std::string piece_letter(int number);            ///< "A", "B", … "AA"
std::string piece_name(const ClothPiece& p);     ///< "whole wrap", "top sheet", "bottom sheet"
std::string cut_size_text(const ClothPiece& p);  ///< "74.5 × 31.2 in (1892 × 793 mm)"
std::string blanket_headline(int pieces, const Nest& nest, const Bolt& bolt);
/// Why it is no shorter, and how far the least that any nest could need lies below.
std::string nest_sentence(const Nest& nest, const Bolt& bolt);

/// What an edge of a piece has beyond its glue line: "leading edge: 2.9 in (74 mm): …".
std::vector<std::string> edge_sentences(const ClothPiece& p);
std::string edge_of_drawing(const ClothPiece& p, PieceEdge e);  ///< "leading edge, top side"
std::string selvedge_sentence(const Bolt& bolt);
std::string check_bar_words();
std::string no_safe_stage_sentence();
std::string tile_title();
std::string tile_words(const std::string& piece, int row, int column, int rows, int columns);
std::string tile_check_words();
/// Yarns, looseness, what does not lie flat.
std::vector<std::string> piece_notes(const ClothPiece& p);

std::string cut_out_name(const PieceCutOut& o, const Case& c);  ///< "P1, tab pocket", "G1"
/// Where the opening lies on the cloth, from the root's glue line and from the line of the leading edge.
std::string cut_out_place(const PieceCutOut& o, const ClothPiece& p);
std::vector<std::string> cut_out_steps(const Case& c, const SeamStatement& seam);

std::vector<std::string> glue_line_heads();
std::vector<std::string> glue_line_row(const GlueLineCheck& l, const Case& c);
std::vector<std::string> tape_row(const TapeLength& t);
std::string peel_sentence(const PeelPlace& p, const Case& c);
/// What is wrong with the laps; empty: nothing.
std::vector<std::string> seam_warnings(const SeamCheck& check, const Case& c, const SeamStatement& seam);
/// What the pulls are, and what the adhesive must bear.
std::vector<std::string> seam_notes(const SeamCheck& check, const Adhesive& glue, bool from_plan);
std::vector<std::string> blanket_cautions();
std::string default_sentence(const DefaultUsed& d);

/// How wide the bolt would have to be, and what else would do.
std::string too_wide_sentence(const ClothPiece& p, double needed, const Bolt& bolt, double as_sheets, double other_way);

}  // namespace evenpull::viz
