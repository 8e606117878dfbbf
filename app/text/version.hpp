// The version, written once in the build.
#pragma once

namespace evenpull {

const char* version();
/// Text of cases/template.toml, embedded when built.
const char* template_text();

}  // namespace evenpull
