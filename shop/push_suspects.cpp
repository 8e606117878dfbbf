#include "shop/push_suspects.hpp"

#include "solver/statement/errors.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>

namespace evenpull {
namespace {

constexpr double inch = 0.0254, mm = 1e-3;

// What tube, sheet and stick are sold in. Common practice, no source.
constexpr std::array tube_walls{0.028 * inch, 0.035 * inch, 0.049 * inch, 0.058 * inch, 0.065 * inch, 0.083 * inch,
                                0.095 * inch, 0.120 * inch, 0.8 * mm,     0.9 * mm,     1.0 * mm,     1.2 * mm,
                                1.5 * mm,     2.0 * mm,     2.5 * mm,     3.0 * mm};
constexpr std::array tube_diameters{0.25 * inch, 0.3125 * inch, 0.375 * inch, 0.4375 * inch, 0.5 * inch,  0.625 * inch,
                                    0.75 * inch, 0.875 * inch,  1.0 * inch,   1.125 * inch,  1.25 * inch, 1.375 * inch,
                                    1.5 * inch,  1.75 * inch,   2.0 * inch,   6.0 * mm,      8.0 * mm,    10.0 * mm,
                                    12.0 * mm,   14.0 * mm,     15.0 * mm,    16.0 * mm,     18.0 * mm,   20.0 * mm,
                                    22.0 * mm,   25.0 * mm,     28.0 * mm,    30.0 * mm,     35.0 * mm,   40.0 * mm};
constexpr std::array sheets{0.016 * inch, 0.020 * inch, 0.025 * inch, 0.032 * inch, 0.040 * inch, 0.050 * inch,
                            0.063 * inch, 0.080 * inch, 0.4 * mm,     0.5 * mm,     0.6 * mm,     0.8 * mm,
                            1.0 * mm,     1.2 * mm,     1.5 * mm,     2.0 * mm};
constexpr double stick_step = inch / 16;  // wood is cut to sixteenths
constexpr int steps_each_way = 3;
constexpr double same_size = 0.02;  // of the stated size: nearer ones are the same
constexpr double first_give = 1e-6, last_give = 1e-3, give_grows = 3,
                 finest_give = 1.05;  // m/N: 0.01 to 10 mm under 10 N
constexpr double nudge = 1.1;         // of a member, to see what answers

using Apply = std::function<void(Case&, const std::function<void(MemberMake&)>&)>;

struct Owner {
  SectionOwner who;
  SectionShape shape;
  Apply apply;
};

bool alike(const MemberMake& a, const MemberMake& b) {
  const SectionShape &x = a.shape, &y = b.shape;
  return a.material == b.material && x.kind == y.kind && x.outside_diameter == y.outside_diameter && x.wall == y.wall &&
         x.width == y.width && x.height == y.height && x.flange == y.flange && x.web == y.web;
}

std::vector<Owner> owners_of(const Case& c) {
  std::vector<Owner> out;
  for (std::size_t i = 0; i < c.span_members.size(); ++i)
    out.push_back({{SectionOwner::What::span_member, static_cast<int>(i), {}},
                   c.span_members[i].make.shape,
                   [i](Case& to, const auto& change) { change(to.span_members[i].make); }});
  const std::size_t ribs = c.ribs.size() - (c.tip_bow ? 1 : 0);
  std::vector<char> seen(ribs, 0);
  for (std::size_t r = 0; r < ribs; ++r) {
    if (seen[r]) continue;
    SectionOwner who{SectionOwner::What::ribs, 0, {}};
    for (std::size_t s = r; s < ribs; ++s)
      if (alike(c.ribs[r].make, c.ribs[s].make)) seen[s] = 1, who.ribs.push_back(static_cast<int>(s));
    out.push_back({who, c.ribs[r].make.shape, [who](Case& to, const auto& change) {
                     for (int s : who.ribs) change(to.ribs[static_cast<std::size_t>(s)].make);
                   }});
  }
  if (c.tip_bow)
    out.push_back({{SectionOwner::What::tip_bow, 0, {}}, c.tip_bow->shape, [](Case& to, const auto& change) {
                     change(*to.tip_bow);
                   }});
  for (std::size_t b = 0; b < c.braces.size(); ++b)
    if (!c.braces[b].wire)
      out.push_back({{SectionOwner::What::brace, static_cast<int>(b), {}},
                     c.braces[b].make.shape,
                     [b](Case& to, const auto& change) { change(to.braces[b].make); }});
  return out;
}

double& size_in(SectionShape& s, PushSuspect::Size which) {
  switch (which) {
    case PushSuspect::Size::diameter: return s.outside_diameter;
    case PushSuspect::Size::wall: return s.wall;
    case PushSuspect::Size::width: return s.width;
    case PushSuspect::Size::height: break;
  }
  return s.height;
}

// Sizes for sale next to the stated one, so many each way.
template <class List>
std::vector<double> near(const List& list, double stated) {
  std::vector<double> sorted(list.begin(), list.end()), out;
  std::sort(sorted.begin(), sorted.end(),
            [&](double a, double b) { return std::abs(a - stated) < std::abs(b - stated); });
  int below = 0, above = 0;
  for (double v : sorted) {
    if (std::abs(v - stated) < same_size * stated) continue;
    int& side = v < stated ? below : above;
    if (side++ < 2 * steps_each_way) out.push_back(v);  // inches and millimetres both
  }
  return out;
}

std::vector<double> cut_near(double stated) {
  std::vector<double> out;
  for (int k = -steps_each_way; k <= steps_each_way; ++k)
    if (k != 0 && stated + k * stick_step > stick_step) out.push_back(stated + k * stick_step);
  return out;
}

std::vector<std::pair<PushSuspect::Size, std::vector<double>>> other_sizes(const SectionShape& s) {
  using Size = PushSuspect::Size;
  using Kind = SectionShape::Kind;
  switch (s.kind) {
    case Kind::tube:
      return {{Size::wall, near(tube_walls, s.wall)}, {Size::diameter, near(tube_diameters, s.outside_diameter)}};
    case Kind::bar:
    case Kind::triangle:
    case Kind::i_section:
    case Kind::capstrip_rib:
    case Kind::truss_rib: {
      std::vector<std::pair<Size, std::vector<double>>> out{{Size::width, cut_near(s.width)}};
      if (s.height > 0) out.push_back({Size::height, cut_near(s.height)});
      return out;
    }
    case Kind::sheet_rib:
    case Kind::folded_edge:
    case Kind::closed_nose:
    case Kind::channel:
    case Kind::angle:
    case Kind::hat: return {{Size::wall, near(sheets, s.wall)}};
    case Kind::properties: break;
  }
  return {};
}

bool can_be(const SectionShape& s) {
  return s.kind != SectionShape::Kind::tube || (2 * s.wall < s.outside_diameter && s.wall > 0);
}

// What is tried and the fit with it: movements of the changed frame over those of the stated one, at the best fit and
// once more at the fit that comes of it; between, the ratio hardly hangs on the factors.
class Trial {
 public:
  Trial(const Case& c, const PushFrame& frame, const std::vector<FramePlace>& places,
        const std::vector<PushFactor>& factors, const PushSurface& surface, const std::vector<PushTest>& tests,
        const PushErrors& errors)
      : c_(c), frame_(frame), places_(places), factors_(factors), surface_(surface), tests_(tests), errors_(errors) {}

