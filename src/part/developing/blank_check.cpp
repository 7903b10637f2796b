// SPDX-License-Identifier: GPL-3.0-or-later
#include "developing/blank_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include <tinwright/geometry/box.h>

#include <tinwright/geometry/cross.h>

#include "developing/cut_out.h"

namespace tinwright {

namespace {

constexpr double kNothing_mm2 = 1e-3;
// Sheet edges that are nearer than this are one line: no cutter leaves a kerf between them.
constexpr double kTouch_mm = 1e-6;
constexpr double kShortestTouch_mm = 1e-3;

// A piece of the flat sheet: a panel, or the strip of a bend.
struct Piece {
    std::string name;
    std::string place;
    Polygon outline;
    std::vector<Segment> sides;  ///< that must keep clear of other pieces; a strip's two ends only
    std::size_t panel = 0;       ///< its panel; a strip: its child
    bool is_strip = false;
};

std::vector<Piece> piecesOf(const Recipe& recipe, const Layout& layout) {
    std::vector<Piece> pieces;
    for (std::size_t p = 0; p < layout.panels.size(); ++p) {
        const Polygon& ring = layout.panels[p].outline;
        Piece piece{"panel " + panelName(recipe, p),
                    p == kBasePanel ? recipe.base.place : recipe.flanges[p - 1].place,
                    ring,
                    {},
                    p,
                    false};
        for (std::size_t i = 0; i < ring.size(); ++i) piece.sides.push_back({ring[i], ring[(i + 1) % ring.size()]});
        pieces.push_back(std::move(piece));
    }
    for (std::size_t f = 0; f < layout.bends.size(); ++f) {
        const Polygon strip = layout.strip(f);
        pieces.push_back({"bend " + recipe.flanges[f].name,
                          recipe.flanges[f].place,
                          strip,
                          {{strip[1], strip[2]}, {strip[3], strip[0]}},
                          f + 1,
                          true});
    }
    return pieces;
}

// Length over which two edges lie on one another.
double touching_mm(const Segment& a, const Segment& b) {
    const Vec2 d = a.along();
    if (std::abs(cross(d, b.from - a.from)) > kTouch_mm || std::abs(cross(d, b.to - a.from)) > kTouch_mm) return 0;
    const double s = d.dot(b.from - a.from), e = d.dot(b.to - a.from);
    return std::min(a.length(), std::max(s, e)) - std::max(0.0, std::min(s, e));
}

double touching_mm(const Piece& a, const Piece& b) {
    double longest = 0;
    for (const Segment& side : a.sides) {
        for (const Segment& other : b.sides) longest = std::max(longest, touching_mm(side, other));
    }
    return longest;
}

}  // namespace

void checkBlank(const Recipe& recipe, const Layout& layout, Issues& issues) {
    const std::vector<Piece> pieces = piecesOf(recipe, layout);
    std::vector<Eigen::AlignedBox2d> boxes;
    for (const Piece& piece : pieces) boxes.push_back(boxOf(piece.outline));
    for (std::size_t a = 0; a < pieces.size(); ++a) {
        for (std::size_t b = a + 1; b < pieces.size(); ++b) {
            if (boxes[a].exteriorDistance(boxes[b]) > kTouch_mm) continue;
            const double shared = sharedArea_mm2(pieces[a].outline, pieces[b].outline);
            if (shared > kNothing_mm2) {
                issues.push_back(
                    {"recipe.blank.overlap", recipe.file, pieces[b].place,
                     fmt::format("{} and {} share {:.2f} mm2 of the blank", pieces[a].name, pieces[b].name, shared),
                     "pieces that do not overlap in the flat",
                     "shorten one, set it back from its end, or give the corner a type"});
            } else if (const double touch = touching_mm(pieces[a], pieces[b]); touch > kShortestTouch_mm) {
                issues.push_back({"recipe.blank.touch", recipe.file, pieces[b].place,
                                  fmt::format("{} and {} lie edge to edge over {:.2f} mm with no bend between",
                                              pieces[a].name, pieces[b].name, touch),
                                  "a gap that can be cut", "set one back from its end by at least the kerf"});
            }
        }
    }
}

}  // namespace tinwright
