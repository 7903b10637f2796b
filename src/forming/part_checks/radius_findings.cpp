// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/metal/bending.h>
#include <tinwright/forming/metal/least_radius.h>

#include "checks/checks.h"
#include "metal/press_vee.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kSameRadius_mm = 1e-6;

Grain grainOf(const Part& part, const Bend& bend) {
    if (!part.grain_deg) return Grain::kUnsaid;
    const SinCos grain = sinCos(Angle::degrees(*part.grain_deg));
    const double cosine = std::abs(bend.along.dot(Vec2(grain.cos, grain.sin)));
    return cosine > 0.5 * std::sqrt(2.0) - 1e-9 ? Grain::kAlong : Grain::kAcross;
}

/// EN 10130 sheet is made to be drawn: DIN's figure is caution there, not the point at which it cracks.
bool isDrawingSteel(const Material& material) { return material.id.starts_with("dc"); }

struct Judged {
    Severity severity;
    LeastRadius least;
    bool knows_grain;    ///< the table has a value for each rolling direction
    bool passes_across;  ///< and lets the radius pass across it
};

/// What the tables say against a radius; nothing when they let it pass or have no value.
std::optional<Judged> judged(const Material& material, double thickness_mm, double radius_mm, Grain grain,
                             Angle angle) {
    const auto table = leastRadius(material, thickness_mm, grain, angle);
    const auto soft = softestLeastRadius(material, thickness_mm);
    const bool under_soft = soft && radius_mm < soft->radius_mm - kSameRadius_mm;
    if (table && radius_mm < table->radius_mm - kSameRadius_mm) {
        const auto across = leastRadius(material, thickness_mm, Grain::kAcross, angle);
        const bool passes = across && radius_mm >= across->radius_mm - kSameRadius_mm;
        return Judged{!under_soft && isDrawingSteel(material) ? Severity::kNote : Severity::kWarning, *table,
                      material.family == "steel", passes};
    }
    if (!table && under_soft) return Judged{Severity::kWarning, *soft, false, false};
    return std::nullopt;
}

std::string grainWords(Grain grain) {
    switch (grain) {
        case Grain::kAlong: return "along the rolling direction";
        case Grain::kAcross: return "across the rolling direction";
        case Grain::kUnsaid: return "if it lies across the rolling direction, which the part does not say";
    }
    return {};
}

Finding findingOf(const Part& part, const Bend& bend, const Judged& judged, Grain grain) {
    Finding finding = startFinding("radius.small", judged.severity, "");
    finding.figures = {{"radius_mm", bend.inside_radius_mm, judged.least.radius_mm}};
    finding.words = fmt::format(
        "inside radius {} mm in {} mm {} is under {} mm ({}{}{}): {}", millimetres(bend.inside_radius_mm),
        millimetres(part.thickness_mm), part.material, millimetres(judged.least.radius_mm), judged.least.source,
        judged.least.is_analogue ? ", nearest alloy" : "", judged.knows_grain ? ", " + grainWords(grain) : "",
        judged.severity == Severity::kNote ? "soft drawing steel takes it as a rule, a hard or old sheet may not"
                                           : "the outside may crack");
    if (grain == Grain::kAlong && judged.passes_across)
        finding.remedies.push_back("turn the blank on the sheet, so that the bend lies across the rolling direction");
    finding.remedies.push_back(
        bend.hem ? fmt::format("a hem that stays open by {} mm or more", millimetres(2 * judged.least.radius_mm))
                 : fmt::format("an inside radius of {} mm or more", millimetres(judged.least.radius_mm)));
    finding.remedies.push_back("a trial strip of the same sheet: look for cracks on the outside");
    return finding;
}

void note(const Part& part, std::vector<Finding>& findings) {
    Finding finding = startFinding("radius.unknown", Severity::kNote, part.material);
    finding.words = fmt::format(
        "the tables have no least bend radius for {} mm {}: fold a trial strip and look for cracks on its outside",
        millimetres(part.thickness_mm), part.material);
    findings.push_back(std::move(finding));
}

}  // namespace

