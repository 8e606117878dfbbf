// What the offline pages know of one order of ironing: the panel, its steps and the packed fields, as JSON and as text.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "viz/kit/colours.hpp"

#include <string>

namespace evenpull::viz {

struct PageData {
  std::string about;   ///< JSON, safe inside a script element
  std::string fields;  ///< packed (viz/page/packed.hpp)
};

/// What a page draws.
enum class PageFields {
  all,
  flat_skins  ///< both skins laid flat: larger pull, state, slip; nothing of how the frame moves
};

/// `more`: what a page wants to add, a JSON object ("" for nothing), found under "more".
PageData page_data(const Plan& plan, const std::string& more = "", PageFields which = PageFields::all);

/// The scale of the pull pictures as a page knows it: bounds [N/m], colours, open end. JSON.
std::string pull_scale_json(const Bands& bands, bool open_end);

/// JSON made safe inside a script element.
std::string for_script(std::string json);

/// "#2a4b8d".
std::string hex(const Colour& c);

}  // namespace evenpull::viz
