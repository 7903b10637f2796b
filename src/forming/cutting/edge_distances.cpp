// SPDX-License-Identifier: GPL-3.0-or-later
#include "cutting/edge_distances.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace tinwright::forming {

namespace {

// Two measures that run more nearly the same way than this place a point badly.
constexpr double kLeastCross = 0.5;

struct Candidate {
    const NamedEdge* edge = nullptr;
    Vec2 along = Vec2::UnitX();
    double distance_mm = 0;
    bool is_other_panel = false;
    bool is_past_end = false;
    std::size_t index = 0;
};

std::vector<Candidate> candidates(const Part& part, PanelId panel, const Vec2& point) {
    std::vector<Candidate> all;
    for (std::size_t i = 0; i < part.edges.size(); ++i) {
        const NamedEdge& edge = part.edges[i];
        const double length = (edge.to - edge.from).norm();
        if (length < 1e-9) continue;
        const Vec2 along = (edge.to - edge.from) / length;
        const Vec2 reach = point - edge.from;
        const double at = along.dot(reach);
        all.push_back({&edge, along, std::abs(along.x() * reach.y() - along.y() * reach.x()), edge.panel != panel,
                       at < 0 || at > length, i});
    }
    std::sort(all.begin(), all.end(), [](const Candidate& a, const Candidate& b) {
        return std::tuple(a.is_other_panel, a.is_past_end, a.distance_mm, a.index) <
               std::tuple(b.is_other_panel, b.is_past_end, b.distance_mm, b.index);
    });
    return all;
}

}  // namespace

std::vector<EdgeDistance> edgeDistances(const Part& part, PanelId panel, const Vec2& point) {
    const std::vector<Candidate> all = candidates(part, panel, point);
    std::vector<EdgeDistance> from;
    if (all.empty()) return from;
    const Candidate& first = all.front();
    from.push_back({first.edge->name, first.distance_mm});
    const auto second = std::find_if(all.begin() + 1, all.end(), [&](const Candidate& edge) {
        return std::abs(first.along.x() * edge.along.y() - first.along.y() * edge.along.x()) >= kLeastCross;
    });
    if (second != all.end()) from.push_back({second->edge->name, second->distance_mm});
    return from;
}

}  // namespace tinwright::forming
