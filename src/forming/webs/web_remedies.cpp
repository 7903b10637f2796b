// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/forming/webs/cut_out_cures.h>

#include "rules/wording.h"
#include "webs/web_remedies.h"
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
    Polygon& outline = leg.cut_outs[cut_out].outline;
    outline = movedAway(std::move(outline), by_mm);
    return leg;
}

Leg narrowed(Leg leg, std::size_t cut_out, double by_mm) {
    Polygon& outline = leg.cut_outs[cut_out].outline;
    outline = narrowedBy(std::move(outline), by_mm);
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

Leg bridged(Leg leg, std::size_t cut_out, int tabs, double tab_mm) {
    const LegCutOut whole = leg.cut_outs[cut_out];
    leg.cut_outs.erase(leg.cut_outs.begin() + static_cast<std::ptrdiff_t>(cut_out));
    for (Polygon& part : bridgedBy(whole.outline, tabs, tab_mm)) leg.cut_outs.push_back({whole.index, std::move(part)});
    return leg;
}

std::optional<CutOutCure> bridges(const Leg& leg, const WebTrouble& trouble, const LegTrouble& again, CutOutCure cure) {
    const Box box = boxOf(leg.cut_outs[trouble.cut_out].outline);
    const double width_mm = box.max().x() - box.min().x();
    cure.kind = CutOutCure::Kind::kBridged;
    for (cure.tabs = 1; cure.tabs <= kMostTabs; ++cure.tabs) {
        const double most_mm = width_mm / (cure.tabs + 1) - kLeastTab_mm;
        const auto tab = smallest_mm(most_mm, again,
                                     [&](double tab_mm) { return bridged(leg, trouble.cut_out, cure.tabs, tab_mm); });
        if (!tab) continue;
        cure.by_mm = std::max(*tab, kLeastTab_mm);
        return cure;
    }
    return std::nullopt;
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

/// Sheet beside the cut-out wider on either side, by the least that does.
std::optional<double> wider_mm(const Leg& leg, const WebTrouble& trouble, const LegTrouble& again) {
    if (!trouble.section) return std::nullopt;
    return smallest_mm(kMostWider_mm, again, [&](double by_mm) { return widened(leg, trouble.cut_out, by_mm); });
}

}  // namespace

Polygon movedAway(Polygon outline, double by_mm) {
    for (Vec2& point : outline) point.y() += by_mm;
    return outline;
}

Polygon narrowedBy(Polygon outline, double by_mm) {
    const Box box = boxOf(outline);
    const double middle = 0.5 * (box.min().x() + box.max().x());
    const double share = 1 - by_mm / (box.max().x() - box.min().x());
    for (Vec2& point : outline) point.x() = middle + share * (point.x() - middle);
    return outline;
}

std::vector<Polygon> bridgedBy(const Polygon& outline, int tabs, double tab_mm) {
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
    std::vector<Polygon> parts;
    for (Region& left : difference({outline, {}}, bridges)) parts.push_back(std::move(left.outline));
    return parts;
}

void addWebCures(const Part& part, const Leg& leg, const WebTrouble& trouble, BendId bend, Side side,
                 const LegTrouble& again, Finding& finding) {
    CutOutCure cure{CutOutCure::Kind::kMoved, leg.cut_outs[trouble.cut_out].index, bend, side, 0, 0};
    const auto add = [&](CutOutCure::Kind kind, std::optional<double> by_mm) {
        if (!by_mm) return;
        cure.kind = kind;
        cure.by_mm = *by_mm;
        finding.cures.push_back(cure);
        finding.remedies.push_back(cureWords(part, cure));
    };
    if (!part.cut_outs[cure.cut_out].is_notch) {
        const Box box = boxOf(leg.cut_outs[trouble.cut_out].outline);
        const double width_mm = box.max().x() - box.min().x();
        add(CutOutCure::Kind::kMoved, smallest_mm(room_mm(leg, trouble.cut_out, part.thickness_mm), again,
                                                  [&](double by) { return moved(leg, trouble.cut_out, by); }));
        add(CutOutCure::Kind::kNarrowed, smallest_mm(width_mm * (1 - kLeastLeft), again,
                                                     [&](double by) { return narrowed(leg, trouble.cut_out, by); }));
        if (const auto wider = wider_mm(leg, trouble, again))
            finding.remedies.push_back(
                fmt::format("make the sheet beside it {} mm wider on each side", millimetres(*wider)));
    }
    if (const auto tabs = bridges(leg, trouble, again, cure)) {
        finding.cures.push_back(*tabs);
        finding.remedies.push_back(cureWords(part, *tabs));
    }
    add(CutOutCure::Kind::kCutAfter, 0.0);
}

}  // namespace tinwright::forming
