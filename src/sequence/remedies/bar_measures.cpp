// SPDX-License-Identifier: GPL-3.0-or-later
#include "remedies/bar_measures.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_fit.h>
#include <tinwright/part/flat/stretch.h>

namespace tinwright {

namespace {

// Inside face to inside face, of walls that both fold to the same side of their panel: bars must stand between them.
double betweenWalls_mm(const Bend& a, const Bend& b, double lines_mm, double radius_mm) {
    const auto setback = [&](const Bend& bend) {
        return radius_mm * std::tan(0.5 * std::min(bend.angle.rad(), 0.5 * std::numbers::pi));
    };
    return lines_mm - 0.5 * (a.allowance_mm + b.allowance_mm) + setback(a) + setback(b);
}

}  // namespace

std::vector<BarMeasure> barMeasures(const Part& part, double radius_mm) {
    std::vector<BarMeasure> measures;
    for (const StretchSpan& span : stretchSpans(part)) {
        const Bend& a = part.bend(span.from);
        const Bend& b = part.bend(span.to);
        if (a.up == b.up)
            measures.push_back({BarMeasure::Kind::kBetweenWalls, betweenWalls_mm(a, b, span.lines_mm, radius_mm)});
    }
    for (const Bend& bend : part.bends) measures.push_back({BarMeasure::Kind::kBend, stripExtent_mm(bend)});
    return measures;
}

std::vector<double> turningLengths_mm(const BrakeInSetup& brake, const Limits& limits, BarMeasure::Kind kind,
                                      double least_mm, double most_mm) {
    std::vector<double> lengths;
    const auto take = [&](double length) {
        if (length >= least_mm && length <= most_mm) lengths.push_back(length);
    };
    for (const BarPool& pool : barPools(brake)) {
        const BarSums sums(toolWidths_um(*brake), pool.available);
        for (int pieces = 1; pieces <= BarSums::kMaxPieces; ++pieces) {
            for (const auto& [sum_um, counts] : sums.of(pieces)) {
                const double sum = toMm(sum_um);
                if (kind == BarMeasure::Kind::kBetweenWalls) {
                    take(sum + 2 * pool.touching_room_mm + limits.plus_side_mm);
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
