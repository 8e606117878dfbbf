#include "tests/book/page.hpp"

#include "tests/book/plot.hpp"
#include "tests/book/words.hpp"

#include <algorithm>
#include <functional>
#include <set>

namespace evenpull::book {
namespace {

constexpr double one_percent = 0.01;
constexpr double second_order = 2, least_second_order = 1.8;

const char* const introduction = R"(# The verification book

<!-- Written by ./check --book from the runs of the published checks. Do not edit: the next run writes it again. -->

What evenpull computes, set beside answers from outside the project: closed forms, tables in published reports, and problems
worked by hand or by another method. Each line below was written by a test (in `tests/published/`) that fails when our number
leaves its bar, so this book cannot say what no test holds.

## How to read it

**If you are going to lean on the ceiling:** look at the summary, then at the list of what is off by more than one per cent.
A line says: this number is known from elsewhere, this is what evenpull makes of it, so much apart. The pictures are good when
the marks fall along the grey line: the finer the mesh, the nearer the answer.

**If you are going to check it:** *published* is the number outside the project and *ours* what the solver says. Where the
answer depends on the mesh it was run on three or more meshes and *ours* is the extrapolated value. *Error* is their
difference as a share of the published number (where that is zero, of a scale that the test states). *Order* is the observed
order of convergence beside what theory promises; a dash means that the answer does not depend on a mesh, "exact" that the
meshes agree to rounding. *Bar* is the error at which the test fails. A line that says *from memory* in its source was not
looked up again in the report that it names: where it also says *derived here* the derivation stands in the test, so that
the number does not rest on anyone's memory.

**Extrapolation.** With three meshes of sizes h₁ > h₂ > h₃ and answers f₁, f₂, f₃ the observed order p solves
(f₁ − f₂)/(f₂ − f₃) = r₂ᵖ (r₁ᵖ − 1)/(r₂ᵖ − 1), r₁ = h₁/h₂, r₂ = h₂/h₃, and the extrapolated value is
f₃ + (f₃ − f₂)/(r₂ᵖ − 1), p at most what theory promises (Richardson). The error bar of the finest mesh is 1.25 times the
distance to the extrapolated value (grid convergence index; Roache 1994 and Celik et al. 2008, both from memory; ASME V&V 20
has the same). Where the steps between meshes change sign or grow no order is claimed: the order is a dash, *ours* is the
finest mesh and the bar is the largest step. `sequencer/numbers/mesh_study.hpp` holds the code; the plans use the same.

## How to make it again

