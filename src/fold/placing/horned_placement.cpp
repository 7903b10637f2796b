// SPDX-License-Identifier: GPL-3.0-or-later
// Where punches with horns stand at the ends of a string of plain ones: Placer::chooseHorned.
#include <algorithm>
#include <optional>

#include "placing/placement.h"

namespace tinwright {

namespace {

// The free stretch in which the middle of the need lies; empty: none.
Interval roomAbout(const Interval& need, const IntervalSet& barred, Interval window) {
    const Micron middle = (need.lo + need.hi) / 2;
    const IntervalSet free = barred.gapsIn(window);
    for (const Interval& gap : free.items()) {
        if (gap.lo < middle && middle < gap.hi) return gap;
    }
    return {};
}

}  // namespace

// Of each width one.
std::vector<ToolId> Placer::hornedLike(std::size_t plain, bool at_left, std::size_t face) const {
    const Machine& machine = table_.machine();
    const ToolFamily& like = machine.families()[plain];
    std::vector<ToolId> bars;
    for (const ToolId tool : machine.brake().tools()) {
        const Punch* punch = machine.brake()->punch(tool);
        if (punch == nullptr || !punch->horn || punch->horn->at_left != at_left) continue;
        const std::size_t family = machine.familyOf(tool);
        if (machine.standsOn(family, face) && machine.families()[family].section == like.section) bars.push_back(tool);
    }
    return bars;
}

void Placer::chooseHorned(Trial& trial, const Site& site, const std::function<bool(const BarString&)>& accept) {
    const Machine& machine = table_.machine();
    const Interval window{-site.part_x, micronFloor(machine.brake()->length_mm) - site.part_x};
    const StrokeScene& scene = trial.scene();
    const Interval need{scene.needs.front().lo, scene.needs.back().hi};
    int offered = 0;
    const auto offer = [&](const BarString& bars) {
        trial.cut_short = trial.cut_short || offered == BarStrings::kMaxCandidates;
        return offered++ == BarStrings::kMaxCandidates || accept(bars);
    };
    using End = std::optional<HornedRequest::End>;
    const auto endsOf = [&](std::size_t plain, bool at_left) {
        std::vector<End> ends;
        for (const ToolId bar : hornedLike(plain, at_left, site.face)) {
            const std::size_t family = machine.familyOf(bar);
            if (familyFits(trial.question, family, site.face))
                ends.push_back(HornedRequest::End{bar, roomAbout(need, site.obstacles.bars[family], window)});
        }
        ends.emplace_back();
        return ends;
    };
    for (std::size_t plain = 0; plain < machine.families().size(); ++plain) {
        const ToolFamily& family = machine.families()[plain];
        if (family.row != ToolRow::kUpper || family.low >= 0 || !machine.standsOn(plain, site.face) ||
            !isAsked(trial.question, plain) || !familyFits(trial.question, plain, site.face))
            continue;
        HornedRequest request{&scene.needs, {}, {}, roomAbout(need, site.obstacles.bars[plain], window), {}};
        request.allowed.assign(machine.brake()->toolCount(), false);
        for (const ToolId tool : machine.brake().tools())
            request.allowed[tool.index()] = machine.familyOf(tool) == plain;
        for (const End& left : endsOf(plain, true)) {
            for (const End& right : endsOf(plain, false)) {
                request.left = left;
                request.right = right;
                if ((left || right) && strings_.chooseHorned(request, offer)) return;
            }
        }
    }
}

}  // namespace tinwright
