#include "solver/statement/solid_section.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr double pi = 3.14159265358979323846;

// Poisson's ratio in the shear area of a tube: 0.3 stands for all metals (0.28 to 0.34 change it by a half per cent).
constexpr double nu = 0.3;
constexpr double rectangle = 5.0 / 6;
// Triangle, by energy: shear towards the point is that of a rectangle, shear along the front 30/31 (derived in
// tests/published/test_section.cpp).
constexpr double to_the_point = 5.0 / 6, along_the_front = 30.0 / 31;

// Ratio of front to width from which a triangle is no longer elongated.
constexpr double stout = 2.0 / 3;

}  // namespace

Section tube_section(double outside, double wall) {
  const double inside = std::max(0.0, outside - 2 * wall);
  Section s;
  s.area = pi / 4 * (outside * outside - inside * inside);
  s.inertia_up = s.inertia_flat = pi / 64 * (std::pow(outside, 4) - std::pow(inside, 4));
  s.torsion = 2 * s.inertia_up;
  s.reach_up = s.reach_flat = s.reach_twist = outside / 2;
  s.round = true;
  const double m = inside / outside, sum = (1 + m * m) * (1 + m * m);
  s.shear_up = s.shear_flat = s.area * 6 * (1 + nu) * sum / ((7 + 6 * nu) * sum + (20 + 12 * nu) * m * m);
  return s;
}

// Longer side 2a, shorter 2b.
Section bar_section(double width, double height) {
  Section s;
  s.area = width * height;
  s.inertia_up = width * height * height * height / 12;
  s.inertia_flat = height * width * width * width / 12;
  s.reach_up = height / 2;
  s.reach_flat = width / 2;
  const double a = std::max(width, height) / 2, b = std::min(width, height) / 2;
  const double r = b / a;
  s.torsion = a * b * b * b * (16.0 / 3 - 3.36 * r * (1 - r * r * r * r / 12));
  const double modulus =
      8 * a * b * b / (3 * (1 + 0.6095 * r + 0.8865 * r * r - 1.8023 * r * r * r + 0.91 * r * r * r * r));
  s.reach_twist = s.torsion / modulus;
  s.shear_up = s.shear_flat = rectangle * s.area;
  return s;
}

Section triangle_section(double width, double height) {
  Section s;
  const double w = width, h = height;
  s.area = w * h / 2;
  s.inertia_up = w * h * h * h / 48;
  s.inertia_flat = h * w * w * w / 36;
  s.reach_up = h / 2;
  s.reach_flat = 2 * w / 3;
  // The trapezoid formula thins out along `width` and is for h/w up to 2/3; a triangle higher than it is deep at the
  // front is elongated the other way, where the isosceles formula errs to the soft side.
  if (const double taper = h / w; taper < stout) {
    const double end = 0.10504 + taper * (-0.10 + taper * (0.0848 + taper * (-0.06746 + taper * 0.0515)));
    s.torsion = w * h * h * h / 12 - end * h * h * h * h;
  } else {
    s.torsion = h * h * h * w * w * w / (15 * h * h + 20 * w * w);
  }
  // Roark's estimate of the greatest stress of a solid section at a flat side, from the largest circle that fits in.
  const double side = std::hypot(w, h / 2), circle = 4 * s.area / (h + 2 * side);
  const double k = pi * pi * std::pow(circle, 4) / (16 * s.area * s.area);
  s.reach_twist = circle / (1 + k) * (1 + 0.15 * k);
  s.shear_up = along_the_front * s.area;
  s.shear_flat = to_the_point * s.area;
  return s;
}

}  // namespace evenpull::inline solver
