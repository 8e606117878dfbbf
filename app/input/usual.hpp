// What is usual of covered surfaces, beyond which a case is doubted. All of it is judgement: set where a slip of the
// decimal point, of the unit or of the sign is caught and a panel that somebody would build is left alone.
#pragma once

namespace evenpull::usual {

// Panel and cloth.
constexpr double widest_bay = 0.5;              // m
constexpr double thickest = 0.25;               // of the chord
constexpr double thinnest = 0.01;               // of the chord
constexpr double hollow = 0.3;                  // of the depth on a line between the stations beside
constexpr double deepest_pocket = 0.5;          // of the chord
constexpr double loosest = 0.03;                // looseness
constexpr double full_dose_is_at_least = 0.85;  // what a stated dwell gives is never quite 1

// Depth of a member as a multiple of the panel's depth at its place. One that does not taper in a panel that does is
// doubted where it fits nowhere along the span; if it is far off at one end, that is told.
constexpr double spar_stands_out = 1.1, spar_touches = 0.97, spar_leaves_a_gap = 0.9;
constexpr double edge_stands_out = 1.25, edge_leaves_a_gap = 0.8;
constexpr double far_off_at_one_end = 1.5;
// A rib of one depth in a panel that thins out is compared with the panel's mean depth along it.
constexpr double rib_stands_out = 1.5, rib_leaves_a_gap = 0.5, low_rib_is_low = 0.95;

// Walls and sections.
constexpr double thickest_wall = 0.3;        // of a tube's diameter
constexpr double thinnest_wall = 1.0 / 150;  // of a tube's diameter
constexpr double thickest_sheet = 0.0032;    // m: 1/8 in
constexpr double walls_apart = 6;            // thickest wall of a kind over the thinnest
constexpr double widest_bend = 8;            // inside radius over the sheet's thickness
constexpr double widest_lip = 0.8;           // over the flange
constexpr double thickest_cap = 1.5;         // over its width
constexpr double weak_end_rib = 0.7;  // bending strength in the plane of the panel, over that of the weakest inner rib
constexpr double weak_spar = 0.25;    // stiffness of a tube along the span over that of the stiffest tube rib
constexpr double stiff_trailing_edge = 4;  // over the stiffest member ahead of it

// Materials.
constexpr double softest_metal = 40e9;                              // Pa: magnesium has 45 GPa (from memory)
constexpr double least_shear_share = 0.3, most_shear_share = 0.45;  // G/E of metals, 0.38 or so

}  // namespace evenpull::usual
