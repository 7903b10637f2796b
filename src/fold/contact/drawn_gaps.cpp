// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/drawn_gaps.h"

#include <algorithm>
#include <utility>

#include "kernel/rest_distance.h"
#include "kernel/solid_pair.h"

namespace tinwright {

namespace {

bool comeWithin(double margin_mm, const std::vector<Solid>& a, const std::vector<Solid>& b) {
    return std::any_of(a.begin(), a.end(), [&](const Solid& one) {
        return std::any_of(b.begin(), b.end(),
                           [&](const Solid& other) { return restDistance_mm(one, other, margin_mm) <= margin_mm; });
    });
}

}  // namespace

DrawnGaps::DrawnGaps(const StrokeGeometry& geometry) : wanted_mm_(geometry.limits().clearance_mm) {
    const PartBodies& bodies = geometry.bodies();
    const BendMask all = allFormed(geometry.part());
    for (const Group& group : bodies.groups()) {
        std::vector<Solid> solids;
        const Rigid pose = bodies.pose(idAt<PanelId>(0), group.frame, all);
        for (const PrismRings& rings : group.is_strip ? group.formed : group.flat) solids.emplace_back(rings, pose);
        finished_.push_back(std::move(solids));
    }
}

bool DrawnGaps::isClose(std::size_t a, std::size_t b) {
    if (a > b) std::swap(a, b);
    const auto [entry, is_new] = close_.try_emplace((std::uint64_t{a} << 32) | b, false);
    if (is_new) entry->second = comeWithin(wanted_mm_, finished_[a], finished_[b]);
    return entry->second;
}

double DrawnGaps::gap_mm(std::size_t a, std::size_t b) const {
    double least_mm = kClearanceCap_mm;
    for (const Solid& one : finished_[a]) {
        for (const Solid& other : finished_[b]) least_mm = std::min(least_mm, restGap_mm(one, other, least_mm));
    }
    return least_mm;
}

}  // namespace tinwright
