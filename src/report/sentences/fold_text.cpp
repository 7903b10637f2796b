// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/fold_text.h"
#include "sentences/trouble_words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/packing.h>
#include <tinwright/report/data/bar_datum.h>

#include "kinds/brake_words.h"
#include "sentences/closing_text.h"
#include "sentences/tolerance_text.h"
#include "words/way_words.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kNoTurn_deg = 0.05;
constexpr double kNoOverhang_mm = 0.05;
constexpr double kSamePlace_mm = 0.05;
constexpr double kFullyCovered = 0.9995;
constexpr double kStationsApart_mm = 20;  // what stands further from the bend than this is for other folds

std::string barId(const BrakeInSetup& brake, const PlacedTool& placed) { return brake->tool(placed.tool).id; }

std::string handling(const FoldStep& step, bool is_first) {
    if (is_first) return "";
    std::vector<std::string> moves;
    if (step.flip) moves.emplace_back("flip it front to back");
    if (std::abs(step.turn_deg) > kNoTurn_deg) {
        const bool half = std::abs(std::abs(step.turn_deg) - 180.0) < kNoTurn_deg;
        const char* sense = half                ? ""
                            : step.turn_deg > 0 ? " anticlockwise seen from above"
                                                : " clockwise seen from above";
        moves.push_back(fmt::format("turn it {}{}", degrees(std::abs(step.turn_deg)), sense));
    }
    return "; " + (moves.empty() ? std::string("as it lay") : listed(moves));
}

std::string holdText(const Part& part, const BrakeWords& kind, const FoldStep& step, const FoldPlace& place) {
    return fmt::format("{}, drawn face {}{}", kind.lies(part, step), step.drawn_face_up ? "up" : "down",
                       handling(step, place.before == nullptr));
}

std::string coverText(const BrakeInSetup& brake, const FoldStep& step) {
    const char* pieces = wordsFor(*brake).terms.tools.upper;
    return step.covered_share >= kFullyCovered
               ? fmt::format("the whole bend is under {}", pieces)
               : fmt::format("{} of the bend is under {}", percent(step.covered_share), pieces);
}

/// `left_too`: some figure is negative.
std::string datumText(const std::optional<BarDatum>& datum, bool left_too) {
    const std::string right = left_too ? "mm to the right (minus: to the left) of " : "mm to the right of ";
    if (!datum) return right + "the bend's left end";
    std::string text = right + "edge " + datum->edge;
    if (std::abs(datum->x_mm) < kSamePlace_mm) return text + ", which is flush with the bend's left end";
    const char* side = datum->x_mm < 0 ? "left" : "right";
    return text + fmt::format(", which is {} mm {} of the bend's left end", millimetres(std::abs(datum->x_mm)), side);
}

/// Pieces from left to right; the rule lies against an edge of the part that can be touched.
std::string piecesText(const BrakeInSetup& brake, const std::vector<PlacedTool>& pieces, double zero_mm) {
    std::string text;
    for (const PlacedTool& bar : pieces) {
        text += fmt::format("{}{} {} to {}", text.empty() ? "" : " | ", barId(brake, bar),
                            millimetres(bar.from_mm - zero_mm), millimetres(bar.to_mm - zero_mm));
    }
    return text;
}

/// Of one row: those over the bend, and those that stand elsewhere along the machine, for other folds.
struct RowOfTools {
    std::vector<PlacedTool> here;
    std::vector<PlacedTool> besides;
};

RowOfTools rowOf(const Part& part, const BrakeInSetup& brake, const FoldStep& step, ToolRow row) {
    const Bend& bend = part.bend(step.stroke.first());
    const double length_mm = stripExtent_mm(bend);
    RowOfTools tools;
    for (const PlacedTool& bar : step.tools) {
        if (brake->rowOf(bar.tool) != row) continue;
        const bool is_elsewhere = countBends(step.stroke.bends) == 1 &&
                                  (bar.to_mm < -kStationsApart_mm || bar.from_mm > length_mm + kStationsApart_mm);
        (is_elsewhere ? tools.besides : tools.here).push_back(bar);
    }
    return tools;
}

