// SPDX-License-Identifier: GPL-3.0-or-later
#include "developing/layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tinwright {

namespace {

// Nothing shorter than this is a length of sheet.
constexpr double kNoLength_mm = 1e-6;

struct Extent {
    double from_mm = 0;
    double to_mm = 0;
};

// Where a strip ends, from the end of its parent's edge, when its panel ends `panel_mm` from there. At a corner a panel
// that reaches a little past the edge would make a step that nobody can cut: the strip then is drawn back to make it
// one.
double stripEnd_mm(double panel_mm, bool at_corner) {
    if (at_corner && panel_mm < -kNoLength_mm && panel_mm > -kShortestCut_mm - kNoLength_mm)
        return kCutStep_mm + panel_mm;
    return std::max(0.0, panel_mm);
}

class LayoutMaker {
public:
    LayoutMaker(const Recipe& recipe, Issues& issues) : recipe_(recipe), issues_(issues) {}
    Layout run();

private:
    void report(const char* what, const std::string& place, std::string found, std::string expected,
                std::string hint = {}) {
        issues_.push_back({std::string("recipe.") + what, recipe_.file, place, std::move(found), std::move(expected),
                           std::move(hint)});
    }
    double setback(EdgeRef edge, Measured how, const std::string& place) {
        return edgeSetback_mm(recipe_, layout_.tree, edge, how, place, issues_);
    }
    // Of a flange's own bend, whatever else shares its edge.
    double ownSetback(const Flange& flange, Measured how) const {
        if (how == Measured::kFlat) return 0;
        return setback_mm(how == Measured::kInside ? Face::kInside : Face::kOutside, bendAngle(flange),
                          bendRadius_mm(recipe_, flange), recipe_.sheet.thickness_mm);
    }
    void allowances();
    void place(std::size_t flange);
    double flatLength(std::size_t flange);
    double offset(const Dimension& dimension, std::size_t flange, bool left);
    Extent extent(std::size_t flange, double edge_mm);
    Extent extentOfWidth(std::size_t flange, double edge_mm);
    void outline(std::size_t flange, Extent extent, double length_mm);

