// SPDX-License-Identifier: GPL-3.0-or-later
#include "remedies/remedy_text.h"

#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/part/edges/seams.h>

#include <tinwright/forming/webs/cut_out_cures.h>

#include "kinds/brake_words.h"
#include "words/change_text.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {

namespace {

std::string gainText(const Brake& brake, const Suitability& before, const Suitability& after) {
    std::string text = after.verdict == Verdict::kWithTrouble ? "goes, WITH TROUBLE" : "goes";
    if (after.tight) text += ", TIGHT";
    if (before.level() == SuitLevel::kWithTrouble && before.level() < after.level())
        text = std::string("spoils nothing") + (after.tight ? ", TIGHT" : "");
    else if (before.level() == after.level())
        text = fmt::format("at least {} of every bend under {} instead of {}", percent(after.least_cover),
                           wordsFor(brake).terms.tools.upper, percent(before.least_cover));
    else if (before.level() == SuitLevel::kTightly)
        text = "goes with the wanted clearance";
    text += fmt::format("; clearance at least {} mm", atLeastMillimetres(after.worst_clearance_mm));
    return after.cost_ms ? text + "; about " + duration(*after.cost_ms) : text;
}

std::string otherBrake(const PlanReport& report, const Remedy& remedy) {
    return fmt::format("fold it as drawn on {}", printable(report.shop.brakes[remedy.brake].name));
}

std::string dimensions(const RemedyReport& report, const Remedy& remedy, const std::vector<DimensionChange>& changes) {
    std::string text;
    std::vector<std::string> names;
    for (const DimensionChangeTo& change : remedy.dimensions) {
        const std::string& name = report.dimensions[change.dimension].name;
        text += (text.empty() ? "" : " together with ") + changeText(name, change.from_mm, change.to_mm);
        names.push_back(name);
    }
    return text + "; " + alsoChanges(changes, names);
}

std::string corner(const Part& part, const OpenedCorner& corner) {
    const std::string& flange = part.panel(part.bend(corner.bend).child).name;
    std::string text = (corner.by_mm > 0 ? fmt::format("cut {} back by {} mm", flange, millimetres(corner.by_mm))
                                         : fmt::format("slant the end of {} by {:.1f}°", flange, corner.slant_deg)) +
                       " where it comes to " + part.panel(corner.beside).name;
    if (corner.weld_mm <= 0) return text + " and leave that corner open";
    text += fmt::format(" and weld the corner: {} mm of weld over a gap of up to {} mm", millimetres(corner.weld_mm),
                        millimetres(corner.gap_mm));
    return corner.gap_mm > bridgedGap_mm(part.thickness_mm) ? text + ", with a filler strip" : text;
}

std::string weld(const Part& part, const WeldedBend& weld) {
    const std::string& piece = part.panel(part.bend(weld.bend).child).name;
    const std::string own =
        weld.piece_bends == 0 ? "" : fmt::format(" (folded by itself: {})", counted(weld.piece_bends, "bend"));
    return fmt::format(
        "cut {} as a piece of its own{} and weld it on where bend {} would be, after the rest is folded: {} mm of weld",
        piece, own, part.bend(weld.bend).name, millimetres(weld.weld_mm));
}

std::string what(const PlanReport& report, const RemedyReport& remedies, std::size_t index) {
    const Remedy& remedy = remedies.found.list[index];
    std::vector<std::string> parts;
    switch (remedy.kind) {
        case RemedyKind::kOtherBrake: return otherBrake(report, remedy);
        case RemedyKind::kCutOut:
            for (const CutOutCure& cure : remedy.cut_outs) parts.push_back(cureWords(report.part, cure));
            return listed(parts);
        case RemedyKind::kDimension:
        case RemedyKind::kTwoDimensions: return dimensions(remedies, remedy, remedies.changes[index]);
        case RemedyKind::kOpenCorners:
            for (const OpenedCorner& one : remedy.corners) parts.push_back(corner(report.part, one));
            return listed(parts);
        case RemedyKind::kBar: return wordsFor(report.shop.brakes[remedy.brake]).newPieces(remedy.bars);
        case RemedyKind::kWeldedBend: break;
    }
    return weld(report.part, *remedy.weld);
}

}  // namespace

const char* nameOf(RemedyKind kind) {
    switch (kind) {
        case RemedyKind::kOtherBrake: return "other-brake";
        case RemedyKind::kCutOut: return "cut-out";
        case RemedyKind::kDimension: return "dimension";
        case RemedyKind::kTwoDimensions: return "two-dimensions";
        case RemedyKind::kOpenCorners: return "open-corners";
        case RemedyKind::kBar: return "bar";
        case RemedyKind::kWeldedBend: break;
    }
    return "welded-bend";
}

std::string remedyTitle(const BrakeReport& brake) {
    return goes(brake.result.verdict) ? "What would make it better, each planned again"
                                      : "What would lift it, each planned again";
}

std::vector<std::string> remedyLines(const PlanReport& report, const RemedyReport& remedies) {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < remedies.found.list.size(); ++i) {
        lines.push_back(what(report, remedies, i) + ": " +
                        gainText(report.shop.brakes[remedies.found.list[i].brake], remedies.found.as_drawn,
                                 remedies.found.list[i].result));
    }
    return lines;
}

std::string noRemedyText(const BrakeInSetup& brake, const RemedyReport& remedies) {
    const std::string text = fmt::format(
        "Nothing was found: no other brake of the shop, no cut-out moved or cut later, no named dimension or two "
        "within a quarter of what they are, "
        "no {} more, no corner or bend welded "
        "instead.",
        wordsFor(*brake).terms.tools.upper_one);
    return remedies.found.cut_short ? text + " Not all of it was looked into: that would have taken long." : text;
}

}  // namespace tinwright::report