std::string toolsText(const FoldContext& on, const FoldStep& step, const FoldPlace& place,
                      const std::optional<BarDatum>& datum, ToolRow row) {
    const BrakeInSetup& brake = on.brake;
    const double zero_mm = datum ? datum->x_mm : 0.0;
    const RowOfTools tools = rowOf(on.part, brake, step, row);
    const auto toTheLeft = [&](const std::vector<PlacedTool>& pieces) {
        return !pieces.empty() && pieces.front().from_mm - zero_mm < -kSamePlace_mm;
    };
    std::string text = piecesText(brake, tools.here, zero_mm) + " " +
                       datumText(datum, toTheLeft(tools.here) || toTheLeft(tools.besides));
    if (row == ToolRow::kUpper) text += "; " + coverText(brake, step);
    if (!tools.besides.empty()) text += "; besides, for other folds: " + piecesText(brake, tools.besides, zero_mm);
    if (toolsStay(step, place) && row == ToolRow::kUpper)
        text += std::string("; ") + wordsFor(*brake).terms.tools.as_before;
    return text;
}

/// The machine end matters only when the part hangs past it.
std::string standWords(const FoldStep& step) {
    if (std::abs(step.overhang_mm) < kNoOverhang_mm) return "";
    const char* end = step.overhang_mm < 0 ? "left" : "right";
    return fmt::format(
        "part hangs {} mm past the {} end of the brake; left end of the bend {} mm from the brake's left end",
        millimetres(std::abs(step.overhang_mm)), end, millimetres(step.part_x_mm));
}

std::string clearanceText(const Part& part, const BrakeInSetup& brake, const FoldStep& step) {
    if (!std::isfinite(step.clearance_mm)) return "nothing comes near";
    const std::string least = atLeastMillimetres(step.clearance_mm);
    if (!step.clearance_between[0].known()) return "nothing comes within " + least + " mm";
    return fmt::format("at least {} mm, {} to {}", least, bodyName(part, brake, step.clearance_between[0]),
                       bodyName(part, brake, step.clearance_between[1]));
}

std::string strokeText(const BrakeInSetup& brake, const FoldStep& step) {
    const BrakeWords& words = wordsFor(*brake);
    return fmt::format("set {} for {}", words.angle(step.toSet().deg()), words.angle(step.angle.deg())) +
           words.stroke(brake, step);
}

std::string mover(const BrakeInSetup& brake, const FoldStep& step, const ExitMove& move) {
    const auto piece = static_cast<std::size_t>(move.piece);
    if (move.piece < 0 || piece >= step.tools.size()) return "the part: ";
    return fmt::format("bar {} ({} from left): ", barId(brake, step.tools[piece]), piece + 1);
}

/// One sentence for each move, in order; words are the planner's, the piece is named in front of them.
std::vector<std::string> waysOutWords(const BrakeInSetup& brake, const FoldStep& step) {
    std::vector<std::string> words;
    for (const ExitMove& move : step.way_out) words.push_back(mover(brake, step, move) + wayOutWords(move));
    return words;
}

/// The plan tells the way in backwards, as a way out.
std::vector<std::string> waysInWords(const BrakeInSetup& brake, const FoldStep& step) {
    std::vector<std::string> words;
    for (auto move = step.way_in.rbegin(); move != step.way_in.rend(); ++move)
        words.push_back(mover(brake, step, *move) + wayInWords(*move));
    return words;
}

