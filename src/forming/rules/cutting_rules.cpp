// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "rules/rule_tables.h"

namespace tinwright::forming {

namespace {

constexpr std::array kCuttingRules{
    Rule{"cut.by-hand", "Cut by hand",
         "The shop shears its blanks and drills its holes: windows and slots are opened by hand between drilled holes.",
         "every cut-out that is not round, when the shop's process is shear-and-drill", "common practice",
         "Drill the corners, saw or nibble between them, file to the line."},
    Rule{"cut.corner", "An inside corner is drawn sharp",
         "A jet or beam is round: an inside corner comes out with about the radius of the process, and a crack or a "
         "part that must fit in finds it.",
         "inside corners of the cut path that turn by more than 40°, when the process leaves a radius (shop file "
         "\"inside_radius\")",
         "Plasma 1 mm: published guidance of a cutting service; laser 0.3 mm: from memory",
         "Draw a radius or a drilled relief, or file the corner."},
    Rule{"cut.hole", "A hole too small to be cut well",
         "In a small hole the arc starts, turns and stops in one place: the hole comes out as a cone or an egg, and "
         "its edge is hard. "
         "It is drilled instead, and its centre is marked on the layer DRILL.",
         "diameter < max(times_thickness x t, at_least) of the shop file's \"smallest_hole\"",
         "Plasma 1.5 t: published guidance of a cutting service; nothing under 3 mm, and 1 t for laser: from memory",
         "Make it larger to have it cut, or drill it after folding."},
    Rule{"cut.narrow", "A slot or gap too narrow to be cut well",
         "The two sides of the cut run into one another. A slot with round or square ends is drilled at both ends and "
         "opened by hand; "
         "a gap narrower than the kerf comes out as wide as the kerf.",
         "no place of the shape as wide as the smallest hole; gaps of the outline narrower than the kerf",
         "as cut.hole; kerf: geometry", "Make it wider, or saw it."},
    Rule{"cut.web", "Too little sheet between two cuts",
         "Heat has nowhere to go: a thin web warps, burns through or falls out with the slug.",
         "least distance of two cuts < max(times_thickness x t, at_least) of the shop file's \"least_web\"",
         "Plasma, spacing of holes 1.5 t: published guidance of a cutting service; pierced holes 1 t: a stamping "
         "design guide; laser 1 t: from memory",
         "Move the cuts apart, or drill one of them later."},
};

}  // namespace

std::span<const Rule> cuttingRules() { return kCuttingRules; }

}  // namespace tinwright::forming
