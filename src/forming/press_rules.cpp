// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "rule_tables.h"

namespace tinwright::forming {

namespace {

constexpr std::array kRules{
    Rule{"force.length", "The bend is longer than the press brake",
         "Ram and bed press only over their own length; the sheet past their ends is not bent.",
         "from the first to the last of the bend's sheet > length of ram and bed", "geometry", "A longer press."},
    Rule{"force.press", "The stroke asks more than the press has",
         "A press that is overloaded stops before the angle is reached, bends ram and bed, or breaks its tools. It is asked for once for each bend, and for all bends of a stroke together.",
         "F = 1.48 Rm b t^2 / V, Rm upper limit, V the opening; bottoming: times the press's factor. A fault over the greatest force of the press, a warning over 80 % of it. Loads off the middle are "
         "not looked at",
         "Published air-bend chart of mild steel (1.48 fitted to 84 of its 89 cells); form of the formula: Groover eq. 20.9. Factor of bottoming: common practice, three to five times the air bend",
         "A wider V, an air bend instead of bottoming, a thinner sheet, one bend at a time, another press. The machine's manual comes first."},
    Rule{"force.stroke", "Force of the heaviest bend",
         "What the press must do at this bend. The force goes with the strength, the length and the square of the thickness, and falls with the opening of the V.",
         "as force.press", "as force.press", "None needed."},
    Rule{"force.tool", "A metre of punch or die is asked more than it may take",
         "An overloaded punch bends or chips, a die cracks at the bottom of its V; pieces fly.",
         "force of a metre of the bend (force.press), over the share of the bend that stands under punches, against max_kn_per_m of the strongest punch and die there are, and of every one that stands. A "
         "fault over it, a warning over 80 %",
         "as force.press; what a tool may take: the shop file, from its maker",
         "A wider V, stronger tools, an air bend instead of bottoming."},
};

}  // namespace

std::span<const Rule> pressRules() { return kRules; }

}  // namespace tinwright::forming
