#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iomanip>

namespace evenpull::book {
namespace {

const char* word(Approach a) {
  switch (a) {
    case Approach::settling: return "settling";
    case Approach::wavering: return "wavering";
    case Approach::unchanging: return "unchanging";
    case Approach::assumed: return "assumed";
  }
  return "";
}

// One entry = one block of "key<tab>value" lines, ended by an empty line. Read back by tests/book/record.cpp.
void write(const Entry& e, const MeshStudy& study, const char* file) {
  std::ofstream out(file, std::ios::app);
  out << std::setprecision(17);
  out << "chapter\t" << e.chapter << "\ncheck\t" << e.check << "\nquantity\t" << e.quantity << "\nsource\t" << e.source
      << "\npublished\t" << e.published << "\nours\t" << e.ours << "\ntolerance\t" << e.tolerance << "\nscale\t"
      << e.scale << "\n";
  for (const MeshLevel& l : e.levels) out << "level\t" << l.size << "\t" << l.value << "\n";
  if (!e.levels.empty())
    out << "approach\t" << word(study.approach) << "\ntheory\t" << e.theory << "\nleast_order\t" << e.least_order
        << "\norder\t" << study.order << "\nplus_minus\t" << study.plus_minus << "\n";
  if (!e.note.empty()) out << "note\t" << e.note << "\n";
  out << "\n";
}

}  // namespace

MeshStudy enter(Entry e) {
  MeshStudy study;
  INFO(e.check << ": " << e.quantity);
  if (e.levels.size() >= 3) {
    REQUIRE(e.theory > 0);
    study = study_meshes(e.levels, e.theory);
    e.ours = study.value;
    for (const MeshLevel& l : e.levels) UNSCOPED_INFO("size " << l.size << ": " << std::setprecision(10) << l.value);
    if (e.least_order > 0) {
      CHECK(study.approach == Approach::settling);
      CHECK(study.order >= e.least_order);
    }
  }
  const double scale = e.scale > 0 ? e.scale : std::abs(e.published);
  REQUIRE(scale > 0);
  CHECK(std::isfinite(e.ours));
  CHECK(e.ours == Approx(e.published).margin(e.tolerance * scale).epsilon(0));
  if (const char* file = std::getenv("EVENPULL_BOOK_RECORDS")) write(e, study, file);
  return study;
}

void Chapter::number(const std::string& check, const std::string& quantity, const std::string& source, double published,
                     double ours, double tolerance, const std::string& note) const {
  enter({.chapter = name,
         .check = check,
         .quantity = quantity,
         .source = source,
         .published = published,
         .ours = ours,
         .tolerance = tolerance,
         .note = note});
}

void Chapter::study(const std::string& check, const std::string& quantity, const std::string& source, double published,
                    double tolerance, const std::vector<MeshLevel>& levels, const Order& order,
                    const std::string& note) const {
  enter({.chapter = name,
         .check = check,
         .quantity = quantity,
         .source = source,
         .published = published,
         .tolerance = tolerance,
         .levels = levels,
         .theory = order.theory,
         .least_order = order.least,
         .note = note});
}

}  // namespace evenpull::book