    const Recipe& recipe_;
    Issues& issues_;
    Layout layout_;
    std::vector<CornerReach> reaches_;
};

void LayoutMaker::allowances() {
    for (std::size_t i = 0; i < recipe_.flanges.size(); ++i) {
        const Flange& flange = recipe_.flanges[i];
        const auto allowance = allowanceFor(recipe_.allowance, bendAngle(flange), bendRadius_mm(recipe_, flange),
                                            recipe_.sheet.thickness_mm, flange.place, recipe_.sheet.material);
        if (!allowance) {
            for (Issue issue : allowance.issues()) {
                issue.file = recipe_.file;
                issues_.push_back(std::move(issue));
            }
            continue;
        }
        layout_.bends[i].allowance_mm = allowance.value().allowance_mm;
        layout_.bends[i].rule = allowance.value().rule;
        layout_.bends[i].rule_value = allowance.value().rule_value;
        layout_.bends[i].rule_source = allowance.value().rule_source;
        if (!allowance.value().warning.empty())
            layout_.warnings.push_back("bend " + flange.name + ": " + allowance.value().warning);
    }
}

double LayoutMaker::flatLength(std::size_t i) {
    const Flange& flange = recipe_.flanges[i];
    const Measured how = measuredHow(recipe_, flange.length, flange.measured);
    const double taken = ownSetback(flange, how) + setback({i + 1, 2}, how, flange.length.place);
    const double flat = flange.length.value_mm - taken;
    if (!(flat > kNoLength_mm)) {
        report("flat-length", flange.length.place, fmt::format("{} mm", flange.length.value_mm),
               fmt::format("more than the {:.3f} mm that its bends take", taken),
               "the flange is shorter than its own bend");
        return 1.0;  // something to go on with: the issue is said
    }
    return flat;
}

// From the end of the parent's flat edge; "inside" and "outside" count from the flange at that end.
double LayoutMaker::offset(const Dimension& dimension, std::size_t i, bool left) {
    if (dimension.measured == Measured::kUnsaid || dimension.measured == Measured::kFlat) return dimension.value_mm;
    const EdgeRef on = layout_.tree.on[i];
    const auto& edges = layout_.panels[on.panel].edges;
    const std::size_t beside = (on.edge + (left ? 1 : edges.size() - 1)) % edges.size();
    const double sine = std::abs(edges[on.edge].along().dot(edges[beside].outward()));
    return sine < 0.17 ? dimension.value_mm
                       : dimension.value_mm - setback({on.panel, beside}, dimension.measured, dimension.place) / sine;
}

Extent LayoutMaker::extentOfWidth(std::size_t i, double edge_mm) {
    const Flange& flange = recipe_.flanges[i];
    const Measured how = measuredHow(recipe_, flange.width, flange.measured);
    const double width = flange.width.value_mm - setback({i + 1, 1}, how, flange.width.place) -
                         setback({i + 1, 3}, how, flange.width.place);
    Extent extent{0.5 * (edge_mm - width), 0.5 * (edge_mm + width)};
    if (flange.from_left.given) {
        extent.from_mm = offset(flange.from_left, i, true);
        extent.to_mm = extent.from_mm + width;
    } else if (flange.from_right.given) {
        extent.to_mm = edge_mm - offset(flange.from_right, i, false);
        extent.from_mm = extent.to_mm - width;
    }
    if (reaches_[i].has_left || reaches_[i].has_right) {
        report("corner", flange.width.place, "a flange with a width at a corner",
               "from_left and from_right, which leave the corner its end");
    }
    if (extent.from_mm < -kNoLength_mm || extent.to_mm > edge_mm + kNoLength_mm) {
        report("off-edge", flange.width.place,
               fmt::format("{:.3f} to {:.3f} mm along {}", extent.from_mm, extent.to_mm, flange.on),
               fmt::format("to stay within its {:.3f} mm", edge_mm));
    }
    return extent;
}

Extent LayoutMaker::extent(std::size_t i, double edge_mm) {
    const Flange& flange = recipe_.flanges[i];
    if (flange.width.given) return extentOfWidth(i, edge_mm);
    Extent extent{-reaches_[i].left_mm, edge_mm + reaches_[i].right_mm};
    if (flange.from_left.given) extent.from_mm += offset(flange.from_left, i, true);
    if (flange.from_right.given) extent.to_mm -= offset(flange.from_right, i, false);
    if (!reaches_[i].has_left && extent.from_mm < -kNoLength_mm) {
        report("off-edge", flange.from_left.place, fmt::format("{:.3f} mm before the edge starts", -extent.from_mm),
               "a start on the edge");
    }
    if (!reaches_[i].has_right && extent.to_mm > edge_mm + kNoLength_mm) {
        report("off-edge", flange.from_right.place, fmt::format("{:.3f} mm past the edge", extent.to_mm - edge_mm),
               "an end on the edge");
    }
    return extent;
}

void LayoutMaker::outline(std::size_t i, Extent extent, double length_mm) {
    const Flange& flange = recipe_.flanges[i];
    PanelLayout& panel = layout_.panels[i + 1];
    const BendLayout& bend = layout_.bends[i];
    const double left = extent.from_mm + length_mm * std::tan(Angle::degrees(flange.left_mitre_deg).rad());
    const double right = extent.to_mm - length_mm * std::tan(Angle::degrees(flange.right_mitre_deg).rad());
    if (!(right - left > kNoLength_mm)) {
        report("flat-length", flange.place,
               fmt::format("mitres that meet before the far edge ({:.3f} mm left)", right - left), "a far edge over 0",
               "less mitre, or a shorter flange");
    }
    const auto at = [&](double u, double v) -> Vec2 {
        return bend.origin + u * panel.u + (bend.allowance_mm + v) * panel.v;
    };
    panel.outline = {at(extent.from_mm, 0), at(extent.to_mm, 0), at(right, length_mm), at(left, length_mm)};
    for (std::size_t k = 0; k < 4; ++k) panel.edges.push_back({panel.outline[k], panel.outline[(k + 1) % 4]});
}

void LayoutMaker::place(std::size_t i) {
    const Segment& edge = layout_.panels[layout_.tree.on[i].panel].edges[layout_.tree.on[i].edge];
    PanelLayout& panel = layout_.panels[i + 1];
    BendLayout& bend = layout_.bends[i];
    panel.v = edge.outward();
    panel.u = -edge.along();
    bend.origin = edge.to;
    bend.edge_mm = edge.length();
    const double length = flatLength(i);
    const Extent span = extent(i, bend.edge_mm);
    bend.from_mm = stripEnd_mm(span.from_mm, reaches_[i].has_left);
    bend.to_mm = bend.edge_mm - stripEnd_mm(bend.edge_mm - span.to_mm, reaches_[i].has_right);
    if (!(bend.to_mm - bend.from_mm > kNoLength_mm)) {
        report("flat-length", recipe_.flanges[i].place, fmt::format("a bend {:.3f} mm long", bend.to_mm - bend.from_mm),
               fmt::format("a bend over 0 on an edge of {:.3f} mm", bend.edge_mm));
    }
    outline(i, span, length);
}

Layout LayoutMaker::run() {
    layout_.tree = makeTree(recipe_);
    layout_.panels.resize(recipe_.flanges.size() + 1);
    layout_.bends.resize(recipe_.flanges.size());
    reaches_.resize(recipe_.flanges.size());
    allowances();
    if (!issues_.empty()) return layout_;
    layout_.panels[kBasePanel] = layOutBase(recipe_, layout_.tree, issues_);
    if (layout_.panels[kBasePanel].outline.empty()) return layout_;
    addCornerReaches(recipe_, layout_.tree, kBasePanel, layout_.panels[kBasePanel].edges, reaches_, issues_);
    for (const std::size_t flange : layout_.tree.order) {
        place(flange);
        addCornerReaches(recipe_, layout_.tree, flange + 1, layout_.panels[flange + 1].edges, reaches_, issues_);
    }
    return layout_;
}

}  // namespace

