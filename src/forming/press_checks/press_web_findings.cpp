// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/metal/press_bend.h>

#include "metal/press_vee.h"
#include "rules/wording.h"
#include "webs/web_trouble.h"

namespace tinwright::forming {

namespace {

/// From the bend line to where the sheet bears on a shoulder, at the farthest in the stroke: the longest lever of its
/// force.
double bearing_mm(const Part& part, const Bend& bend, const Vee& vee, double strip_mm) {
    return std::max(0.5 * vee.opening_mm,
                    strip_mm + pressLeastFlat_mm(vee, bend.angle, bend.inside_radius_mm, part.thickness_mm));
}

std::string wordsOf(const Part& part, const Leg& leg, BendId bend, const WebTrouble& trouble, double bearing) {
    const WebSection& section = *trouble.section;
    const std::string& cut_out = part.cut_outs[leg.cut_outs[trouble.cut_out].index].name;
    const std::string& panel = part.panel(leg.panel).name;
    const std::string& name = part.bend(bend).name;
    if (trouble.id == "web.bows") {
        return fmt::format(
            "{} bows by about {} beside {} when bend {} is pressed: the webs yield in part, {:.2g} times their first "
            "yield",
            panel, degrees(trouble.bow), cut_out, name, 1.5 * section.ratio());
    }
    return fmt::format(
        "{} {} at {}, {} mm from bend {}: {} mm of web out of {} mm carry only {:.0f} % of the moment there, with the "
        "shoulder of the V {} mm out",
        panel, trouble.severity == Severity::kFault ? "folds" : "may fold", cut_out, millimetres(distance_mm(section)),
        name, millimetres(section.net_mm), millimetres(section.gross_mm), 100 / section.ratio(), millimetres(bearing));
}

/// A narrower V has a shorter lever.
std::optional<Vee> curingVee(const Part& part, const BrakeInSetup& brake, const Vee& vee, const Bend& bend,
                             const Leg& leg, double hardening, const std::optional<Strength>& strength) {
    return narrowerVee(*brake, vee, part.thickness_mm, [&](const Vee& narrower) {
        const auto left =
            swungTrouble(leg, {bearing_mm(part, bend, narrower, leg.strip_mm), hardening, part.thickness_mm}, strength);
        return !left || left->severity == Severity::kNote;
    });
}

void addLeg(const Part& part, const BrakeInSetup& brake, const Vee& vee, BendId id, Side side,
            const std::optional<Strength>& strength, Cures cures, std::vector<Finding>& findings) {
    const Bend& bend = part.bend(id);
    const Leg leg = legOf(part, id, side);
    const double hardening = strength ? strength->hardening() : 1;
    const LegLoad load{bearing_mm(part, bend, vee, leg.strip_mm), hardening, part.thickness_mm};
    const std::optional<WebTrouble> trouble = swungTrouble(leg, load, strength);
    if (!trouble) return;
    const NamedCutOut& cut_out = part.cut_outs[leg.cut_outs[trouble->cut_out].index];
    Finding finding = startFinding(trouble->id, trouble->severity, cut_out.name, {id});
    finding.words = wordsOf(part, leg, id, *trouble, load.leaf_mm);
    finding.figures = sectionFigures(*trouble->section, strength, part.thickness_mm);
    finding.section = sectionOnBlank(leg, *trouble->section);
    if (trouble->bow.deg() > 0) finding.figures.push_back({"bow_deg", trouble->bow.deg(), kBowWarned_deg});
    if (trouble->severity != Severity::kNote && cures == Cures::kFind) {
        addWebCures(
            part, leg, *trouble, id, side, [&](const Leg& changed) { return swungTrouble(changed, load, strength); },
            finding);
        if (const auto narrower = curingVee(part, brake, vee, bend, leg, hardening, strength))
            finding.remedies.insert(finding.remedies.begin(),
                                    fmt::format("a V of {}", millimetres(narrower->opening_mm)));
    }
    findings.push_back(std::move(finding));
}

}  // namespace

void addVeeWebs(const Part& part, const Material* material, const BrakeInSetup& brake, Cures cures,
                std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!vee || part.cut_outs.empty()) return;
    const std::optional<Strength> strength = strengthOf(material);
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        for (const Side side : {Side::kChild, Side::kParent})
            addLeg(part, brake, *vee, idAt<BendId>(i), side, strength, cures, findings);
    }
}

}  // namespace tinwright::forming
