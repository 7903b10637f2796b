// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/cutting/cut_plan.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "cutting/cut_corners.h"
#include "cutting/cut_webs.h"
#include "cutting/edge_distances.h"
#include "cutting/narrow_slot.h"
#include "rules/wording.h"

namespace tinwright {

namespace {

constexpr double kNoise_mm = 1e-6;

Finding finding(const char* id, Severity severity, const std::string& feature, std::string words,
                std::vector<std::string> remedies, std::vector<Figure> figures) {
    Finding found = forming::startFinding(id, severity, feature);
    found.words = std::move(words);
    found.remedies = std::move(remedies);
    found.figures = std::move(figures);
    return found;
}

/// The hole of the blank that a cut-out makes all by itself; nothing for a notch and for one that others cut into.
std::optional<std::size_t> holeOf(const Part& part, const NamedCutOut& cut_out) {
    const double area = signedArea_mm2(cut_out.outline);
    for (std::size_t i = 0; i < part.blank.holes.size(); ++i) {
        const Polygon& hole = part.blank.holes[i];
        if (std::abs(std::abs(signedArea_mm2(hole)) - area) > 1e-6 * area + kNoise_mm) continue;
        const bool same = std::all_of(hole.begin(), hole.end(), [&](const Vec2& p) {
            return std::any_of(cut_out.outline.begin(), cut_out.outline.end(),
                               [&](const Vec2& q) { return (p - q).norm() < 1e-5; });
        });
        if (same) return i;
    }
    return std::nullopt;
}

class Planner {
public:
    Planner(const Part& part, const Cutting& cutting)
        : part_(part), cutting_(cutting), smallest_mm_(cutting.smallest_hole.forThickness_mm(part.thickness_mm)) {}
    CutPlan run();

private:
    void sort(std::size_t index);
    void sortRound(std::size_t index);
    void sortOther(std::size_t index);
    void drillSlot(std::size_t index, const forming::NarrowSlot& slot);
    void addDrilled(std::size_t index, std::string name, double diameter_mm, const Vec2& centre, std::string reason);
    void keep(std::size_t index) { plan_.cut.push_back(index); }
    [[nodiscard]] std::vector<Figure> widthFigure(const char* name, double value_mm) const {
        return {{name, value_mm, smallest_mm_}};
    }
    [[nodiscard]] bool byHand() const { return cutting_.process == CutProcess::kShearAndDrill; }
    void sayOutline();
    void words();

