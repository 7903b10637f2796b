// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "checks/checks.h"
#include "measures/chords.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kSquare_deg = 5;  // less off square is drawing and cutting
constexpr double kFarOffSquare_deg = 20;
constexpr double kStraight = 0.2;  // how evenly the edge must lean to be one straight edge
constexpr double kInset = 0.98;    // of half the strip: lines just inside it

/// Sheet across the strip at three heights, each the stretch that belongs to one span of the bend; and the next sheet
/// beside it.
struct Across {
    Stretch stretch;
    double free_before_mm = 1e9;
    double free_after_mm = 1e9;
};

std::optional<Across> acrossAt(const Part& part, const Bend& bend, const StripSpan& span, double height_mm) {
    // along() of the line is the bend's direction or its opposite, by the side on which the child lies.
    const CutLine line{bend.toward_child, bend.toward_child.dot(bend.origin) + height_mm};
    const double sign = line.along().dot(bend.along);
    const double start = bend.along.dot(bend.origin);
    Stretches stretches;
    for (const Stretch& chord : chords(part.blank, line)) {
        const double a = sign * chord.from_mm - start;
        const double b = sign * chord.to_mm - start;
        stretches.push_back({std::min(a, b), std::max(a, b)});
    }
    std::sort(stretches.begin(), stretches.end(),
              [](const Stretch& a, const Stretch& b) { return a.from_mm < b.from_mm; });
    const double middle = 0.5 * (span.from_mm + span.to_mm);
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        if (middle < stretches[i].from_mm || middle > stretches[i].to_mm) continue;
        Across across{stretches[i]};
        if (i > 0) across.free_before_mm = stretches[i].from_mm - stretches[i - 1].to_mm;
        if (i + 1 < stretches.size()) across.free_after_mm = stretches[i + 1].from_mm - stretches[i].to_mm;
        return across;
    }
    return std::nullopt;
}

/// How far from square the edge leans at an end, from its place below, on and above the bend line; none when that is no
/// straight edge.
std::optional<double> lean_deg(double below, double on, double above, double half_mm) {
    const double lower = on - below;
    const double upper = above - on;
    if (std::abs(lower - upper) > kStraight * std::max(std::abs(lower), std::abs(upper)) + 1e-6) return std::nullopt;
    return Angle::radians(std::atan2(std::abs(above - below), 2 * half_mm)).deg();
}

void addLean(const Bend& bend, BendId id, std::optional<double> lean, std::vector<Finding>& findings) {
    if (!lean || *lean <= kSquare_deg) return;
    Finding finding =
        startFinding("bend.edge", *lean > kFarOffSquare_deg ? Severity::kWarning : Severity::kNote, bend.name, {id});
    finding.figures = {{"off_square_deg", *lean, kSquare_deg}};
    finding.words = fmt::format(
        "bend {} runs into an edge that is {} off square to it: the end of the leg creeps along the bend line as it "
        "turns, and the tip bulges",
        bend.name, degrees(Angle::degrees(*lean)));
    finding.remedies = {"trim the edge square over the width of the bend, or cut it after folding"};
    findings.push_back(std::move(finding));
}

void addNarrowRelief(const Part& part, const Bend& bend, BendId id, double free_mm, std::vector<Finding>& findings) {
    if (free_mm >= part.thickness_mm) return;
    Finding finding = startFinding("relief.narrow", Severity::kWarning, bend.name, {id});
    finding.figures = {{"relief_mm", free_mm, part.thickness_mm}};
    finding.words = fmt::format(
        "the slit at the end of bend {} is {} mm wide, less than the sheet's {} mm: the sheet beside it is drawn in "
        "and tears",
        bend.name, millimetres(free_mm), millimetres(part.thickness_mm));
    finding.remedies = {
        fmt::format("make it {} mm wide at least, over the whole width of the bend", roundedUp(part.thickness_mm))};
    findings.push_back(std::move(finding));
}

void addSpanEnds(const Part& part, BendId id, const StripSpan& span, std::vector<Finding>& findings) {
    const Bend& bend = part.bend(id);
    const double half_mm = kInset * 0.5 * bend.allowance_mm;
    const auto below = acrossAt(part, bend, span, -half_mm);
    const auto on = acrossAt(part, bend, span, 0);
    const auto above = acrossAt(part, bend, span, half_mm);
    if (!below || !on || !above) return;
    const auto left = lean_deg(below->stretch.from_mm, on->stretch.from_mm, above->stretch.from_mm, half_mm);
    const auto right = lean_deg(below->stretch.to_mm, on->stretch.to_mm, above->stretch.to_mm, half_mm);
    addLean(bend, id, std::max(left, right), findings);
    double free_mm = 1e9;
    for (const auto& across : {below, on, above})
        free_mm = std::min({free_mm, across->free_before_mm, across->free_after_mm});
    addNarrowRelief(part, bend, id, free_mm, findings);
}

}  // namespace

void addBendEnds(const Part& part, std::vector<Finding>& findings) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const std::size_t before = findings.size();
        for (const StripSpan& span : part.bends[i].spans) {
            addSpanEnds(part, idAt<BendId>(i), span, findings);
            if (findings.size() > before) break;  // once for a bend is enough
        }
    }
}

}  // namespace tinwright::forming
