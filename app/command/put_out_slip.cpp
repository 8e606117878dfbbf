#include "app/command/put_out_slip.hpp"

#include "app/input/case_reader.hpp"
#include "app/output/result_folder.hpp"
#include "app/text/version.hpp"
#include "solver/statement/errors.hpp"

#include <filesystem>
#include <ostream>

namespace evenpull {
namespace {

std::string named_after_case(const Request& r, const char* ending) {
  return (r.case_file == "-" ? "standard-input" : std::filesystem::path(r.case_file).stem().string()) + ending;
}

}  // namespace

void put_out_slip(const Request& r, std::ostream& out, const WorkSlip& slip, SlipSize size, const std::string& name,
                  const Json& json) {
  ResultFolder folder(result_folder_of(r), say_on_errors);
  const std::string document = json_text(json);
  const auto aside = folder.open();
  folder.write(name + ".json", document);
  folder.draw([&] { write_work_slip(slip, r.paper, size, version_and_commit(), (aside / (name + ".pdf")).string()); });
  folder.publish();
  say(r, out, document, [&] { return work_slip_text(slip, shown_result_folder(r) + "/" + name + ".pdf"); });
}

Json slip_json(const Case& c) {
  Json j;
  j["format"] = 1;
  j["program"] = std::string("evenpull ") + version();
  j["title"] = c.title;
  return j;
}

Json defaults_json(const std::vector<DefaultUsed>& taken) {
  auto list = Json::array();
  for (const DefaultUsed& d : taken) list.push_back({{"key", d.key}, {"value", d.value}, {"why", d.why}});
  return list;
}

std::string usual_plan_folder(const Request& r) { return named_after_case(r, "-plan"); }
std::string usual_log_file(const Request& r) { return named_after_case(r, "-log.jsonl"); }

Panel panel_of(const Request& r, const CaseFile& file) {
  try {
    return build_panel(file.value, {file.value.target_nodes});
  } catch (const CaseError& e) {
    throw CaseFileError(r.case_file, file.place_of(e.key), e.key, e.what());
  }
}

}  // namespace evenpull
