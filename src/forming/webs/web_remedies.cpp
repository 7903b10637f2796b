// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "rules/wording.h"
#include "webs/web_trouble.h"

namespace tinwright::forming {

namespace {

constexpr double kStep_mm = 0.5;    // of a change: what a rule can show
constexpr double kLeastLeft = 0.2;  // of its width that a window keeps at least when it is narrowed
constexpr double kMostWider_mm = 100;
constexpr double kLeastTab_mm = 2;
constexpr double kLeastRoom_mm = 2;
constexpr double kLeastRoom_t = 3;
constexpr int kMostTabs = 3;

bool cured(const Leg& leg, const LegTrouble& again) {
    const auto left = again(leg);
    return !left || left->severity == Severity::kNote;
}

/// Smallest multiple of the step up to `most_mm` that cures; a longer web is never worse, so that halving finds it.
template <class Change>
std::optional<double> smallest_mm(double most_mm, const LegTrouble& again, Change change) {
    auto high = static_cast<long>(std::floor(most_mm / kStep_mm + 1e-9));
    if (high < 1 || !cured(change(static_cast<double>(high) * kStep_mm), again)) return std::nullopt;
    for (long low = 0; high - low > 1;) {
        const long middle = (low + high) / 2;
        (cured(change(static_cast<double>(middle) * kStep_mm), again) ? high : low) = middle;
    }
    return static_cast<double>(high) * kStep_mm;
}

Leg moved(Leg leg, std::size_t cut_out, double by_mm) {
    for (Vec2& point : leg.cut_outs[cut_out].outline) point.y() += by_mm;
    return leg;
}

Leg narrowed(Leg leg, std::size_t cut_out, double by_mm) {
    const Box box = boxOf(leg.cut_outs[cut_out].outline);
    const double middle = 0.5 * (box.min().x() + box.max().x());
    const double share = 1 - by_mm / (box.max().x() - box.min().x());
    for (Vec2& point : leg.cut_outs[cut_out].outline) point.x() = middle + share * (point.x() - middle);
    return leg;
}

void spread(Polygon& polygon, const Box& fixed, double by_mm) {
    for (Vec2& point : polygon) {
        if (point.x() <= fixed.min().x()) point.x() -= by_mm;
        if (point.x() >= fixed.max().x()) point.x() += by_mm;
    }
}

/// Webs, and the bend with them, wider by as much on either side of the cut-out.
Leg widened(Leg leg, std::size_t cut_out, double by_mm) {
    const Box box = boxOf(leg.cut_outs[cut_out].outline);
    spread(leg.solid.outline, box, by_mm);
    for (Polygon& hole : leg.solid.holes) spread(hole, box, by_mm);
    for (std::size_t i = 0; i < leg.cut_outs.size(); ++i) {
        if (i != cut_out) spread(leg.cut_outs[i].outline, box, by_mm);
    }
    const double before = leg.to_mm - leg.from_mm;
    if (leg.from_mm <= box.min().x()) leg.from_mm -= by_mm;
    if (leg.to_mm >= box.max().x()) leg.to_mm += by_mm;
    leg.bend_mm += leg.to_mm - leg.from_mm - before;
    return leg;
}

/// The cut-out parted by tabs of equal width across it.
Leg bridged(Leg leg, std::size_t cut_out, int tabs, double tab_mm) {
    const Polygon outline = leg.cut_outs[cut_out].outline;
    const Box box = boxOf(outline);
    const double pitch = (box.max().x() - box.min().x()) / (tabs + 1);
    std::vector<Polygon> bridges;
    for (int i = 1; i <= tabs; ++i) {
        const double x = box.min().x() + i * pitch;
        bridges.push_back({{x - tab_mm / 2, box.min().y() - 1},
                           {x + tab_mm / 2, box.min().y() - 1},
                           {x + tab_mm / 2, box.max().y() + 1},
                           {x - tab_mm / 2, box.max().y() + 1}});
    }
    const std::size_t index = leg.cut_outs[cut_out].index;
    leg.cut_outs.erase(leg.cut_outs.begin() + static_cast<std::ptrdiff_t>(cut_out));
    for (const Region& left : difference({outline, {}}, bridges)) leg.cut_outs.push_back({index, left.outline});
    return leg;
}

void addBridges(const Leg& leg, const WebTrouble& trouble, const std::string& name, const LegTrouble& again,
                std::vector<std::string>& remedies) {
    const Box box = boxOf(leg.cut_outs[trouble.cut_out].outline);
    const double width_mm = box.max().x() - box.min().x();
    for (int tabs = 1; tabs <= kMostTabs; ++tabs) {
        const double most_mm = width_mm / (tabs + 1) - kLeastTab_mm;
        const auto tab =
            smallest_mm(most_mm, again, [&](double tab_mm) { return bridged(leg, trouble.cut_out, tabs, tab_mm); });
        if (!tab) continue;
        const std::string width = millimetres(std::max(*tab, kLeastTab_mm));
        remedies.push_back(
            tabs == 1
                ? fmt::format("leave a tab {} mm wide across the middle of {} and cut it out after folding", width,
                              name)
                : fmt::format("leave {} tabs {} mm wide across {} and cut them out after folding", tabs, width, name));
        return;
    }
}

/// How far a cut-out may go out over the leg: it keeps the distance that a bend at its far edge would want, and the
/// same from other cut-outs.
double room_mm(const Leg& leg, std::size_t cut_out, double thickness_mm) {
    const Box box = boxOf(leg.cut_outs[cut_out].outline);
    double limit_mm = leg.depth_mm;
    for (std::size_t i = 0; i < leg.cut_outs.size(); ++i) {
        const Box other = boxOf(leg.cut_outs[i].outline);
        const bool in_the_way = i != cut_out && other.max().x() > box.min().x() && other.min().x() < box.max().x() &&
                                other.max().y() > box.max().y();
        if (in_the_way) limit_mm = std::min(limit_mm, other.min().y());
    }
    return limit_mm - box.max().y() - std::max(kLeastRoom_mm, kLeastRoom_t * thickness_mm);
}

}  // namespace

std::vector<std::string> webRemedies(const Leg& leg, const WebTrouble& trouble, const std::string& name, bool is_notch,
                                     const LegTrouble& again, double thickness_mm) {
    std::vector<std::string> remedies;
    const std::size_t cut_out = trouble.cut_out;
    const Box box = boxOf(leg.cut_outs[cut_out].outline);
    if (!is_notch) {
        const auto by = smallest_mm(room_mm(leg, cut_out, thickness_mm), again,
                                    [&](double by_mm) { return moved(leg, cut_out, by_mm); });
        if (by) remedies.push_back(fmt::format("move {} {} mm away from the bend", name, millimetres(*by)));
        const double width_mm = box.max().x() - box.min().x();
        const auto less = smallest_mm(width_mm * (1 - kLeastLeft), again,
                                      [&](double by_mm) { return narrowed(leg, cut_out, by_mm); });
        if (less)
            remedies.push_back(fmt::format("narrow it from {} to {} mm along the bend", millimetres(width_mm),
                                           millimetres(width_mm - *less)));
        const auto wider =
            smallest_mm(kMostWider_mm, again, [&](double by_mm) { return widened(leg, cut_out, by_mm); });
        if (wider && trouble.section)
            remedies.push_back(fmt::format("make the sheet beside it {} mm wider on each side", millimetres(*wider)));
    }
    addBridges(leg, trouble, name, again, remedies);
    remedies.push_back(fmt::format("cut {} after folding", name));
    return remedies;
}

}  // namespace tinwright::forming
