// SPDX-License-Identifier: GPL-3.0-or-later
#include "bar_measures.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include <tinwright/brake/bar_fit.h>

namespace tinwright {

namespace {

constexpr double kParallel = 1e-6;

// From the panel out over the bend.
Vec2 outward(const Bend& bend, PanelId panel) { return bend.parent == panel ? bend.toward_child : Vec2(-bend.toward_child); }

// Bends at opposite edges of one panel, both folded to the same side: between the two walls bars must stand.
std::optional<double> betweenWalls_mm(const Bend& a, const Bend& b, PanelId panel, double radius_mm) {
    const Vec2 out = outward(b, panel);
    if ((outward(a, panel) + out).norm() > kParallel || a.up != b.up) return std::nullopt;
    const double lines_mm = (b.origin - a.origin).dot(out);
    if (lines_mm <= 0) return std::nullopt;
    const auto setback = [&](const Bend& bend) { return radius_mm * std::tan(0.5 * std::min(bend.angle.rad(), 0.5 * std::numbers::pi)); };
    return lines_mm - 0.5 * (a.allowance_mm + b.allowance_mm) + setback(a) + setback(b);
}

bool touches(const Bend& bend, PanelId panel) { return bend.parent == panel || bend.child == panel; }

}  // namespace

std::vector<BarMeasure> barMeasures(const Part& part, double radius_mm) {
    std::vector<BarMeasure> measures;
    for (std::size_t p = 0; p < part.panels.size(); ++p) {
        const auto panel = idAt<PanelId>(p);
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            for (std::size_t k = i + 1; k < part.bends.size(); ++k) {
                if (!touches(part.bends[i], panel) || !touches(part.bends[k], panel)) continue;
                const auto width = betweenWalls_mm(part.bends[i], part.bends[k], panel, radius_mm);
                if (width) measures.push_back({BarMeasure::Kind::kBetweenWalls, *width});
            }
        }
    }
    for (const Bend& bend : part.bends) measures.push_back({BarMeasure::Kind::kBend, bend.spans.back().to_mm - bend.spans.front().from_mm});
    return measures;
}

std::vector<double> turningLengths_mm(const LeafBrake& brake, const Limits& limits, BarMeasure::Kind kind, double least_mm, double most_mm) {
    std::vector<double> lengths;
    const auto take = [&](double length) {
        if (length >= least_mm && length <= most_mm) lengths.push_back(length);
    };
    for (const BarPool& pool : barPools(brake, brake.nose_radius_mm)) {
        const BarSums sums(barWidths_um(brake), pool.available);
        for (int pieces = 1; pieces <= BarSums::kMaxPieces; ++pieces) {
            for (const auto& [sum_um, counts] : sums.of(pieces)) {
                const double sum = toMm(sum_um);
                if (kind == BarMeasure::Kind::kBetweenWalls) {
                    take(sum + 2 * pool.end_room_mm + limits.plus_side_mm);
                    take(sum + 2 * pool.end_room_mm + std::max(limits.plus_side_mm, 2 * limits.clearance_mm));
                } else {
                    take(sum + (pieces - 1) * limits.bar_gap_mm + 2 * limits.uncovered_end_mm);
                    take(sum);  // from here on not all of the bend is under the bars
                }
            }
        }
    }
    std::sort(lengths.begin(), lengths.end());
    lengths.erase(std::unique(lengths.begin(), lengths.end()), lengths.end());
    return lengths;
}

}  // namespace tinwright
