// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>

#include <tinwright/geometry/cross.h>

#include "developing/layout.h"

namespace tinwright {

namespace {

// Edges that turn by less than this count as one straight line.
constexpr double kStraightSine = 1e-3;

std::vector<Segment> sidesOf(const Polygon& outline) {
    std::vector<Segment> sides;
    for (std::size_t i = 0; i < outline.size(); ++i) sides.push_back({outline[i], outline[(i + 1) % outline.size()]});
    return sides;
}

// A rectangle's flat size along one axis.
double flatSize(const Recipe& recipe, const RecipeTree& tree, const Dimension& size, std::size_t edge_a,
                std::size_t edge_b, Issues& issues) {
    const Measured how = measuredHow(recipe, size, recipe.base.measured);
    const double taken = edgeSetback_mm(recipe, tree, {kBasePanel, edge_a}, how, size.place, issues) +
                         edgeSetback_mm(recipe, tree, {kBasePanel, edge_b}, how, size.place, issues);
    const double flat = size.value_mm - taken;
    if (!(flat > 1e-6)) {
        issues.push_back({"recipe.flat-length", recipe.file, size.place, fmt::format("{} mm", size.value_mm),
                          fmt::format("more than the {:.3f} mm that its bends take", taken), ""});
        return 1.0;  // something to go on with: the issue is said
    }
    return flat;
}

PanelLayout rectangle(const Recipe& recipe, const RecipeTree& tree, Issues& issues) {
    const double w = flatSize(recipe, tree, recipe.base.width, 1, 3, issues);
    const double d = flatSize(recipe, tree, recipe.base.depth, 0, 2, issues);
    PanelLayout base;
    base.outline = {{0, 0}, {w, 0}, {w, d}, {0, d}};
    base.edges = sidesOf(base.outline);
    return base;
}

// Where edge i (moved in by `in[i]`) ends and edge j begins: one corner, or two where a straight line makes a step.
void addCorner(const std::vector<Segment>& sides, const std::vector<double>& in, std::size_t i, std::size_t j,
               Polygon& outline, std::vector<Segment>& edges) {
    const Vec2 di = sides[i].along(), dj = sides[j].along();
    const Vec2 pi = sides[i].to - in[i] * sides[i].outward(), pj = sides[j].from - in[j] * sides[j].outward();
    const double sine = cross(di, dj);
    if (std::abs(sine) > kStraightSine) {
        const Vec2 corner = pi + di * (cross(pj - pi, dj) / sine);
        edges[i].to = edges[j].from = corner;
        outline.push_back(corner);
        return;
    }
    edges[i].to = pi;
    edges[j].from = pj;
    outline.push_back(pi);
    if ((pi - pj).norm() > 1e-9) outline.push_back(pj);
}

void checkShape(const Recipe& recipe, const Polygon& outline, const char* when, Issues& issues) {
    std::string why;
    const std::string place = recipe.base.place + "/outline";
    if (!isValid({outline, {}}, &why)) {
        issues.push_back({"recipe.outline", recipe.file, place,
                          fmt::format("an outline that crosses itself {}: {}", when, why), "a simple polygon", ""});
    } else if (signedArea_mm2(outline) <= 0) {
        issues.push_back({"recipe.outline", recipe.file, place, "points that run clockwise",
                          "points that run counter-clockwise", ""});
    }
}

PanelLayout polygon(const Recipe& recipe, const RecipeTree& tree, Issues& issues) {
    Polygon drawn;
    for (const OutlinePoint& point : recipe.base.outline) drawn.push_back({point.x.value_mm, point.y.value_mm});
    const std::vector<Segment> sides = sidesOf(drawn);
    PanelLayout base;
    for (const Segment& side : sides) {
        if (side.length() > 1e-6) continue;
        issues.push_back({"recipe.outline", recipe.file, recipe.base.place + "/outline",
                          "the same point twice in a row", "different points", ""});
        return base;
    }
    checkShape(recipe, drawn, "as drawn", issues);
    if (!issues.empty()) return base;
    std::vector<double> in;
    const Measured how = measuredHow(recipe, Dimension{}, recipe.base.measured);
    for (std::size_t i = 0; i < sides.size(); ++i) {
        in.push_back(edgeSetback_mm(recipe, tree, {kBasePanel, i}, how, recipe.base.outline[i].place, issues));
    }
    base.edges.resize(sides.size());
    for (std::size_t i = 0; i < sides.size(); ++i)
        addCorner(sides, in, (i + sides.size() - 1) % sides.size(), i, base.outline, base.edges);
    for (std::size_t i = 0; i < sides.size(); ++i) {
        if ((base.edges[i].to - base.edges[i].from).dot(sides[i].along()) > 1e-6) continue;
        issues.push_back({"recipe.flat-length", recipe.file, recipe.base.outline[i].place,
                          "an edge that the bends beside it use up", "a longer edge", ""});
    }
    if (issues.empty()) checkShape(recipe, base.outline, "once the bends are taken off", issues);
    return base;
}

}  // namespace

PanelLayout layOutBase(const Recipe& recipe, const RecipeTree& tree, Issues& issues) {
    return recipe.base.is_rectangle ? rectangle(recipe, tree, issues) : polygon(recipe, tree, issues);
}

}  // namespace tinwright