Polygon Layout::strip(std::size_t i) const {
    const BendLayout& bend = bends[i];
    const PanelLayout& panel = panels[i + 1];
    const Vec2 left = bend.origin + bend.from_mm * panel.u, right = bend.origin + bend.to_mm * panel.u;
    const Vec2 out = bend.allowance_mm * panel.v;
    return {left, right, right + out, left + out};
}

Layout::End Layout::leftEnd(std::size_t i) const {
    const PanelLayout& panel = panels[i + 1];
    return {bends[i].from_mm, panel.u.dot(panel.outline[0] - bends[i].origin)};
}

Layout::End Layout::rightEnd(std::size_t i) const {
    const PanelLayout& panel = panels[i + 1];
    return {bends[i].edge_mm - bends[i].to_mm, bends[i].edge_mm - panel.u.dot(panel.outline[1] - bends[i].origin)};
}

Angle bendAngle(const Flange& flange) { return Angle::degrees(flange.hem_gap_mm ? 180 : flange.angle_deg); }

double bendRadius_mm(const Recipe& recipe, const Flange& flange) {
    if (flange.hem_gap_mm) return 0.5 * *flange.hem_gap_mm;
    return flange.inside_radius_mm < 0 ? recipe.inside_radius_mm : flange.inside_radius_mm;
}

Measured measuredHow(const Recipe& recipe, const Dimension& dimension, Measured panel) {
    if (dimension.measured != Measured::kUnsaid) return dimension.measured;
    return panel != Measured::kUnsaid ? panel : recipe.measured;
}

double edgeSetback_mm(const Recipe& recipe, const RecipeTree& tree, EdgeRef edge, Measured measured,
                      const std::string& place, Issues& issues) {
    if (measured == Measured::kFlat) return 0;
    const Face face = measured == Measured::kInside ? Face::kInside : Face::kOutside;
    double least = 0, most = 0;
    const std::vector<std::size_t> flanges = tree.flangesOn(edge);
    for (const std::size_t i : flanges) {
        const Flange& flange = recipe.flanges[i];
        const double setback =
            setback_mm(face, bendAngle(flange), bendRadius_mm(recipe, flange), recipe.sheet.thickness_mm);
        least = i == flanges.front() ? setback : std::min(least, setback);
        most = i == flanges.front() ? setback : std::max(most, setback);
    }
    if (most - least > 1e-9) {
        issues.push_back({"recipe.edge.mixed", recipe.file, place,
                          fmt::format("flanges on one edge whose faces stand {:.3f} to {:.3f} mm out", least, most),
                          "one angle and radius, or \"measured\": \"flat\"", ""});
    }
    return most;
}

Layout layOut(const Recipe& recipe, Issues& issues) { return LayoutMaker(recipe, issues).run(); }

}  // namespace tinwright
