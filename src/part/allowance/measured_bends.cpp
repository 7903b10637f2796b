// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/allowance/measured_bends.h>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include <tinwright/base/words.h>

namespace tinwright {

namespace {

constexpr double kNoise = 1e-9;

using Point = std::array<double, 3>;  // thickness, inside radius, angle: in this order from outer to inner
enum Axis : std::size_t { kThickness, kRadius, kAngle, kAxes };

Point pointOf(const MeasuredBend& bend) { return {bend.thickness_mm, bend.inside_radius_mm, bend.angle.deg()}; }
Point pointOf(const MeasuredQuery& query) { return {query.thickness_mm, query.inside_radius_mm, query.angle.deg()}; }

bool isSame(std::size_t axis, double measured, double asked) {
    const double slack = axis == kAngle ? kSameAngle_deg : kSameSize * measured;
    return std::abs(measured - asked) <= slack + kNoise;
}

/// How much each bend counts; empty: nothing reaches there.
using Weights = std::map<const MeasuredBend*, double>;
using Bends = std::vector<const MeasuredBend*>;

void add(Weights& all, const Weights& more, double share) {
    for (const auto& [bend, weight] : more) {
        if (share > 0) all[bend] += share * weight;
    }
}

Weights weigh(const Bends& bends, const Point& asked, std::size_t axis);

struct Level {
    double value = 0;
    Weights weights;
};

/// The nearest value on one side at which the inner axes have an answer.
template <class Groups>
std::optional<Level> firstOf(const Groups& groups, const Point& asked, std::size_t axis) {
    for (const auto& [value, bends] : groups) {
        if (Weights weights = weigh(bends, asked, axis + 1); !weights.empty()) return Level{value, std::move(weights)};
    }
    return std::nullopt;
}

Weights weigh(const Bends& bends, const Point& asked, std::size_t axis) {
    Weights weights;
    if (axis == kAxes) {
        for (const MeasuredBend* bend : bends) weights[bend] = 1.0 / static_cast<double>(bends.size());
        return weights;
    }
    std::map<double, Bends, std::greater<>> below;
    std::map<double, Bends> above;
    for (const MeasuredBend* bend : bends) {
        const double value = pointOf(*bend)[axis];
        if (value <= asked[axis] + kNoise) below[value].push_back(bend);
        if (value >= asked[axis] - kNoise) above[value].push_back(bend);
    }
    const auto low = firstOf(below, asked, axis), high = firstOf(above, asked, axis);
    if (low && high) {
        const double span = high->value - low->value;
        const double share = span > kNoise ? std::clamp((asked[axis] - low->value) / span, 0.0, 1.0) : 0.0;
        add(weights, low->weights, 1 - share);
        add(weights, high->weights, share);
    } else if (const auto& end = low ? low : high; end && isSame(axis, end->value, asked[axis])) {
        weights = end->weights;
    }
    return weights;
}

Bends ofMaterial(const MeasuredBends& table, std::string_view material) {
    Bends bends;
    for (const MeasuredBend& bend : table.bends) {
        if (table.isSameMaterial(bend.material, material)) bends.push_back(&bend);
    }
    return bends;
}

Bends ofTool(const Bends& bends, std::string_view tool) {
    Bends of_tool;
    std::copy_if(bends.begin(), bends.end(), std::back_inserter(of_tool),
                 [&](const MeasuredBend* bend) { return bend->tool == tool; });
    return of_tool;
}

/// Bends of the material and tool, as MeasuredQuery::tool says.
Bends candidates(const MeasuredBends& table, const MeasuredQuery& query) {
    const Bends bends = ofMaterial(table, query.material);
    Bends chosen = ofTool(bends, query.tool);
    if (!chosen.empty() || !query.tool.empty()) return chosen;
    std::set<std::string_view> tools;
    for (const MeasuredBend* bend : bends) tools.insert(bend->tool);
    return tools.size() == 1 ? bends : Bends{};
}

std::string spanText(const Bends& bends, std::size_t axis, std::string_view unit) {
    double least = pointOf(*bends.front())[axis], most = least;
    for (const MeasuredBend* bend : bends) {
        least = std::min(least, pointOf(*bend)[axis]);
        most = std::max(most, pointOf(*bend)[axis]);
    }
    return least == most ? fmt::format("{:.4g} {}", least, unit)
                         : fmt::format("{:.4g} to {:.4g} {}", least, most, unit);
}

std::string bendText(const MeasuredBend& bend) {
    return fmt::format("{:.4g} mm, radius {:.4g} mm, {:.4g} degrees", bend.thickness_mm, bend.inside_radius_mm,
                       bend.angle.deg());
}

// By how much the strips' deductions differ: the widest of the bends that count. A single strip has none.
std::string spreadText(const Bends& used) {
    std::optional<double> widest_mm;
    for (const MeasuredBend* bend : used) {
        if (bend->spread_mm) widest_mm = std::max(widest_mm.value_or(0), *bend->spread_mm);
    }
    return widest_mm ? fmt::format(", deductions up to {:.2f} mm apart", *widest_mm) : "";
}

std::string sourceText(const Weights& weights, const MeasuredQuery& query) {
    std::vector<const MeasuredBend*> used;
    int strips = 0;
    for (const auto& [bend, weight] : weights) {
        used.push_back(bend);
        strips += bend->strips;
    }
    // Weights are kept by address, which is the order in the table.
    const bool exact = std::all_of(used.begin(), used.end(), [&](const MeasuredBend* bend) {
        const Point measured = pointOf(*bend), asked = pointOf(query);
        return isSame(kThickness, measured[0], asked[0]) && isSame(kRadius, measured[1], asked[1]) &&
               isSame(kAngle, measured[2], asked[2]);
    });
    std::string text =
        fmt::format("{} of {}", counted(static_cast<std::size_t>(strips), "strip"), used.front()->material);
    if (exact) {
        text += ", " + bendText(*used.front());
    } else {
        text += " between " + bendText(*used.front()) + " and " + bendText(*used.back());
    }
    if (!used.front()->tool.empty()) text += ", bent with " + used.front()->tool;
    return text + spreadText(used);
}

}  // namespace

bool MeasuredBends::isSameMaterial(std::string_view a, std::string_view b) const {
    if (a == b) return true;
    return std::any_of(same_material.begin(), same_material.end(), [&](const std::vector<std::string>& names) {
        return std::find(names.begin(), names.end(), a) != names.end() &&
               std::find(names.begin(), names.end(), b) != names.end();
    });
}

std::optional<MeasuredK> measuredK(const MeasuredBends& table, const MeasuredQuery& query) {
    const Weights weights = weigh(candidates(table, query), pointOf(query), kThickness);
    if (weights.empty()) return std::nullopt;
    double k = 0;
    for (const auto& [bend, weight] : weights) k += weight * bend->k;
    return MeasuredK{k, sourceText(weights, query)};
}

const MeasuredBend* nearestMeasured(const MeasuredBends& table, const MeasuredQuery& query) {
    const Bends bends = candidates(table, query);
    const Point asked = pointOf(query);
    const auto distance = [&](const MeasuredBend* bend) {
        const Point measured = pointOf(*bend);
        return std::abs(std::log(measured[0] / asked[0])) + std::abs(measured[1] - asked[1]) / asked[0] +
               std::abs(measured[2] - asked[2]) / 90.0;
    };
    const auto nearest = std::min_element(bends.begin(), bends.end(),
                                          [&](const auto* a, const auto* b) { return distance(a) < distance(b); });
    return nearest == bends.end() ? nullptr : *nearest;
}

std::string measuredRange(const MeasuredBends& table, const MeasuredQuery& query) {
    const Bends bends = candidates(table, query);
    if (!bends.empty()) {
        return fmt::format("{}: thickness {}, inside radius {}, {}", bends.front()->material,
                           spanText(bends, kThickness, "mm"), spanText(bends, kRadius, "mm"),
                           spanText(bends, kAngle, "degrees"));
    }
    std::set<std::string> measured;
    for (const MeasuredBend& bend : table.bends)
        measured.insert(bend.material + (bend.tool.empty() ? "" : " with " + bend.tool));
    return measured.empty() ? "nothing" : joined(measured, ", ");
}

}  // namespace tinwright