  double misfit(const Case& changed, const Eigen::VectorXd& start) const {
    try {
      PushFrame other(changed, frame_.held(), trial_nodes);
      other.set_places(places_);
      PushFit fit{start, 0};
      for (int round = 0; round < 2; ++round) {
        const Eigen::VectorXd now = push_movements(other, changed, factors_, tests_, fit.at);
        const Eigen::VectorXd was = push_movements(frame_, c_, factors_, tests_, fit.at);
        fit = best_push_fit(surface_, now.cwiseQuotient(was), tests_, errors_);
      }
      return fit.misfit;
    } catch (const CaseError&) {  // no such frame: not the explanation
      return std::numeric_limits<double>::infinity();
    }
  }

 private:
  static constexpr int trial_nodes = search_nodes;
  const Case& c_;
  const PushFrame& frame_;
  const std::vector<FramePlace>& places_;
  const std::vector<PushFactor>& factors_;
  const PushSurface& surface_;
  const std::vector<PushTest>& tests_;
  const PushErrors& errors_;
};

// Of each size of an owner the value that explains best: its neighbours explain nearly as well and say the same.
void add_sizes(const Case& c, const Trial& trial, const PushAnswer& answer, std::vector<PushSuspect>& out) {
  for (const Owner& owner : owners_of(c))
    for (const auto& [size, values] : other_sizes(owner.shape)) {
      PushSuspect best;
      best.misfit = std::numeric_limits<double>::infinity();
      for (const double value : values) {
        Case changed = c;
        bool fits = true;
        owner.apply(changed, [&, which = size](MemberMake& m) {
          size_in(m.shape, which) = value;
          fits = fits && can_be(m.shape);
        });
        if (!fits) continue;
        const double misfit = trial.misfit(changed, answer.best);
        SectionShape stated = owner.shape;
        if (misfit < best.misfit) best = {false, owner.who, size, size_in(stated, size), value, 0, 0, misfit};
      }
      out.push_back(best);
    }
}

void add_supports(const Case& c, const PushFrame& frame, const Trial& trial, const PushAnswer& answer,
                  std::vector<PushSuspect>& out) {
  const bool ironed = frame.held() == Held::while_ironed;
  const std::size_t supports = (ironed ? c.while_ironed : c.in_use).size();
  for (std::size_t s = 0; s < supports; ++s) {
    if ((ironed ? c.while_ironed : c.in_use)[s].give > 0) continue;  // a factor already
    PushSuspect best;
    best.misfit = std::numeric_limits<double>::infinity();
    // Only the frame is changed: what gives here is no factor of the fit.
    const auto try_give = [&](double give) {
      Case changed = c;
      (ironed ? changed.while_ironed : changed.in_use)[s].give = give;
      const double misfit = trial.misfit(changed, answer.best);
      if (misfit < best.misfit) best = {true, {}, {}, 0, 0, static_cast<int>(s), give, misfit};
    };
    for (double give = first_give; give < last_give; give *= give_grows) try_give(give);
    for (double step = std::sqrt(give_grows); step > finest_give && std::isfinite(best.misfit);
         step = std::sqrt(step)) {
      const double middle = best.give;
      try_give(middle * step), try_give(middle / step);
    }
    out.push_back(best);
  }
}

}  // namespace

std::vector<PushSuspect> push_suspects(const Case& c, const PushFrame& frame, const std::vector<FramePlace>& places,
                                       const std::vector<PushFactor>& factors, const PushSurface& surface,
                                       const std::vector<PushTest>& tests, const PushErrors& errors,
                                       const PushAnswer& answer, std::size_t most) {
  const Trial trial(c, frame, places, factors, surface, tests, errors);
  std::vector<PushSuspect> out;
  add_sizes(c, trial, answer, out);
  add_supports(c, frame, trial, answer, out);
  out.erase(std::remove_if(out.begin(), out.end(), [&](const PushSuspect& s) { return !(s.misfit <= answer.allowed); }),
            out.end());
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.misfit < b.misfit; });
  if (out.size() > most) out.resize(most);
  return out;
}

