// blanket.json.
#pragma once

#include "app/output/json_number.hpp"
#include "shop/cloth_nest.hpp"
#include "shop/seam_check.hpp"
#include "viz/words/blanket_words.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct BlanketResult {
  const Case* the_case = nullptr;
  Trimming trimming{};
  std::vector<ClothPiece> pieces{};  ///< of all cases, each once
  std::vector<const Case*> of{};     ///< of each piece
  std::vector<int> cut{};            ///< each piece that is cut, by its place among `pieces`
  Nest layout{};
  std::vector<SeamCheck> seams{};  ///< of each case
  std::vector<const Case*> cases{};
  std::vector<std::string> warnings{};
};

Json blanket_json(const BlanketResult& r);

}  // namespace evenpull