void addLeastRadii(const Part& part, const Material* material, std::vector<Finding>& findings) {
    if (!material) return;
    std::vector<Finding> found;
    bool unknown = false;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        const Grain grain = grainOf(part, bend);
        if (!leastRadius(*material, part.thickness_mm, grain, bend.angle) && material->family != "stainless")
            unknown = true;
        const auto judgement = judged(*material, part.thickness_mm, bend.inside_radius_mm, grain, bend.angle);
        if (!judgement) continue;
        Finding finding = findingOf(part, bend, *judgement, grain);
        auto same = std::find_if(found.begin(), found.end(),
                                 [&](const Finding& other) { return other.words == finding.words; });
        if (same == found.end()) same = found.insert(found.end(), std::move(finding));
        same->bends.push_back(idAt<BendId>(i));
    }
    for (Finding& finding : found) finding.feature = bendsFeature(part, finding.bends);
    findings.insert(findings.end(), found.begin(), found.end());
    if (unknown) note(part, findings);
}

namespace {

/// Bends that the tables let pass as drawn, and do not with the radius that they get.
struct TooSharp {
    std::vector<BendId> bends;
    double wanted_mm = 0;
};

TooSharp sharperThanDrawn(const Part& part, const Material& material, double radius_mm) {
    TooSharp sharp;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        const Grain grain = grainOf(part, bend);
        if (judged(material, part.thickness_mm, bend.inside_radius_mm, grain, bend.angle))
            continue;  // said for the part
        const auto judgement = judged(material, part.thickness_mm, radius_mm, grain, bend.angle);
        if (!judgement || judgement->severity == Severity::kNote) continue;
        sharp.bends.push_back(idAt<BendId>(i));
        sharp.wanted_mm = std::max(sharp.wanted_mm, judgement->least.radius_mm);
    }
    return sharp;
}

}  // namespace

void addNoseRadius(const Part& part, const Material* material, const BrakeInSetup& brake,
                   std::vector<Finding>& findings) {
    if (!material) return;
    const TooSharp sharp = sharperThanDrawn(part, *material, brake.inside_radius_mm());
    if (sharp.bends.empty()) return;
    Finding finding = startFinding("radius.nose", Severity::kWarning, bendNames(part, sharp.bends), sharp.bends);
    finding.figures = {{"nose_radius_mm", brake.inside_radius_mm(), sharp.wanted_mm}};
    finding.words = fmt::format(
        "the nose of the bars has a radius of {} mm, and the bend takes it: under {} mm {} may crack, whatever radius "
        "is drawn",
        millimetres(brake.inside_radius_mm()), millimetres(sharp.wanted_mm), part.material);
    finding.remedies = {
        "a packing strip or a nose piece that makes the radius larger; draw the part with the radius that it gives"};
    findings.push_back(std::move(finding));
}

void addVeeRadius(const Part& part, const Material* material, const BrakeInSetup& brake,
                  std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!material || !vee) return;
    const TooSharp sharp = sharperThanDrawn(part, *material, brake.inside_radius_mm());
    if (sharp.bends.empty()) return;
    Finding finding = startFinding("radius.vee", Severity::kWarning, bendsFeature(part, sharp.bends), sharp.bends);
    finding.figures = {{"inside_radius_mm", brake.inside_radius_mm(), sharp.wanted_mm}};
    finding.words = fmt::format("{}: under {} mm {} may crack, whatever radius is drawn", radiusWords(brake, *vee),
                                millimetres(sharp.wanted_mm), part.material);
    const bool air = brake->press().mode == PressMode::kAirBending;
    const auto round_enough = [&](const Vee& wider) {
        return air && airBendRadius_mm(wider.opening_mm) >= sharp.wanted_mm;
    };
    if (const auto wider = widerVee(*brake, *vee, part.thickness_mm, round_enough))
        finding.remedies.push_back(fmt::format("a V of {}", millimetres(wider->opening_mm)));
    finding.remedies.push_back(fmt::format("a punch with a tip of {} mm or more", roundedUp(sharp.wanted_mm)));
    findings.push_back(std::move(finding));
}

}  // namespace tinwright::forming