    const Part& part_;
    const Cutting& cutting_;
    double smallest_mm_;
    CutPlan plan_;
};

void Planner::addDrilled(std::size_t index, std::string name, double diameter_mm, const Vec2& centre,
                         std::string reason) {
    DrilledHole hole;
    hole.name = std::move(name);
    hole.cut_out = index;
    hole.diameter_mm = diameter_mm;
    hole.centre = centre;
    hole.from = forming::edgeDistances(part_, part_.cut_outs[index].panel, centre);
    hole.pilot_mm = std::min(cutting_.pilot_drill_mm, diameter_mm);
    hole.reason = std::move(reason);
    // A pilot narrower than the cut itself would only be a burnt spot.
    const double pilot_mm = cutting_.cut_under_mm ? diameter_mm - *cutting_.cut_under_mm : 0;
    if (!byHand() && pilot_mm > std::max(2 * plan_.kerf_mm.value_or(0.5), kNoise_mm)) hole.cut_pilot_mm = pilot_mm;
    plan_.drilled.push_back(std::move(hole));
}

void Planner::sortRound(std::size_t index) {
    const NamedCutOut& cut_out = part_.cut_outs[index];
    const double diameter = cut_out.round->diameter_mm;
    if (!byHand() && diameter >= smallest_mm_ - kNoise_mm) return keep(index);
    const std::string reason = byHand() ? "holes are drilled, not cut"
                                        : fmt::format("smaller than the {:.4g} mm that {} cuts well in {:.4g} mm sheet",
                                                      smallest_mm_, toText(cutting_.process), part_.thickness_mm);
    addDrilled(index, cut_out.name, diameter, cut_out.round->centre, reason);
    if (byHand()) return;
    plan_.findings.push_back(finding("cut.hole", Severity::kNote, cut_out.name,
                                     fmt::format("Drill {} to {:.4g} mm: {}.", cut_out.name, diameter, reason),
                                     {fmt::format("make it {:.4g} mm or larger to have it cut", smallest_mm_)},
                                     widthFigure("diameter_mm", diameter)));
}

void Planner::drillSlot(std::size_t index, const forming::NarrowSlot& slot) {
    const std::string& name = part_.cut_outs[index].name;
    const bool is_long = (slot.ends[0] - slot.ends[1]).norm() > kNoise_mm;
    const std::string reason =
        byHand() ? "cut by hand between drilled holes"
                 : fmt::format("narrower than the {:.4g} mm that {} cuts well", smallest_mm_, toText(cutting_.process));
    if (is_long) {
        for (std::size_t end = 0; end < 2; ++end)
            addDrilled(index, fmt::format("{} end {}", name, end + 1), slot.width_mm, slot.ends[end], reason);
    } else {
        addDrilled(index, name, slot.width_mm, slot.ends[0], reason);
    }
    const std::string what =
        is_long
            ? fmt::format("Drill {:.4g} mm at both ends of {} and saw or file out what is between", slot.width_mm, name)
            : fmt::format("Drill {} to {:.4g} mm and file it to shape", name, slot.width_mm);
    plan_.findings.push_back(finding(
        byHand() ? "cut.by-hand" : "cut.narrow", byHand() ? Severity::kNote : Severity::kWarning, name,
        what + ": " + reason + ".",
        byHand() ? std::vector<std::string>{}
                 : std::vector<std::string>{fmt::format("make it {:.4g} mm wide or more to have it cut", smallest_mm_)},
        byHand() ? std::vector<Figure>{} : widthFigure("width_mm", slot.width_mm)));
}

// A shape of which no place is as wide as the smallest hole cannot be cut well anywhere.
void Planner::sortOther(std::size_t index) {
    const NamedCutOut& cut_out = part_.cut_outs[index];
    const bool is_narrow =
        !byHand() && smallest_mm_ > 0 && grown({cut_out.outline, {}}, -0.5 * smallest_mm_ + kNoise_mm).empty();
    const auto slot = forming::slotOf(cut_out.outline);
    if (is_narrow && slot) return drillSlot(index, *slot);
    keep(index);
    if (is_narrow) {
        plan_.findings.push_back(
            finding("cut.narrow", Severity::kWarning, cut_out.name,
                    fmt::format("{} is nowhere as wide as the {:.4g} mm that {} cuts well: the cut runs into itself.",
                                cut_out.name, smallest_mm_, toText(cutting_.process)),
                    {"make it wider, or cut it by hand"}, {}));
    } else if (byHand()) {
        plan_.findings.push_back(finding(
            "cut.by-hand", Severity::kNote, cut_out.name,
            fmt::format("{} is cut by hand: drill its corners and saw or nibble between them.", cut_out.name), {}, {}));
    }
}

void Planner::sort(std::size_t index) {
    const NamedCutOut& cut_out = part_.cut_outs[index];
    if (cut_out.is_notch || !holeOf(part_, cut_out)) return keep(index);
    cut_out.round ? sortRound(index) : sortOther(index);
}

void Planner::words() {
    if (byHand()) {
        plan_.kerf_words = "Sheared: no kerf.";
    } else if (plan_.kerf_mm) {
        plan_.kerf_words = fmt::format(
            "Kerf {:.4g} mm ({}); the drawing is the finished edge, and the cutting program makes up for the kerf.",
            *plan_.kerf_mm, toText(cutting_.process));
    } else {
        plan_.kerf_words =
            fmt::format("Kerf of {} in {:.4g} mm sheet not said by the shop: the drawing is the finished edge.",
                        toText(cutting_.process), part_.thickness_mm);
    }
    switch (cutting_.dross) {
        case Dross::kBackFace:
            plan_.dross_words =
                "Drawn face up on the table: the dross comes out on the other face. Clean it off before folding.";
            break;
        case Dross::kDrawnFace:
            plan_.dross_words =
                "Other face up on the table: the dross comes out on the drawn face. Clean it off before folding.";
            break;
        case Dross::kNone: break;
    }
    switch (part_.film) {
        case Film::kUnsaid: break;
        case Film::kNone: plan_.film_words = "No film."; break;
        case Film::kDrawnFace: plan_.film_words = "Film on the drawn face."; break;
        case Film::kBackFace: plan_.film_words = "Film on the other face."; break;
        case Film::kBothFaces: plan_.film_words = "Film on both faces."; break;
    }
    const bool has_film = part_.film != Film::kUnsaid && part_.film != Film::kNone;
    if (has_film && cutting_.process == CutProcess::kPlasma)
        plan_.film_words += " Peel it back along the cut: it burns.";
}

CutPlan Planner::run() {
    plan_.process = cutting_.process;
    if (!byHand()) plan_.kerf_mm = cutting_.kerf_mm(part_.thickness_mm);
    for (std::size_t i = 0; i < part_.cut_outs.size(); ++i) sort(i);
    words();
    const auto rank = [](const Finding& f) { return f.id == "cut.hole" ? 0 : f.id == "cut.narrow" ? 1 : 2; };
    std::stable_sort(plan_.findings.begin(), plan_.findings.end(),
                     [&](const Finding& a, const Finding& b) { return rank(a) < rank(b); });
    const Region path = cutRegion(part_, plan_);
    for (Finding& corner : forming::cornerFindings(part_, path, cutting_, plan_))
        plan_.findings.push_back(std::move(corner));
    for (Finding& web : forming::webFindings(part_, path, cutting_, plan_)) plan_.findings.push_back(std::move(web));
    return std::move(plan_);
}

constexpr double kChord_mm = 0.01;  // between a pilot's circle and its chords

Polygon circle(const Vec2& centre, double radius_mm) {
    const int chords = std::clamp(
        static_cast<int>(std::ceil(std::numbers::pi / std::acos(1 - std::min(0.5, kChord_mm / radius_mm)))), 24, 360);
    Polygon polygon;
    for (int i = 0; i < chords; ++i) {
        const double angle = 2 * std::numbers::pi * i / chords;
        polygon.push_back(centre + radius_mm * Vec2(std::cos(angle), std::sin(angle)));
    }
    return polygon;
}

}  // namespace

CutPlan cutPlan(const Part& part, const Cutting& cutting) { return Planner(part, cutting).run(); }

Region cutRegion(const Part& part, const CutPlan& plan) {
    std::vector<bool> drilled(part.blank.holes.size(), false);
    Region region{part.blank.outline, {}};
    for (const DrilledHole& hole : plan.drilled) {
        if (const auto index = holeOf(part, part.cut_outs[hole.cut_out])) drilled[*index] = true;
    }
    for (std::size_t i = 0; i < drilled.size(); ++i) {
        if (!drilled[i]) region.holes.push_back(part.blank.holes[i]);
    }
    for (const DrilledHole& hole : plan.drilled) {
        if (hole.cut_pilot_mm) region.holes.push_back(circle(hole.centre, 0.5 * *hole.cut_pilot_mm));
    }
    return region;
}

}  // namespace tinwright