int most_telling_member(const Case& c, const PushFrame& frame, const std::vector<PushFactor>& factors,
                        const std::vector<PushTest>& tests, const PushErrors& errors) {
  std::vector<PushLoad> loads;
  for (const PushTest& t : tests) loads.push_back(t.load);
  const Case usual = joints_drawn(c, factors, Eigen::VectorXd::Zero(static_cast<Eigen::Index>(factors.size())));
  const Eigen::VectorXd off = push_sigmas(tests, errors);
  const auto movements = [&](const FrameChange& change) {
    const auto pushed = frame.push(usual, change, loads);
    Eigen::VectorXd out(off.size());
    Eigen::Index i = 0;
    for (std::size_t t = 0; t < tests.size(); ++t)
      for (const PushReading& r : tests[t].readings) out[i++] = pushed[t].down[static_cast<std::size_t>(r.place)];
    return out;
  };
  const Eigen::VectorXd as_stated = movements({});
  int best = 0;
  double most = -1;
  for (int m = 0; m < static_cast<int>(frame.panel().members.size()); ++m) {
    FrameChange change;
    change.one_member = m, change.of_one = nudge;
    const double answers = (movements(change) - as_stated).cwiseQuotient(off).squaredNorm();
    if (answers > most) most = answers, best = m;
  }
  return best;
}

}  // namespace evenpull
