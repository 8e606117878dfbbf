// A slip of the bench on its way out: JSON, paper, terminal.
#pragma once

#include "app/command/commands.hpp"
#include "app/output/json_number.hpp"
#include "viz/sheet/work_slip_sheet.hpp"

#include <string>

namespace evenpull {

/// Writes `<name>.json` and `<name>.pdf` into the folder of results, whole or not at all, and says what was asked for.
void put_out_slip(const Request& r, std::ostream& out, const WorkSlip& slip, SlipSize size, const std::string& name,
                  const Json& json);

/// What every such document begins with.
Json slip_json(const Case& c);
Json defaults_json(const std::vector<DefaultUsed>& taken);

/// What the plan of a job is named after its case, in the current folder.
std::string usual_plan_folder(const Request& r);
/// Likewise its log.
std::string usual_log_file(const Request& r);

/// The panel of a case, with trouble told at its place in the file.
struct CaseFile;
Panel panel_of(const Request& r, const CaseFile& file);

}  // namespace evenpull
