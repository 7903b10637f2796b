// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "measures/flat_depth.h"
#include "rules/wording.h"
#include "webs/way.h"

namespace tinwright::forming {

namespace {

const NamedCutOut& cutOutOf(const Part& part, const Leg& leg, const WebTrouble& trouble) {
    return part.cut_outs[leg.cut_outs[trouble.cut_out].index];
}

std::string swungWords(const Part& part, const Way& way) {
    const WebTrouble& trouble = *way.when_swung;
    const WebSection& section = *trouble.section;
    const std::string cut_out = cutOutOf(part, way.swung, trouble).name;
    const std::string& panel = part.panel(way.swung.panel).name;
    const std::string& bend = part.bend(way.bend).name;
    if (trouble.id == "web.bows") {
        return fmt::format(
            "{} bows by about {} beside {} when {} is folded with it on the leaf: the webs yield in part, {:.2g} times "
            "their first yield",
            panel, degrees(trouble.bow), cut_out, bend, 1.5 * section.ratio());
    }
    return fmt::format(
        "{} {} at {}, {} mm from bend {}, when it is swung: {} mm of web out of {} mm carry only {:.0f} % of the "
        "moment there, and the window opens up",
        panel, trouble.severity == Severity::kFault ? "folds" : "may fold", cut_out, millimetres(distance_mm(section)),
        bend, millimetres(section.net_mm), millimetres(section.gross_mm), 100 / section.ratio());
}

Finding swungFinding(const Part& part, const Way& way, const std::optional<Strength>& strength, Cures cures) {
    const WebTrouble& trouble = *way.when_swung;
    const NamedCutOut& cut_out = cutOutOf(part, way.swung, trouble);
    Finding finding = startFinding(trouble.id, trouble.severity, cut_out.name, {way.bend});
    finding.words = swungWords(part, way);
    finding.figures = sectionFigures(*trouble.section, strength, part.thickness_mm);
    finding.section = sectionOnBlank(way.swung, *trouble.section);
    if (trouble.bow.deg() > 0) finding.figures.push_back({"bow_deg", trouble.bow.deg(), kBowWarned_deg});
    if (trouble.severity != Severity::kNote && cures == Cures::kFind)
        addWebCures(part, way.swung, trouble, way.bend, way.side, way.swing_again, finding);
    return finding;
}

Finding heldFinding(const Part& part, const Way& way, double land_mm, Cures cures) {
    const WebTrouble& trouble = *way.when_held;
    const NamedCutOut& cut_out = cutOutOf(part, way.held, trouble);
    const Box box = boxOf(way.held.cut_outs[trouble.cut_out].outline);
    Finding finding = startFinding(trouble.id, trouble.severity, cut_out.name, {way.bend});
    finding.section =
        std::array<Vec2, 2>{way.held.toBlank(box.min()), way.held.toBlank({box.max().x(), box.min().y()})};
    finding.words = fmt::format(
        "only {} mm of {} lie under the nose before {} when {} is folded (wanted: {}): that strip twists into the "
        "window",
        millimetres(trouble.land_mm), part.panel(way.held.panel).name, cut_out.name, part.bend(way.bend).name,
        millimetres(land_mm));
    finding.figures = {{"land_mm", trouble.land_mm, land_mm}, {"window_mm", box.max().x() - box.min().x(), {}}};
    if (cures == Cures::kFind)
        addWebCures(part, way.held, trouble, way.bend, opposite(way.side), way.hold_again, finding);
    return finding;
}

void addWay(const Part& part, const Way& way, const std::optional<Strength>& strength, const WebTools& tools,
            Cures cures, std::vector<Finding>& findings) {
    if (way.when_swung) findings.push_back(swungFinding(part, way, strength, cures));
    if (way.when_held) findings.push_back(heldFinding(part, way, tools.land_mm, cures));
}

/// The other way round works: say which side to hold. One note for all bends of a panel that a cut-out weakens.
void addHoldNote(const Part& part, const Way& bad, const std::optional<Strength>& strength,
                 std::vector<Finding>& findings) {
    const bool swung = bad.when_swung && bad.when_swung->severity != Severity::kNote;
    const Leg& leg = swung ? bad.swung : bad.held;
    const std::string& cut_out = cutOutOf(part, leg, swung ? *bad.when_swung : *bad.when_held).name;
    const std::string& keep = part.panel(bad.swung.panel).name;
    for (Finding& finding : findings) {
        if (finding.id != "web.hold" || finding.feature != cut_out || !finding.words.starts_with("hold " + keep + " "))
            continue;
        finding.bends.push_back(bad.bend);
        return;
    }
    Finding finding = startFinding("web.hold", Severity::kNote, cut_out, {bad.bend});
    finding.words = fmt::format(
        "hold {} under the bars for the folds beside {}: {}", keep, cut_out,
        swung ? "swung by the leaf it would fold or bow there" : "the other side has too little land before it");
    if (swung) {
        finding.figures = sectionFigures(*bad.when_swung->section, strength, part.thickness_mm);
        finding.section = sectionOnBlank(leg, *bad.when_swung->section);
    }
    findings.push_back(std::move(finding));
}

}  // namespace

WebTools leafOf(const Shop& shop, const BrakeInSetup& brake, const LeafFace& face) {
    return {brake.setback_mm() + face.reach_mm, shop.limits.clamped_land_mm};
}

WebTools leafOf(const Shop& shop, const BrakeInSetup& brake) {
    return leafOf(shop, brake, brake->leaf().leaf_faces.front());
}

void addWebs(const Part& part, const Material* material, const WebTools& tools, Cures cures,
             std::vector<Finding>& findings) {
    if (part.cut_outs.empty()) return;
    const std::optional<Strength> strength = strengthOf(material);
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Way child = wayOf(part, strength, tools, idAt<BendId>(i), Side::kChild);
        const Way parent = wayOf(part, strength, tools, idAt<BendId>(i), Side::kParent);
        const Way& better = parent.badness() < child.badness() ? parent : child;
        const Way& worse = &better == &parent ? child : parent;
        if (better.badness() >= kBadWay || worse.badness() < kBadWay) {
            addWay(part, better, strength, tools, cures, findings);
        } else {
            addHoldNote(part, worse, strength, findings);
        }
    }
}

void addSwungWebs(const FoldAsked& asked, std::vector<Finding>& findings) {
    if (asked.part.cut_outs.empty()) return;
    const std::optional<Strength> strength = strengthOf(asked.material);
    WebTools tools = leafOf(asked.shop, asked.brake);
    for (const LeafFace& face : asked.brake->leaf().leaf_faces) {
        if (face.name == asked.step.leaf_face) tools = leafOf(asked.shop, asked.brake, face);
    }
    for (const BendId bend : bendsIn(asked.step.stroke.bends)) {
        const Way way = wayOf(asked.part, strength, tools, bend, opposite(heldSide(asked, bend)));
        if (way.badness() >= kBadWay) addWay(asked.part, way, strength, tools, asked.cures, findings);
    }
}

}  // namespace tinwright::forming
