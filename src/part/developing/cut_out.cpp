// SPDX-License-Identifier: GPL-3.0-or-later
#include "developing/cut_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include <tinwright/geometry/box.h>
#include <tinwright/geometry/cross.h>

#include "developing/corner_cut.h"

namespace tinwright {

namespace {

// Two datum edges that are nearer to parallel than this (about 6°) fix no point.
constexpr double kLeastCross = 0.1;
// Overlaps under this area are rounding.
constexpr double kOverlap_mm2 = 1e-4;

class CutterPlacer {
public:
    CutterPlacer(const Recipe& recipe, const Layout& layout, std::vector<std::string>& warnings, Issues& issues)
        : recipe_(recipe), layout_(layout), warnings_(warnings), issues_(issues) {}

    std::vector<Cutter> run() {
        for (const CutOut& cut : recipe_.cut_outs) addCutOut(cut);
        for (const Corner& corner : recipe_.corners) addRelief(corner);
        return std::move(cutters_);
    }

private:
    void report(const char* what, const std::string& place, std::string found, std::string expected,
                std::string hint = {}) {
        issues_.push_back({std::string("recipe.") + what, recipe_.file, place, std::move(found), std::move(expected),
                           std::move(hint)});
    }
    double datumLine(const CutOut& cut, std::size_t panel, const CutOutPlace& at);
    double faceSetback(std::size_t panel, std::size_t edge, const CutOutPlace& at);
    double blankLine(std::size_t panel, const Segment& edge, std::size_t index) const;
    void addCutOut(const CutOut& cut);
    void checkReach(const CutOut& cut, std::size_t panel, Cutter& cutter);
    void spread(std::size_t from, Cutter& cutter) const;
    void warnOfStrips(const CutOut& cut, const Cutter& cutter);
    void addRelief(const Corner& corner);

