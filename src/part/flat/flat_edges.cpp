// SPDX-License-Identifier: GPL-3.0-or-later
#include "flat/flat_edges.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "edges/free_edges.h"

namespace tinwright {

namespace {

// As for recipes: a shorter free piece is no edge to measure from.
constexpr double kShortestNamed_mm = 1.0;
// In directions without a name only edges that a rule can lie against, which leaves out the chords of arcs.
constexpr double kShortestOther_mm = 10.0;
constexpr double kSquare = 1e-4;  // sine

/// The axes that name the edges of a panel: v away from its parent.
struct PanelAxes {
    Vec2 u = Vec2::UnitX();
    Vec2 v = Vec2::UnitY();
    bool is_base = true;
};

/// "" when no name fits; "near" is where the panel's own bend is.
std::string edgeName(const PanelAxes& axes, const Vec2& outward) {
    const double u = outward.dot(axes.u), v = outward.dot(axes.v);
    if (std::abs(u) < kSquare) return v > 0 ? (axes.is_base ? "back" : "far") : (axes.is_base ? "front" : "near");
    if (std::abs(v) < kSquare) return u > 0 ? "right" : "left";
    return "";
}

void addEdgesOf(Part& part, PanelId panel, const PanelAxes& axes) {
    const Polygon& ring = part.panel(panel).region.outline;
    std::map<std::string, Segment> longest;
    std::vector<Segment> others;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Segment edge{ring[i], ring[(i + 1) % ring.size()]};
        const std::string name = edgeName(axes, edge.outward());
        if (name == "near") continue;
        for (const Segment& piece : freePieces(part, panel, edge)) {
            if (name.empty() && piece.length() >= kShortestOther_mm) others.push_back(piece);
            if (name.empty() || piece.length() < kShortestNamed_mm) continue;
            const auto [known, is_new] = longest.try_emplace(name, piece);
            if (!is_new && piece.length() > known->second.length() + 1e-9) known->second = piece;
        }
    }
    const std::string& owner = part.panel(panel).name;
    for (const char* name : {"front", "right", "far", "back", "left"}) {
        if (const auto edge = longest.find(name); edge != longest.end())
            part.edges.push_back({owner + "." + name, panel, edge->second.from, edge->second.to});
    }
    std::size_t number = 0;
    for (const Segment& edge : others)
        part.edges.push_back({owner + ".e" + std::to_string(++number), panel, edge.from, edge.to});
}

}  // namespace

void addFlatEdges(Part& part) {
    addEdgesOf(part, PanelId{0}, {});
    for (const Bend& bend : part.bends) addEdgesOf(part, bend.child, {bend.along, bend.toward_child, false});
}

}  // namespace tinwright
