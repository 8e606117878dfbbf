// Every sentence of the reader, word by word: tests/app/messages/*.txt hold what is changed in the template (of a
// draft: the answers by name) and the whole message that must come of it. After a change of wording
//   EVENPULL_WRITE_MESSAGES=1 build/audit/tests/test_app "every message*"
// writes them anew: read the difference as a mechanic would before it is committed.
#include "app/input/order_file.hpp"
#include "app/text/quoted.hpp"
#include "tests/app/drafted.hpp"

#include <vector>

using namespace evenpull;
using namespace evenpull_test;

namespace {

struct Change {
  std::string from, to;
};

struct Slip {
  std::string name, message;
  std::vector<Change> changes;
};

struct SlipFile {
  std::filesystem::path path;
  std::string heading;
  std::vector<Slip> slips;
};

bool is_draft(const SlipFile& file) { return file.path.stem() == "draft"; }

/// Lines of one sign are joined; a new `-`, or a `+` where none was open, begins the next change.
SlipFile read_slips(const std::filesystem::path& path) {
  SlipFile out{path, "", {}};
  std::istringstream in(read_all(path));
  std::string line;
  char before = ' ';
  while (std::getline(in, line)) {
    const char sign = line.empty() ? ' ' : line[0];
    const auto rest = line.size() > 2 ? line.substr(2) : std::string();
    if (sign == '#') out.heading += line + "\n";
    if (sign == '=') out.slips.push_back({line.substr(3), "", {}});
    if (sign == '>') out.slips.back().message = rest;
    if (sign == '-' || sign == '+') {
      auto& changes = out.slips.back().changes;
      if (sign == '-' ? before != '-' : before != '-' && before != '+') changes.emplace_back();
      auto& text = sign == '-' ? changes.back().from : changes.back().to;
      text += (before == sign ? "\n" : "") + rest;
    }
    before = sign;
  }
  return out;
}

std::string changed(std::string text, const Slip& slip) {
  for (const auto& c : slip.changes) text = c.from.empty() ? text + c.to + "\n" : with(text, c.from, c.to);
  return text;
}

const char* const three_steps =
    "format = 1\nsteps = [\n"
    "  { stage = \"250 degF\", pass = 1, side = \"top\", bay = 1, strip = 1, dose = 0.25, done = true },\n"
    "  { stage = \"250 degF\", pass = 1, side = \"bottom\", bay = 1, strip = 1, dose = 0.25 },\n"
    "  { stage = \"300 degF\", pass = 2, side = \"top\", bay = 6, strip = 1, dose = 1 },\n]\n";

/// Everything that a run asks of an order, on a panel of six bays.
void take_order(const std::string& path, Case c) {
  c.file = "case.toml";
  const auto order = read_order_file(path, c);
  take_passes(c, order, path);
  Panel panel;
  panel.bays = 6;
  panel.strips = 1;
  check_order(order, path, c, panel);
  steps_done(order, path);
}

/// The template without comments and empty lines, so that a change may go over several tables.
std::string dense() {
  std::istringstream in(base());
  std::string out;
  for (std::string line; std::getline(in, line);)
    if (!line.empty()) out += line + "\n";
  return out;
}

/// What is said, with the name of the file as it would stand in its own folder.
std::string said(const Slip& slip, bool of_order) {
  const TemporaryFolder folder;
  const std::string name = of_order ? "order.toml" : "case.toml";
  const auto path = folder.write(name, changed(of_order ? three_steps : dense(), slip));
  try {
    if (of_order) take_order(path, case_of(base()));
    else read_case(path);
  } catch (const CaseFileError& e) {
    const std::string what = e.what();
    return what.substr(what.find(name));
  }
  return "(nothing)";
}

/// Of answers by name, the rest as usual.
std::string said_of_draft(const Slip& slip) {
  std::istringstream in(slip.changes.front().to);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  try {
    draft_from(answered(lines), "case.toml", few_nodes);
  } catch (const std::runtime_error& e) {
    return e.what();
  }
  return "(nothing)";
}

void write_signed(std::ostream& out, char sign, const std::string& text) {
  std::istringstream lines(text + "\n");
  std::string line;
  while (std::getline(lines, line)) out << sign << (line.empty() ? "" : " ") << line << "\n";
}

void write_slips(const SlipFile& file) {
  std::ofstream out(file.path, std::ios::binary);
  out << file.heading;
  for (const auto& s : file.slips) {
    out << "\n== " << s.name << "\n";
    for (const auto& c : s.changes) {
      if (!c.from.empty()) write_signed(out, '-', c.from);
      write_signed(out, '+', c.to);
    }
    out << "> " << s.message << "\n";
  }
}

std::vector<SlipFile> all_slips() {
  std::vector<SlipFile> out;
  for (const auto* name : {"frame", "sections", "cut_outs", "cloth", "quantities", "text", "wings_and_wires", "attach",
                           "adhesive", "trimming", "order", "draft"})
    out.push_back(read_slips(std::string(EVENPULL_SOURCE_DIR) + "/tests/app/messages/" + name + ".txt"));
  return out;
}

}  // namespace

TEST_CASE("every message of the reader is the one that was agreed, word by word", "[messages]") {
  const bool write = std::getenv("EVENPULL_WRITE_MESSAGES") != nullptr;
  size_t count = 0;
  for (auto& file : all_slips()) {
    for (auto& slip : file.slips) {
      INFO(slip.name);
      const auto message = is_draft(file) ? said_of_draft(slip) : said(slip, file.path.stem() == "order");
      if (write) slip.message = message;
      CHECK(message == slip.message);
      ++count;
    }
    if (write) write_slips(file);
  }
  CHECK(count > 200);
}

TEST_CASE("every message names its line, stands on one line and shows nothing that a terminal obeys", "[messages]") {
  for (const auto& file : all_slips())
    for (const auto& slip : file.slips) {
      INFO(slip.name << "\n" << slip.message);
      CHECK(slip.message == on_one_line(slip.message));
      if (is_draft(file)) continue;
      const auto colon = slip.message.find(':');
      CHECK(slip.message.substr(0, colon) == (file.path.stem() == "order" ? "order.toml" : "case.toml"));
      CHECK(std::isdigit(static_cast<unsigned char>(slip.message[colon + 1])));
    }
}
