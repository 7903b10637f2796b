// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "rules/rule_tables.h"

namespace tinwright::forming {

namespace {

constexpr std::array kMetalRules{
    Rule{"angle.leaf", "The leaf does not swing so far",
         "The leaf must swing past the wanted angle by the springback. Where it stops first, the bend stays open by "
         "the rest.",
         "set angle = wanted angle + overbend; warned when it is over the brake's greatest leaf angle; a fault when "
         "the wanted angle alone is over it",
         "Overbend and leaf angle from the shop file; overbending on a leaf brake: FAA-H-8083-31 material (set 93° to "
         "get 90°)",
         "Close the bend by hand, use a brake whose leaf goes further, or draw a bend of less."},
    Rule{"angle.overbend", "The shop's default overbend and the table disagree",
         "Plans swing to the wanted angle plus the shop's overbend. This metal has no overbend of its own in the shop "
         "file, and the published springback is another.",
         "|default overbend - (angle / kR - angle)| >= 1.5°, kR by radius over thickness",
         "Springback factors kR of a German tool and trade table book; the heads of its columns from memory",
         "Fold a strip, measure how far it opens, and write the overbend of this material into the shop file; it then "
         "takes precedence."},
    Rule{"angle.springback", "What to swing to",
         "A bend opens when the tool lets go: the more, the thinner, the stronger and the rounder. Two published ways "
         "are shown; they do not agree, since the formula leaves hardening out. With a "
         "lower limit of the yield it tells the least that the metal opens, and stainless opens far more.",
         "formula: Ri/Rf = 4 X^3 - 3 X + 1, X = Ri Y / (E T); set angle = angle (2 Rf/T + 1) / (2 Ri/T + 1). Table: "
         "set angle = angle / kR. Y yield limit, E modulus, T thickness, Ri and Rf "
         "inside radius under load and after it",
         "Gardiner 1957 and Kalpakjian and Schmid eq. 16.10 (from memory, verified by integration); kR: a German tool "
         "and trade table book",
         "The shop's own measured overbend beats both: it is what plans use."},
    Rule{"bend.edge", "A bend runs into an edge that is not square to it",
         "The sheet at the slanted end is pulled along the bend line as it turns: the tip of the leg bulges and its "
         "edge is no longer straight.",
         "lean of the edge over the width of the bend, from square; told over 5°, warned over 20°", "common practice",
         "Let the edge run square over the width of the bend and slant after it, or cut it after folding."},
    Rule{"bend.near-bend", "The step between two opposite bends is too small for the leaf",
         "The second bend of a Z needs room for the leaf in front of the first one. A warning where plans refuse it, a "
         "note where only the rule asks for more.",
         "rule: step, from a face of the sheet to the same face = reach of the shallowest leaf face + t + 1 mm. Plans: "
         "flat between the bends >= greatest over the swing of reach + (r + s) cos a - (t + r - h) sin a - A (1 / a - "
         "1 / S) sin a, less what 0.05 mm of contact leave of the flange's arc (r nose, s setback, h height of the "
         "hinge, A strip, S set angle)",
         "Geometry, the planner's own; the shop's rule for leaf brakes leaves more room on purpose",
         "A larger step, a shallower leaf face, or a press brake with offset tooling."},
    Rule{"flange.short", "A flange is too short for the leaf",
         "The leaf bears on the outer part of a flange. On a short one it slips off or marks the edge, and a short "
         "held side gives little to clamp.",
         "least flange, outside = 4 t + nose radius, and 5 mm",
         "shop rule for leaf brakes, from memory; no published figure was found",
         "Make it longer and trim it after folding."},
    Rule{"force.moment", "Moment and force of the heaviest fold",
         "What the brake must do at this bend. The moment goes with the strength and the square of the thickness, and "
         "with the length.",
         "M = 2/sqrt(3) Rm w t^2 / 4 (plane strain); force at the edge of the leaf's face F = M / reach; share = M per "
         "mm over that of the rated sheet. Rm: upper limit",
         "Plastic moment: strength of materials; leaf folding as moment over lever: derived. Strengths: the materials "
         "file",
         "Near the rating set the nose back 1.5 to 2 thicknesses (from memory)."},
    Rule{"force.rating", "The fold is over the brake's rating",
         "An overloaded brake springs: the bend is round and open in the middle, or bed, hinges and clamp are bent for "
         "good. An overload when each mm asks more than a mm of the rated sheet, "
         "however short the bend (nose, leaf and fingers take it there), or the whole bend more than all of the rated "
         "sheet; a warning when it is longer alone.",
         "Rm t^2 against Rm t^2 of the rated sheet, per mm and times the length; Rm upper limits (DC01 410, S235 510 "
         "MPa)",
         "EN 10130, EN 10025-2 for the strengths; scaling by the plastic moment: strength of materials",
         "Another brake or thinner sheet. The machine's manual comes first."},
    Rule{"force.unknown", "The load on the brake is not checked",
         "Either the shop file gives no rating, or the strength of one of the two sheets is not known. A warning when "
         "the sheet is thicker than any that the brake is rated for.",
         "thickness against the rated ones; on a press brake the force needs the strength alone", "none",
         "See the machine's manual; add ratings to the shop file."},
    Rule{"hem.brake", "The brake closes no hems like this one",
         "A hem is folded as far as the brake goes and then pressed flat: under the clamp of a leaf brake, or in a die "
         "whose jaw closes. What a clamp or a jaw presses flat is for its maker to say.",
         "thickness against the shop file's hem_thickness (a die's jaw: its own); first fold of 120° at least",
         "common practice; the least first fold from memory",
         "Another brake, thinner sheet, or an edge without a hem. The machine's manual comes first."},
    Rule{"hem.return", "The return of a hem is too short",
         "So narrow a strip slips in the first fold, and springs open or buckles when it is pressed flat.",
         "return from the outside of the fold < 4 t, or under 6 mm",
         "common practice (a return of 4 to 6 t, 6 mm at least)", "A longer return."},
    Rule{"hold.gap", "The sheet is not magnetic",
         "On a magnetic folder aluminium and nickel-chromium stainless count as air: the pull on the bars falls.",
         "pull = B^2 A / (2 mu0), and B falls with the gap, here sheet thickness; not computed further, since the "
         "magnet's own data is not known",
         "Magnet manual: attraction factor of aluminium, brass and austenitic stainless 0; magnetostatics for the rest",
         "Try an offcut first; clamp the ends of the bars."},
    Rule{"hold.lifts", "The magnet does not hold the bars down",
         "The leaf turns the bar about its nose. Narrow bars and a short string hold less than the full-length deep "
         "bar that the rating is for; overloaded, they slide back at about 60°.",
         "holding = rated moment x (bar depth / deepest bar of the brake)^2 x covered share of the bend; asked: moment "
         "of the fold on each mm",
         "No published figure: assumed that the bars pull evenly over their underside and that the rating is for the "
         "deepest bar; sliding back from magnetic folder design notes",
         "Deeper or longer bars, a clamp at each end, or two passes."},
    Rule{"hold.pack", "The part is shallower than the bars",
         "With nothing under its back the bar tips: its nose lifts, the part slips out and the bend is in the wrong "
         "place.",
         "depth of flat sheet under the bar < clamp depth of the bar", "common practice",
         "An offcut of the same sheet under the back of the bar."},
    Rule{"hole.in-bend", "A cut-out lies in a bend",
         "The sheet there is stretched on the outside and has no neighbour to hold it: a round hole comes out oval and "
         "may tear, edges of a window flare.",
         "distance from the start of the bend < 0", "common practice",
         "Drill or cut it after folding, or leave tabs across it on the bend line."},
    Rule{"hole.near-bend", "A cut-out is too near to a bend",
         "The sheet beside a bend is drawn along: a hole is pulled oval, an edge bows.",
         "least distance of its edge from the start of the bend: round hole 1.5 t; straight edge 2 t up to 25 mm long, "
         "2.5 t up to 50, 3 t over it (the same with + r from the inside face)",
         "A stamping design guide; other guides say 2 t to 4 t", "Move it away, or make it after folding."},
    Rule{"material.unknown", "The material is not in the materials file",
         "Springback, least radius and force need published numbers of the metal, and none are guessed.", "none",
         "none", "Name a material that the file has, or add one with its source."},
    Rule{"radius.drawn", "Bends get another radius than is drawn",
         "A leaf brake gives the radius of its nose, an air bend takes its radius from the V, whatever is drawn; "
         "bottomed, from the tip. The flat length then is for another radius, and legs come out off. A warning when "
         "the radius is off by more than half a thickness: a square bend then makes a fifth of a thickness.",
         "|drawn - nose| > 0.05 mm (bottoming: the tip's); |drawn - 0.16 V| > 10 % of 0.16 V; a square bend's length "
         "is off by (2 - pi / 2) of that",
         "Published air-bend chart (0.156 to 0.175 V over 21 openings); length: geometry, for an unchanged k-factor",
         "Draw the radius that nose or V give, or use the V that gives the drawn one; tinwright blank --shop develops "
         "for the radius that the brake gives. The shop's own test strips beat the chart."},
    Rule{"radius.nose", "The nose of the bars is too sharp for this metal",
         "On a leaf brake the bend takes the radius of the nose, not the drawn one.",
         "nose radius against the least radius (radius.small)", "as radius.small",
         "A larger nose radius; draw the part with the radius that it gives."},
    Rule{"radius.small", "The bend is too sharp for this metal",
         "The outside of a sharp bend is stretched past what the metal bears and cracks, sooner along the rolling "
         "direction and at rough or burnt edges.",
         "inside radius against the table's value for thickness, strength or alloy, angle and rolling direction. DIN: "
         "along it, or past 120°, the next thicker band; EN 10025-2 has a row for each "
         "direction; aluminium tables are for 90°. Sources disagree and are never merged",
         "Steel: DIN 6935 (1975-10), EN 10025-2; aluminium: Aluminum Design Manual 2005; stainless: Kalpakjian and "
         "Schmid table 16.3. For EN 10130 drawing steel over 0.5 t it is only a note",
         "A larger radius, or the blank turned on the sheet."},
    Rule{"radius.unknown", "No published least radius", "None of the tables has this metal in this thickness.", "none",
         "none", "A trial strip, bent as the part will be."},
    Rule{"relief.missing", "Two bends meet without a relief",
         "Both bends strain the sheet at the corner where they meet. Without a hole there it bulges, and hard sheet "
         "cracks from that point.",
         "the strips of the two bends touch; wanted: a hole of about 2 r, and t; aluminium 3.2 mm up to 1.6 mm sheet "
         "and 4.8 mm over it, at the point where the inside tangent lines cross",
         "FAA-H-8083-31, relief holes; width of t: a design guide. A note for steel, where a notch up to the tangent "
         "lines is usual (common practice)",
         "A relief hole, or a relief in the recipe's corner."},
    Rule{"relief.narrow", "The slit at the end of a bend is too narrow",
         "The sheet beside the bend is drawn in by it, and the slit's end tears.",
         "free width beside the end of the bend < t",
         "a design guide (relief width of t or more, deeper than the bend)",
         "A wider slit, over the whole width of the bend."},
    Rule{"relief.small", "A corner relief is too small",
         "The ends of two bends come nearer to one another than the relief is meant to keep them.",
         "square between the ends of the two strips < t; aluminium 3.2 mm up to 1.6 mm sheet, 4.8 mm over it",
         "as relief.missing", "A larger relief."},
    Rule{"web.bows", "A web yields in part and stays bowed",
         "Beside the window the moment is over what the webs carry without a set. They do not fold, but the leg keeps "
         "a bow there.",
         "moment over first yield = 1.5 M / Mp; set = sum over the window of (1/sqrt(3 - 2 m) - m) 2 sigma / (E t) dy, "
         "m = moment over first yield. Noted over 0.2°, warned over 0.5°",
         "Elastic, perfectly plastic bending: strength of materials",
         "As web.folds; a small bow is pressed back by hand."},
    Rule{"web.folds", "The leg folds at the window instead of at the bend",
         "The leaf pushes on the outer part of the leg, so that the bending moment falls from the bend line to the tip "
         "of the leaf; on a press brake the shoulder of the V does so to both legs. Where a window leaves too little "
         "sheet, the webs reach their "
         "plastic moment before the bend is made. A fault when the webs are weaker than the bend line even if both "
         "were as hard; a warning when only hardening at the bend makes it so.",
         "M(line) = integral of q x distance from the line, q = M0 / (L B), M0 = 2/sqrt(3) sigma_f B t^2 / 4, L to "
         "where the leaf (the shoulder: V / 2, or flange.vee's foot) bears; capacity = sum over webs of (2/sqrt(3) if "
         "8 t wide, else 1) "
         "sigma_y b t^2 / 4. sigma_f = (Re + Rm) / 2. Straight lines through the cut-outs, parallel and oblique; "
         "cut-outs under 15 % of a section are left to hole.near-bend",
         "Limit analysis (yield-line method); flow stress as the mean of yield and tensile strength: common practice",
         "Move or narrow the window, widen the webs, bridge it with tabs, cut it after folding, or hold that side "
         "under the bars; on a press brake also a narrower V."},
    Rule{"web.hold", "Side the side with the window",
         "Swung by the leaf this side would fold or bow at the window, held under the bars it does not.",
         "as web.folds and web.land, for both ways of making the bend", "as web.folds",
         "Choose the order that holds it."},
    Rule{"web.land", "Too little sheet under the nose before a window",
         "The bar clamps only what lies before the window. A narrow strip of it twists and the bend line bows into the "
         "window.",
         "land < the shop's least clamped land, and window length > 2 T / (M0 per mm), T = sigma t^2 (3 d - t) / (6 "
         "sqrt(3)) the plastic torsion of a strip d deep",
         "Plastic torsion of a rectangle (Nadai's sand heap); least land 6 mm: shop rule, from memory",
         "Move the window back, cut it after folding, or hold the other side."},
};

}  // namespace

std::span<const Rule> metalRules() { return kMetalRules; }

}  // namespace tinwright::forming