    const Recipe& recipe_;
    const Layout& layout_;
    std::vector<std::string>& warnings_;
    Issues& issues_;
    std::vector<Cutter> cutters_;
};

// How far the named face stands out from the panel's edge.
double CutterPlacer::faceSetback(std::size_t panel, std::size_t edge, const CutOutPlace& at) {
    const Measured how = at.datum == Datum::kInside ? Measured::kInside : Measured::kOutside;
    if (panel != kBasePanel && edge == kNearEdge) {
        const Flange& flange = recipe_.flanges[panel - 1];
        const Face face = at.datum == Datum::kInside ? Face::kInside : Face::kOutside;
        return setback_mm(face, bendAngle(flange), bendRadius_mm(recipe_, flange), recipe_.sheet.thickness_mm);
    }
    if (layout_.tree.flangesOn({panel, edge}).empty()) {
        report("cut-out.datum", at.place, "a face of a flange at edge " + at.edge + ", which carries none",
               "\"edge\" or \"blank\"");
        return 0;
    }
    return edgeSetback_mm(recipe_, layout_.tree, {panel, edge}, how, at.place, issues_);
}

// How far out the flat blank goes over that edge.
double CutterPlacer::blankLine(std::size_t panel, const Segment& edge, std::size_t index) const {
    const Vec2 out = edge.outward();
    double line = out.dot(edge.from);
    for (std::size_t other = 0; other < layout_.panels.size(); ++other) {
        bool beyond = false;
        if (panel != kBasePanel && index == kNearEdge) {
            beyond = !layout_.tree.isUnder(other, panel);
        } else {
            for (const std::size_t flange : layout_.tree.flangesOn({panel, index}))
                beyond |= layout_.tree.isUnder(other, flange + 1);
        }
        if (!beyond) continue;
        for (const Vec2& point : layout_.panels[other].outline) line = std::max(line, out.dot(point));
    }
    return line;
}

// The datum as a line: outward · point = value.
double CutterPlacer::datumLine(const CutOut& cut, std::size_t panel, const CutOutPlace& at) {
    const std::size_t index = *findEdge(recipe_, panel, at.edge);
    const Segment& edge = layout_.panels[panel].edges[index];
    const double line = edge.outward().dot(edge.from);
    switch (at.datum) {
        case Datum::kInside:
        case Datum::kOutside: return line + faceSetback(panel, index, at);
        case Datum::kBlank: return blankLine(panel, edge, index);
        case Datum::kEdge: break;
    }
    double bent = panel != kBasePanel && index == kNearEdge ? edge.length() : 0;
    for (const std::size_t flange : layout_.tree.flangesOn({panel, index}))
        bent += layout_.bends[flange].to_mm - layout_.bends[flange].from_mm;
    if (bent > edge.length() - 1e-3) {
        report("cut-out.datum", at.place, "edge " + at.edge + " of " + cut.on + ", all of which is a bend",
               "\"inside\" or \"outside\" face of the flange there, or \"blank\"");
    }
    return line;
}

void CutterPlacer::addCutOut(const CutOut& cut) {
    const std::size_t panel = *findPanel(recipe_, cut.on);
    const PanelLayout& layout = layout_.panels[panel];
    Vec2 normal[2];
    double value[2];
    for (int i = 0; i < 2; ++i) {
        normal[i] = layout.edges[*findEdge(recipe_, panel, cut.at[i].edge)].outward();
        const Vec2 local(normal[i].dot(layout.u), normal[i].dot(layout.v));
        value[i] = datumLine(cut, panel, cut.at[i]) - cut.at[i].distance.value_mm;
        if (cut.at[i].to == To::kNearSide) value[i] -= cutOutReach_mm(cut, local);
        if (cut.at[i].to == To::kFarSide) value[i] += cutOutReach_mm(cut, -local);
    }
    const double det = cross(normal[0], normal[1]);
    if (std::abs(det) < kLeastCross) {
        return report("cut-out.from", cut.place + "/at",
                      "edges " + cut.at[0].edge + " and " + cut.at[1].edge + ", which are parallel",
                      "two edges that cross");
    }
    const Vec2 centre((value[0] * normal[1].y() - value[1] * normal[0].y()) / det,
                      (normal[0].x() * value[1] - normal[1].x() * value[0]) / det);
    Cutter cutter;
    cutter.cut_out = static_cast<std::size_t>(&cut - recipe_.cut_outs.data());
    for (const Vec2& point : cutOutShape(cut))
        cutter.polygon.push_back(centre + point.x() * layout.u + point.y() * layout.v);
    std::string why;
    if (!isValid({cutter.polygon, {}}, &why))
        return report("cut-out.shape", cut.place, "a shape that crosses itself: " + why, "a simple shape");
    checkReach(cut, panel, cutter);
}

// Panels and strips that the hole reaches from its own panel through the bends it crosses.
void CutterPlacer::spread(std::size_t from, Cutter& cutter) const {
    cutter.panels = {from};
    for (std::size_t next = 0; next < cutter.panels.size(); ++next) {
        const std::size_t panel = cutter.panels[next];
        for (std::size_t flange = 0; flange < layout_.bends.size(); ++flange) {
            const std::size_t parent = layout_.tree.on[flange].panel;
            if (parent != panel && flange + 1 != panel) continue;
            if (std::find(cutter.strips.begin(), cutter.strips.end(), flange) != cutter.strips.end()) continue;
            if (sharedArea_mm2(cutter.polygon, layout_.strip(flange)) < kOverlap_mm2) continue;
            cutter.strips.push_back(flange);
            const std::size_t other = parent == panel ? flange + 1 : parent;
            const bool known = std::find(cutter.panels.begin(), cutter.panels.end(), other) != cutter.panels.end();
            if (!known && sharedArea_mm2(cutter.polygon, layout_.panels[other].outline) > kOverlap_mm2)
                cutter.panels.push_back(other);
        }
    }
}

void CutterPlacer::checkReach(const CutOut& cut, std::size_t panel, Cutter& cutter) {
    if (sharedArea_mm2(cutter.polygon, layout_.panels[panel].outline) < kOverlap_mm2) {
        return report("cut-out.off-panel", cut.place, "a cut-out that lies wholly off panel " + cut.on,
                      "a place on the panel");
    }
    spread(panel, cutter);
    double outside = signedArea_mm2(cutter.polygon);
    for (std::size_t other = 0; other < layout_.panels.size(); ++other) {
        const double shared = sharedArea_mm2(cutter.polygon, layout_.panels[other].outline);
        outside -= shared;
        if (shared < kOverlap_mm2 ||
            std::find(cutter.panels.begin(), cutter.panels.end(), other) != cutter.panels.end())
            continue;
        report("cut-out.reaches", cut.place, "a cut-out that also cuts panel " + panelName(recipe_, other),
               "one that stays on its panel, or goes on over the bend between");
    }
    for (const std::size_t strip : cutter.strips) outside -= sharedArea_mm2(cutter.polygon, layout_.strip(strip));
    if (outside > 10 * kOverlap_mm2 && !cut.notch) {
        report("cut-out.off-sheet", cut.place, fmt::format("a cut-out of which {:.2f} mm2 lie off the sheet", outside),
               "one that lies on the sheet", "say \"notch\": true when it is meant to run out over a free edge");
    }
    cutter.off_sheet_mm2 = outside;
    warnOfStrips(cut, cutter);
    cutters_.push_back(std::move(cutter));
}

void CutterPlacer::warnOfStrips(const CutOut& cut, const Cutter& cutter) {
    const auto cuts = [&](std::size_t panel) {
        return std::find(cutter.panels.begin(), cutter.panels.end(), panel) != cutter.panels.end();
    };
    for (const std::size_t strip : cutter.strips) {
        if (cuts(strip + 1) && cuts(layout_.tree.on[strip].panel)) continue;
        warnings_.push_back(
            fmt::format("cut-out {} runs into bend {} without crossing it: it will be pulled out of shape",
                        cut.name.empty() ? cut.place : cut.name, recipe_.flanges[strip].name));
    }
}

// The relief is centred where the starts of both bends meet: the corner of the parent's flat.
void CutterPlacer::addRelief(const Corner& corner) {
    const std::optional<Polygon> relief = cornerRelief(recipe_, layout_, corner);
    if (!relief) return;
    const CornerPlace place = cornerPlace(recipe_, layout_, corner);
    Cutter cutter;
    cutter.polygon = *relief;
    cutter.panels = {place.parent, place.first + 1, place.second + 1};
    cutter.strips = {place.first, place.second};
    cutters_.push_back(std::move(cutter));
}

}  // namespace

double sharedArea_mm2(const Polygon& a, const Polygon& b) {
    if (boxOf(a).intersection(boxOf(b)).isEmpty()) return 0;
    double left = signedArea_mm2(a);
    for (const Region& rest : difference({a, {}}, {b})) left -= area_mm2(rest);
    return left;
}

std::vector<Cutter> placeCutters(const Recipe& recipe, const Layout& layout, std::vector<std::string>& warnings,
                                 Issues& issues) {
    return CutterPlacer(recipe, layout, warnings, issues).run();
}

}  // namespace tinwright
