// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/tooling/bar_fit.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/cover_rules.h>

namespace tinwright {

namespace {

constexpr double kSameHeight_mm = 0.01;

// Between two walls folded square on this brake.
struct Rules {
    Rules(const BrakeInSetup& brake, const Limits& limits)
        : cover(limits),
          radii_um(2 * micronNearest(brake.inside_radius_mm())),
          plus_um(micronCeil(limits.plus_side_mm)),
          clear_um(std::max(plus_um, 2 * micronCeil(limits.clearance_mm))) {}
    CoverRules cover;
    Micron radii_um;  // of both walls
    Micron plus_um;   // both ends together
    Micron clear_um;  // the same when comfortable

    /// Between the strips of the walls the sheet is flat: so far a bend goes.
    [[nodiscard]] Micron bend_um(Micron width) const { return std::max<Micron>(0, width - radii_um); }
    [[nodiscard]] bool covers(Micron width, Micron sum, int pieces) const {
        return sum >= cover.leastSum_um(pieces, bend_um(width));
    }
    [[nodiscard]] Micron most_um(Micron sum, int pieces) const {
        return sum + (pieces - 1) * cover.gap_um + 2 * cover.end_um + radii_um;
    }
    [[nodiscard]] Micron missing_um(Micron width, Micron sum) const { return cover.missing_um(bend_um(width), sum); }
};

BarFit fitOf(const Rules& rules, const BarPool& pool, const ToolCounts& counts, int pieces, Micron sum, Micron width) {
    BarFit fit;
    fit.counts = counts;
    fit.pieces = pieces;
    fit.width_mm = toMm(sum);
    const Micron missing = rules.missing_um(width, sum);
    fit.gaps_mm = toMm(missing);
    const Micron bend = std::max<Micron>(1, rules.bend_um(width));
    fit.covered_share = std::min(1.0, static_cast<double>(sum) / static_cast<double>(bend));
    fit.comfortable = width >= sum + 2 * micronCeil(pool.end_room_mm) + rules.clear_um + missing;
    fit.end_room_mm = fit.comfortable ? pool.end_room_mm : pool.touching_room_mm;
    fit.slack_mm = toMm(width - sum - 2 * micronCeil(fit.end_room_mm));
    return fit;
}

bool better(const BarFit& a, const BarFit& b) {
    return std::tuple(!a.comfortable, a.pieces, -a.width_mm, a.end_room_mm, a.counts) <
           std::tuple(!b.comfortable, b.pieces, -b.width_mm, b.end_room_mm, b.counts);
}

// Kinds that may stand in one string.
struct Mixed {
    double height_mm = 0;  // of punches
    int kinds = 0;
    BarPool pool;
};

// Punches of other heights cannot hang on one ram.
Mixed& mixedWith(const Brake& brake, ToolId tool, std::vector<Mixed>& mixed) {
    const double height_mm = brake.tool(tool).height_mm;
    for (Mixed& one : mixed) {
        if (brake.bar(tool) != nullptr || std::abs(one.height_mm - height_mm) < kSameHeight_mm) return one;
    }
    return mixed.emplace_back(Mixed{height_mm, 0, {ToolCounts(brake.toolCount(), 0), 0, 0}});
}

template <class Take>
void eachString(const Brake& brake, const BarPool& pool, Take take) {
    const BarSums sums(toolWidths_um(brake), pool.available);
    for (int pieces = 1; pieces <= BarSums::kMaxPieces; ++pieces) {
        for (const auto& [sum, counts] : sums.of(pieces)) take(pieces, sum, counts);
    }
}

// Less than the contact tolerance by what slices of an arc may stand out of it.
constexpr double kTouches_mm = 0.04;

// How far from the wall its fillet comes up so high.
double filletAt_mm(double radius_mm, double height_mm) {
    const double up = radius_mm - height_mm;
    return up <= 0 ? 0 : radius_mm - std::sqrt(radius_mm * radius_mm - up * up);
}

// The bar's corner lies so high over the sheet; over the relief it is as wide as it ever is.
double roomAt_mm(const Bar& bar, double radius_mm, double corner_mm) {
    const double plain = filletAt_mm(radius_mm, corner_mm);
    if (bar.end_relief_mm <= 0 || bar.end_relief_height_mm <= 0) return plain;
    return std::max({0.0, plain - bar.end_relief_mm, filletAt_mm(radius_mm, bar.end_relief_height_mm + corner_mm)});
}

}  // namespace

double endRoom_mm(const Bar& bar, double wall_radius_mm) { return roomAt_mm(bar, wall_radius_mm, 0); }

double endRoom_mm(const Brake& brake, ToolId tool, double wall_radius_mm) {
    const Bar* bar = brake.bar(tool);
    return bar != nullptr ? endRoom_mm(*bar, wall_radius_mm) : wall_radius_mm;
}

double touchingRoom_mm(const Brake& brake, ToolId tool, double wall_radius_mm) {
    const Bar* bar = brake.bar(tool);
    return bar != nullptr ? roomAt_mm(*bar, wall_radius_mm, kTouches_mm) : wall_radius_mm;
}

std::vector<BarPool> barPools(const BrakeInSetup& brake) {
    std::vector<BarPool> pools;
    std::vector<ToolId> first;  // a tool of each kind
    std::vector<Mixed> mixed;
    for (const ToolId tool : brake.tools(ToolRow::kUpper)) {
        const auto pieces = static_cast<std::uint16_t>(std::min(brake->tool(tool).count, BarSums::kMaxPieces));
        std::size_t kind = 0;
        while (kind < first.size() && !sameSection(*brake, first[kind], tool)) ++kind;
        Mixed& all = mixedWith(*brake, tool, mixed);
        if (kind == first.size()) {
            first.push_back(tool);
            pools.push_back({ToolCounts(brake->toolCount(), 0), endRoom_mm(*brake, tool, brake.inside_radius_mm()),
                             touchingRoom_mm(*brake, tool, brake.inside_radius_mm())});
            ++all.kinds;
        }
        pools[kind].available[tool.index()] = pieces;
        all.pool.available[tool.index()] = pieces;
        all.pool.end_room_mm = std::max(all.pool.end_room_mm, pools[kind].end_room_mm);
        all.pool.touching_room_mm = std::max(all.pool.touching_room_mm, pools[kind].touching_room_mm);
    }
    for (Mixed& all : mixed) {
        if (all.kinds > 1) pools.push_back(std::move(all.pool));
    }
    return pools;
}

std::vector<BarFit> barFits(const BrakeInSetup& brake, const Limits& limits, double inside_width_mm) {
    const Rules rules(brake, limits);
    const Micron width = micronNearest(inside_width_mm);
    std::vector<BarFit> fits;
    for (const BarPool& pool : barPools(brake)) {
        const Micron rooms = 2 * micronCeil(pool.touching_room_mm);
        eachString(*brake, pool, [&](int pieces, Micron sum, const ToolCounts& counts) {
            if (!rules.covers(width, sum, pieces) || width < sum + rooms + rules.plus_um + rules.missing_um(width, sum))
                return;
            BarFit fit = fitOf(rules, pool, counts, pieces, sum, width);
            const auto known =
                std::find_if(fits.begin(), fits.end(), [&](const BarFit& other) { return other.counts == fit.counts; });
            if (known == fits.end()) {
                fits.push_back(std::move(fit));
            } else if (better(fit, *known)) {
                *known = std::move(fit);
            }
        });
    }
    std::sort(fits.begin(), fits.end(), better);
    return fits;
}

std::vector<WidthRange> suitedWidths(const BrakeInSetup& brake, const Limits& limits, double least_mm, double most_mm) {
    const Rules rules(brake, limits);
    const Interval asked{micronNearest(least_mm), micronNearest(most_mm)};
    std::vector<WidthRange> ranges;
    for (const BarPool& pool : barPools(brake)) {
        const Micron rooms = 2 * micronCeil(pool.end_room_mm);
        eachString(*brake, pool, [&](int pieces, Micron sum, const ToolCounts& counts) {
            // As long as the ends are short enough nothing is spread. Past that the spread string stays as much shorter
            // than the width as there.
            const Micron snug = sum + rooms + rules.clear_um;
            if (snug > rules.most_um(sum, 1)) return;
            const Micron from = std::max(asked.lo, snug);
            const Micron to = std::min(asked.hi, rules.most_um(sum, pieces));
            if (from > to) return;
            const BarFit with = fitOf(rules, pool, counts, pieces, sum, from);
            ranges.push_back({toMm(from), toMm(to), with});
        });
    }
    std::sort(ranges.begin(), ranges.end(), [](const WidthRange& a, const WidthRange& b) {
        return std::tuple(a.least_mm, a.with.pieces, -a.most_mm, a.with.counts) <
               std::tuple(b.least_mm, b.with.pieces, -b.most_mm, b.with.counts);
    });
    return ranges;
}

std::string toolNames(const Brake& brake, const ToolCounts& counts) {
    std::string names;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (counts[i] == 0) continue;
        if (!names.empty()) names += " + ";
        names += counts[i] == 1 ? brake.tool(idAt<ToolId>(i)).id
                                : fmt::format("{} x {}", counts[i], brake.tool(idAt<ToolId>(i)).id);
    }
    return names;
}

}  // namespace tinwright