    ./check --book

runs all published checks and writes this page and its pictures. A test compares them with a fresh run: words must be equal,
numbers equal within one in a thousand or three units of the last digit printed.

)";

using Records = std::vector<Record>;

std::string row(const std::vector<std::string>& cells) {
  std::string out = "|";
  for (const std::string& c : cells) out += " " + c + " |";
  return out + "\n";
}

std::string head(const std::vector<std::string>& cells) {
  return row(cells) + row(std::vector<std::string>(cells.size(), "---"));
}

bool ordered(const Record& r) { return r.is_study() && r.approach == "settling"; }

std::string order_words(const Record& r) {
  if (!r.is_study()) return "–";
  if (r.approach == "unchanging") return "exact";
  return (ordered(r) ? decimals(r.order, 2) : "–") + " / " + number(r.theory);
}

Records those(const Records& all, const std::function<bool(const Record&)>& wanted) {
  Records out;
  std::copy_if(all.begin(), all.end(), std::back_inserter(out), wanted);
  return out;
}

std::string cause(const Record& r) { return r.note.empty() ? "no cause stated" : plain(r.note); }

std::string summary(const Records& all) {
  const auto count = [&](const std::function<bool(const Record&)>& f) { return std::to_string(those(all, f).size()); };
  std::set<std::pair<std::string, std::string>> checks;
  for (const Record& r : all) checks.emplace(r.chapter, r.check);
  const Records outside = those(all, [](const Record& r) { return r.error() > one_percent; });
  const auto seconds = [](const Record& r) { return r.theory == second_order && ordered(r); };
  const Records slow = those(all, [&](const Record& r) {
    return r.theory == second_order && r.is_study() && r.approach != "unchanging" &&
           (!ordered(r) || r.order < least_second_order);
  });
  const Record& worst =
      *std::max_element(all.begin(), all.end(), [](const Record& a, const Record& b) { return a.error() < b.error(); });
  std::string out = "## Summary\n\n" + head({"what", "how many"});
  out += row({"checks", std::to_string(checks.size())});
  out += row({"numbers compared", std::to_string(all.size())});
  out += row({"of these within 0.1 %", count([](const Record& r) { return r.error() <= 0.1 * one_percent; })});
  out += row({"of these within 1 %", count([](const Record& r) { return r.error() <= one_percent; })});
  out += row({"mesh studies", count([](const Record& r) { return r.is_study(); })});
  out += row({"of these with an observed order, where theory says 2", count(seconds)});
  out += row({"of those at 1.8 or better",
              count([&](const Record& r) { return seconds(r) && r.order >= least_second_order; })});
  out += "\n" + head({"worst deviation", "quantity", "error"});
  out += row({plain(worst.check), plain(worst.quantity), percent(worst.error())});
  out += "\n### Off by more than 1 %\n\n";
  if (outside.empty()) {
    out += "None.\n";
  } else {
    out += head({"check", "quantity", "error", "cause"});
    for (const Record& r : outside) out += row({plain(r.check), plain(r.quantity), percent(r.error()), cause(r)});
  }
  out += "\n### Order below 1.8, or none observed, where theory says 2\n\n";
  if (slow.empty()) {
    out += "None.\n";
  } else {
    out += head({"check", "quantity", "order", "cause"});
    for (const Record& r : slow) out += row({plain(r.check), plain(r.quantity), order_words(r), cause(r)});
  }
  return out + "\n";
}

// A check's name and source stand in its first row only.
std::string main_table(const Records& chapter) {
  std::string out = head({"check", "quantity", "source", "published", "ours", "error", "order", "bar"});
  for (std::size_t i = 0; i < chapter.size(); ++i) {
    const Record& r = chapter[i];
    const bool first = i == 0 || chapter[i - 1].check != r.check;
    out += row({first ? "**" + plain(r.check) + "**" : "", plain(r.quantity),
                first || chapter[i - 1].source != r.source ? plain(r.source) : "", number(r.published), number(r.ours),
                percent(r.error()), order_words(r), bar(r.tolerance)});
  }
  return out + "\n";
}

// One line for each cause, with the quantities that it is the cause of unless it is that of all.
std::string notes_of(const Records& check) {
  constexpr std::size_t most_named = 4;
  std::string out;
  std::set<std::string> done;
  for (const Record& r : check) {
    if (r.note.empty() || !done.insert(r.note).second) continue;
    const Records same = those(check, [&](const Record& other) { return other.note == r.note; });
    std::string quantities;
    for (std::size_t i = 0; i < std::min(same.size(), most_named); ++i)
      quantities += (i > 0 ? "; " : "") + plain(same[i].quantity);
    if (same.size() > most_named) quantities += " and " + std::to_string(same.size() - most_named) + " more";
    out += "- **" + plain(check.front().check) + "**" + (same.size() < check.size() ? " (" + quantities + ")" : "") +
           ": " + plain(r.note) + (r.note.back() == '.' ? "\n" : ".\n");
  }
  return out;
}

std::string notes(const Records& chapter) {
  std::string out;
  for (std::size_t i = 0; i < chapter.size();) {
    std::size_t to = i;
    while (to < chapter.size() && chapter[to].check == chapter[i].check) ++to;
    out += notes_of(
        Records(chapter.begin() + static_cast<std::ptrdiff_t>(i), chapter.begin() + static_cast<std::ptrdiff_t>(to)));
    i = to;
  }
  return out.empty() ? out : "What the deviations come from, and what the checks leave out:\n\n" + out + "\n";
}

std::string study_table(const Records& studies) {
  std::string out = head({"quantity", "sizes of the elements", "values", "error bar of the finest"});
  for (const Record& r : studies) {
    std::string sizes, values;
    for (const Level& l : r.levels) {
      sizes += (sizes.empty() ? "" : ", ") + number(l.size);
      values += (values.empty() ? "" : ", ") + number(l.value);
    }
    out += row({plain(r.quantity), sizes, values, "± " + decimals(100 * r.plus_minus / r.measure(), 3) + " %"});
  }
  return out + "\n";
}

std::string studies_of(const Records& chapter, Pages& pages) {
  std::string out;
  const Records studies = those(chapter, [](const Record& r) { return r.is_study(); });
  for (std::size_t i = 0; i < studies.size();) {
    std::size_t to = i;
    while (to < studies.size() && studies[to].check == studies[i].check) ++to;
    const Records one(studies.begin() + static_cast<std::ptrdiff_t>(i),
                      studies.begin() + static_cast<std::ptrdiff_t>(to));
    const std::string name = "verification/" + file_name(one.front().chapter + " " + one.front().check) + ".svg";
    out += "### " + plain(one.front().check) + ": meshes\n\n";
    // A figure of flat lines along the lower edge would show nothing.
    if (std::any_of(one.begin(), one.end(), [](const Record& r) { return r.approach != "unchanging"; })) {
      pages[name] = convergence_plot(one);
      out += "![Distance from the published number against size of the elements](" + name + ")\n\n";
    }
    out += study_table(one);
    i = to;
  }
  return out;
}

}  // namespace

Pages make_pages(const Records& records, const std::string& windows) {
  Pages pages;
  std::string text = introduction + summary(records);
  for (std::size_t i = 0; i < records.size();) {
    std::size_t to = i;
    while (to < records.size() && records[to].chapter == records[i].chapter) ++to;
    const Records chapter(records.begin() + static_cast<std::ptrdiff_t>(i),
                          records.begin() + static_cast<std::ptrdiff_t>(to));
    text += "## " + plain(chapter.front().chapter) + "\n\n" + main_table(chapter) + notes(chapter) +
            studies_of(chapter, pages);
    i = to;
  }
  if (!windows.empty()) text += "## Going on by reading\n\n" + windows;
  while (text.ends_with("\n\n")) text.pop_back();
  pages["verification.md"] = text;
  return pages;
}

}  // namespace evenpull::book
