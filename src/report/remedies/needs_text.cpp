// SPDX-License-Identifier: GPL-3.0-or-later
#include "remedies/needs_text.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "kinds/brake_words.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {

namespace {

std::string pieces(const NeedsWay& way, const BrakeTerms& terms) {
    std::vector<std::string> widths;
    for (const double width_mm : way.piece_widths_mm) widths.push_back(millimetres(width_mm));
    return fmt::format("{} that come to {} mm", terms.tools.all, listed(widths));
}

std::string figure(const NeedsWay& way, const FigureNeed& need, const BrakeTerms& terms) {
    const std::string value = millimetres(need.needs);
    const std::string here = " (here " + millimetres(need.has) + ")";
    const std::string like = need.like.empty() ? std::string() : " like " + printable(need.like);
    switch (need.figure) {
        case MachineFigure::kLength: return fmt::format("{} mm long{}", value, here);
        case MachineFigure::kLeafAngle:
            return fmt::format("a leaf that goes to {} (here {})", degrees(need.needs), degrees(need.has));
        case MachineFigure::kClampDepth: return fmt::format("bars at most {} mm from nose to back{}", value, here);
        case MachineFigure::kBarHeight: return fmt::format("bars at most {} mm high{}", value, here);
        case MachineFigure::kOpening: return fmt::format("a beam that lifts by {} mm{}", value, here);
        case MachineFigure::kGapBehindNose:
            return fmt::format("{} mm from the nose line back to the beam{}", value, here);
        case MachineFigure::kPieceWidth: return pieces(way, terms);
        case MachineFigure::kOpenHeight:
            return fmt::format("an open height of {} mm{}, and as much more stroke", value, here);
        case MachineFigure::kPunchHeight:
            return fmt::format("punches{}, or adapters as slim, {} mm high from tip to seat{}", like, value, here);
        case MachineFigure::kPunchThroat:
            return fmt::format(
                "goosenecks{} with a throat {} mm deep behind the tip{}, at the same height and with as "
                "thick a neck",
                like, value, here);
        case MachineFigure::kVeeAngle:
            return fmt::format("a V of {} and straight punches as sharp (here {})", degrees(need.needs),
                               degrees(need.has));
        case MachineFigure::kThroat: return fmt::format("a throat of {} mm{}", value, here);
        case MachineFigure::kHemThickness:
            return fmt::format("{} that closes hems in sheet of {} mm{}", terms.closing.closer, value, here);
        case MachineFigure::kFrames: break;
    }
    return fmt::format("{} mm between the side frames{}", value, here);
}

std::string figuresOf(const NeedsWay& way, const BrakeTerms& terms) {
    std::vector<std::string> figures;
    for (const FigureNeed& need : way.figures) figures.push_back(figure(way, need, terms));
    return listed(figures);
}

std::string sentence(const MachineNeeds& needs) {
    const BrakeInSetup& brake = needs.brake;
    const std::string name = printable(brake->name);
    if (needs.cut_short)
        return fmt::format("one like {}: what it would need was not found out within the work allowed", name);
    if (!needs.found)
        return fmt::format("none like {}: with every figure of it as good as can be no order works either", name);
    std::string ways;
    for (const NeedsWay& way : needs.ways)
        ways += fmt::format("{}with {}", ways.empty() ? "" : "; or ", figuresOf(way, wordsFor(*brake).terms));
    const std::string force = needs.force_kn
                                  ? fmt::format("; its longest bend takes about {:.0f} kN", std::ceil(*needs.force_kn))
                                  : std::string();
    return fmt::format("one like {}, {}{}", name, ways, force);
}

// What bends ask of any machine.
std::string anyMachine(const Part& part) {
    double longest_mm = 0;
    for (const Bend& bend : part.bends) longest_mm = std::max(longest_mm, stripLength_mm(bend));
    return fmt::format("any: rated for bends {} mm long in {} mm {}", millimetres(longest_mm),
                       millimetres(part.thickness_mm), printable(part.material));
}

}  // namespace

const char* nameOf(MachineFigure figure) {
    switch (figure) {
        case MachineFigure::kLength: return "length";
        case MachineFigure::kLeafAngle: return "leaf-angle";
        case MachineFigure::kClampDepth: return "clamp-depth";
        case MachineFigure::kBarHeight: return "bar-height";
        case MachineFigure::kOpening: return "beam-lift";
        case MachineFigure::kGapBehindNose: return "gap-behind-nose";
        case MachineFigure::kPieceWidth: return "piece-widths";
        case MachineFigure::kOpenHeight: return "open-height";
        case MachineFigure::kPunchHeight: return "punch-height";
        case MachineFigure::kPunchThroat: return "punch-throat";
        case MachineFigure::kVeeAngle: return "vee-angle";
        case MachineFigure::kThroat: return "throat";
        case MachineFigure::kHemThickness: return "hem-thickness";
        case MachineFigure::kFrames: break;
    }
    return "between-frames";
}

std::vector<std::string> needsLines(const PlanReport& report) {
    std::vector<std::string> lines;
    bool any_found = false;
    for (const BrakeReport& brake : report.brakes) {
        if (!brake.needs) continue;
        lines.push_back(sentence(*brake.needs));
        any_found = any_found || brake.needs->found;
    }
    if (any_found) lines.push_back(anyMachine(report.part));
    return lines;
}

namespace {

bool isAngle(MachineFigure figure) { return figure == MachineFigure::kLeafAngle || figure == MachineFigure::kVeeAngle; }

Json wayJson(const NeedsWay& way) {
    Json figures = Json::array();
    for (const FigureNeed& need : way.figures) {
        if (need.figure == MachineFigure::kPieceWidth) continue;
        const char* at_least = need.needs >= need.has ? "least" : "most";
        Json json = {{"figure", nameOf(need.figure)},
                     {"unit", isAngle(need.figure) ? "deg" : "mm"},
                     {"has", rounded(need.has, 1000.0)},
                     {at_least, rounded(need.needs, 1000.0)}};
        if (!need.like.empty()) json["like"] = need.like;
        figures.push_back(std::move(json));
    }
    return {{"figures", figures}, {"piece_widths_mm", way.piece_widths_mm}};
}

}  // namespace

Json needsJson(const BrakeReport& brake) {
    if (!brake.needs) return nullptr;
    const MachineNeeds& needs = *brake.needs;
    Json json = wayJson(needs.ways.empty() ? NeedsWay{} : needs.ways.front());
    Json others = Json::array();
    for (std::size_t i = 1; i < needs.ways.size(); ++i) others.push_back(wayJson(needs.ways[i]));
    return {{"found", needs.found},
            {"cut_short", needs.cut_short},
            {"figures", json["figures"]},
            {"piece_widths_mm", json["piece_widths_mm"]},
            {"or", others},
            {"force_kn", needs.force_kn ? rounded(*needs.force_kn, 1000.0) : Json(nullptr)}};
}

}  // namespace tinwright::report
