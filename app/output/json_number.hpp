// Numbers on their way into a JSON document.
#pragma once

#include <optional>
#include <string>

#include <nlohmann/json.hpp>

namespace evenpull {

using Json = nlohmann::ordered_json;

/// Rounded to 6 significant digits, which is more than the model knows. A value that is not finite would become a
/// silent null, so it throws std::logic_error with its name instead.
Json json_number(double value, const char* name);
Json json_number(const std::optional<double>& value, const char* name);

/// The same, null where the frame gave way before there was such a number.
Json unless(bool gave_way, double value, const char* name);

/// The document as it is written. Bytes of a file's name that are no UTF-8 become the sign for that: names may hold any.
std::string json_text(const Json& document);

}  // namespace evenpull
