// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "rules/rule_tables.h"

namespace tinwright::forming {

namespace {

constexpr std::array kPressRules{
    Rule{
        "angle.vee", "The V does not suit the angle",
        "In an air bend the flanks of the V stop the sheet: what is set must be less than they leave. Bottomed, the "
        "sheet takes the angle of the V and springs back from it, so that the V must be as sharp as what would be set.",
        "air: warned when wanted angle + overbend > 180° - V's angle, a fault when the wanted angle alone is. "
        "Bottoming: |V's angle - (180° - wanted angle - overbend)| > 2°; a fault when the wanted angle is more than "
        "the V allows",
        "geometry; overbend from the shop file; 2°: common practice",
        "A V with another angle between its flanks; an air bend."},
    Rule{"bend.vee", "Two bends are too near to one another for V and die",
         "When the second is made, the sheet between the two must lie on the shoulder of the V, and in a Z the first "
         "flange hangs down beside the die. The better of both orders is told.",
         "flat between the bends >= that of flange.vee; Z: from the bend line to the hanging flange, A / 2 + flat + r, "
         ">= what the slimmest die reaches out from its V down to the flange's end, plus the shop's clearance. Plans "
         "take it where the flange, and the arc that joins it, just pass the die: both are told",
         "geometry. The planner simulates the fold and has the last word",
         "More flat between them, a narrower V, a slimmer die, or tools that make both bends in one stroke."},
    Rule{
        "flange.vee", "A flange is too short for the V",
        "Both sides of the sheet must bear on the shoulders of the V to the end of the stroke. A short flange slips "
        "in: the bend is crooked, and the piece may fly.",
        "least flange, outside = 0.7 V up to 90°; past it the foot on the shoulder moves out as cos 45° / cos(angle / "
        "2), less (r + t) tan(angle / 2) for flat sheet from the end of the bend on; and never less flat than plans "
        "take, which is told beside it: to where the shoulders bear over the whole stroke, at its end (c - (t + r + s) "
        "sin h) / cos h, and 0.3 mm (h half the set angle, s the shoulder, c = V / 2 + s tan((90° - V's angle / 2) / "
        "2))",
        "Published air-bend chart (0.667 to 0.75 V over 21 openings); an inch chart: longer for sharper angles; how "
        "much: geometry, since (V / 2) / cos 45° is 0.707 V",
        "A narrower V, or make it longer and trim it after folding."},
    Rule{"force.length", "The bend is longer than the press brake",
         "Ram and bed press only over their own length; the sheet past their ends is not bent.",
         "from the first to the last of the bend's sheet > length of ram and bed", "geometry", "A longer press."},
    Rule{"force.press", "The stroke asks more than the press has",
         "A press that is overloaded stops before the angle is reached, bends ram and bed, or breaks its tools. It is "
         "asked for once for each bend, and for all bends of a stroke together.",
         "F = 1.48 Rm b t^2 / V, Rm upper limit, V the opening; bottoming: times the press's factor. An overload over "
         "the greatest force of the press, a warning over 80 % of it. Loads off the middle are not looked at",
         "Published air-bend chart of mild steel (1.48 fitted to 84 of its 89 cells); form of the formula: Groover eq. "
         "20.9. Factor of bottoming: common practice, three to five times the air bend",
         "A wider V, an air bend instead of bottoming, a thinner sheet, one bend at a time, another press. The "
         "machine's manual comes first."},
    Rule{"force.stroke", "Force of the heaviest bend",
         "What the press must do at this bend. The force goes with the strength, the length and the square of the "
         "thickness, and falls with the opening of the V.",
         "as force.press", "as force.press", "Choose V and tools by it."},
    Rule{"force.tool", "A metre of punch or die is asked more than it may take",
         "An overloaded punch bends or chips, a die cracks at the bottom of its V; pieces fly.",
         "force of a metre of the bend (force.press), over the share of the bend that stands under punches, against "
         "max_kn_per_m of the strongest punch and die there are, and of every one that stands. An overload over "
         "it, a warning over 80 %",
         "as force.press; what a tool may take: the shop file, from its maker",
         "A wider V, stronger tools, an air bend instead of bottoming."},
    Rule{"hold.hands", "Hands come near to the tools",
         "Who holds a small part by hand has fingers beside a punch that comes down.",
         "flat sheet from the bend line out in front < 101.6 mm (4 in)",
         "OSHA directive CPL 02-01-025 on press-brake safeguarding, its 4 in from memory. The machine's manual and "
         "local rules come first",
         "The larger side in front, tongs or a magnet handle, a larger blank that is trimmed. Guards and two-hand "
         "controls stay in use."},
    Rule{"hold.rise", "The front of the sheet whips up",
         "In an air bend both sides turn up by half the angle. A long front edge comes up fast, and a large sheet that "
         "nobody carries bows and is bent wrong.",
         "flat sheet in front x sin(set angle / 2) >= 200 mm",
         "geometry; 200 mm: common practice, no published figure was found",
         "Carry it up with the bend or use a sheet follower; stand clear of its edge."},
    Rule{"hole.vee", "A cut-out lies over the V",
         "What lies inside the shoulders of the V hangs free while it is bent: a round hole comes out oval, an edge "
         "bulges; where a window takes the sheet from the shoulder, the bend stays behind.",
         "distance of its edge from the bend line: round hole >= V / 2 - 1 mm, anything else >= V / 2 + 1 mm",
         "trade guidance; that sheet within V / 2 of the line is not borne: geometry",
         "Move it away, use a narrower V, or cut it after folding."},
    Rule{"punch.sharp", "The punch may crease the sheet",
         "A tip that is sharp for the thickness presses into the inside of the bend instead of letting it take the "
         "radius of the V, and the outside is strained more.",
         "tip radius of the roundest punch that may be used < 0.63 t", "common practice", "A rounder punch."},
    Rule{"radius.vee", "The V or tip makes a bend that is too sharp for this metal",
         "The radius as drawn would do, but the bend does not get it.",
         "radius in the V against the least radius (radius.small)", "as radius.small and radius.drawn",
         "A wider V or a rounder punch; draw the part with the radius that it gives."},
    Rule{"vee.opening", "The V is far from what is usual for the thickness",
         "A narrow V marks the sheet, asks much force and strains the bend; in a wide one the bend is round, springs "
         "back more, and a small error of the stroke makes a large one of the angle.",
         "usual: 6 t up to 2.6 mm, 8 t up to 8 mm, 10 t up to 10 mm, 12 t over it; told under 0.8 and over 2.1 times "
         "that, warned under 5 t and over 20 t",
         "Published air-bend chart (bands, and how far it goes); 5 <= V / t <= 20: Oehler, in Lange's handbook of "
         "metal forming",
         "A V nearer to the usual one."},
};

}  // namespace

std::span<const Rule> pressRules() { return kPressRules; }

}  // namespace tinwright::forming