std::string packingText(const Part& part, const BrakeInSetup& brake, const Packing& packing) {
    const int strips = packingStrips(packing.height_mm, part.thickness_mm);
    const auto row = [&](const char* where, const std::optional<double>& most_mm) {
        return fmt::format("on the {}{}", where,
                           most_mm ? fmt::format(" (no wider than {} mm)", millimetres(*most_mm)) : std::string());
    };
    const std::string what =
        strips == 1 ? "an offcut of the sheet"
                    : fmt::format("{} offcuts of the sheet, {} mm together,", strips, millimetres(packing.height_mm));
    std::string text = fmt::format(
        "{} under the bend's whole length {}, {}", what, row("bed", packing.on_bed_mm),
        packing.on_leaf ? "and the same " + row("leaf", packing.on_leaf_mm) : std::string("none on the leaf"));
    if (packing.setback_mm != brake.setback_mm())
        text += fmt::format("; set the setback to {} mm for this fold", millimetres(packing.setback_mm));
    return text;
}

std::string raised(double lift_mm) { return fmt::format("raise the tools {} mm", millimetres(lift_mm)); }

bool isPlain(const ExitMove& move) {
    return move.kind == ExitMove::Kind::kPieceUp || move.kind == ExitMove::Kind::kPartUp ||
           move.kind == ExitMove::Kind::kPartForward;
}

bool allPlain(const std::vector<ExitMove>& moves) { return std::all_of(moves.begin(), moves.end(), isPlain); }

}  // namespace

bool toolsStay(const FoldStep& step, const FoldPlace& place) {
    if (place.before == nullptr) return false;
    const FoldStep& a = step;
    const FoldStep& b = *place.before;
    const double shift_mm = a.part_x_mm - b.part_x_mm;
    return std::equal(a.tools.begin(), a.tools.end(), b.tools.begin(), b.tools.end(),
                      [shift_mm](const PlacedTool& x, const PlacedTool& y) {
                          return x.tool == y.tool && std::abs(x.from_mm + shift_mm - y.from_mm) < kSamePlace_mm;
                      });
}

FoldWords foldWords(const FoldContext& on, const FoldStep& step, const FoldPlace& place,
                    const std::optional<BarDatum>& datum) {
    const Part& part = on.part;
    const BrakeInSetup& brake = on.brake;
    FoldWords words;
    const BrakeWords& kind = wordsFor(*brake);
    words.hold = holdText(part, kind, step, place);
    words.gauging = kind.gauging(part, brake, step);
    words.care = careWords(part, step.care);
    if (step.packing) words.packing = packingText(part, brake, *step.packing);
    for (const auto& [row, label] : kind.terms.tools.rows)
        words.tools.push_back({label, toolsText(on, step, place, datum, row)});
    words.stand = standWords(step);
    words.stroke = strokeText(brake, step);
    words.clearance = clearanceText(part, brake, step);
    words.tolerances = holdingText(part, brake, step.over_tolerances);
    if (step.closing) words.closing = closingText(part, brake, step);
    const bool in_is_special = !allPlain(step.way_in);
    const bool out_is_special = !leavesPlainly(step);
    // No move tells why time is counted for them: the tools do not rise all the way, or loose bars keep the part down.
    const bool neither_tells = !step.plain_ways && !in_is_special && !out_is_special;
    if (in_is_special || neither_tells) words.way_in = waysInWords(brake, step);
    if (out_is_special || neither_tells) words.way_out = waysOutWords(brake, step);
    if (neither_tells && step.lift_in_mm > 0) words.way_in.insert(words.way_in.begin(), raised(step.lift_in_mm));
    if (neither_tells && step.lift_out_mm > 0) words.way_out.insert(words.way_out.begin(), raised(step.lift_out_mm));
    return words;
}

bool leavesPlainly(const FoldStep& step) {
    // Under a raised beam no piece moves; loose bars lifted straight off leave in any order.
    const bool singly_under_beam = step.lift_out_mm > 0 && !step.tools_out.empty();
    return allPlain(step.way_out) && !singly_under_beam;
}

}  // namespace tinwright::report
