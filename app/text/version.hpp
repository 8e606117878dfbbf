// The version, written once in the build, and the commit that was built.
#pragma once

namespace evenpull {

const char* version();
/// Version and commit, for what people read: "0.1.0, commit 1a2b3c4". What programs read has the version alone, so that
/// it is the same wherever the answer is.
const char* version_and_commit();
/// Text of cases/template.toml, embedded when built.
const char* template_text();

}  // namespace evenpull
