// SPDX-License-Identifier: GPL-3.0-or-later
#include "exits/piece_escape.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tinwright {

namespace {

constexpr std::size_t kMostPastTools = 5;  // places that are looked at across the machine, the start's own among them
constexpr std::size_t kMostPastPart = 5;
constexpr std::size_t kMostUp = 3;
constexpr double kFurthest_mm = 300;
constexpr double kSame_mm = 0.2;
constexpr double kOff_mm = 0.01;  // so that what just clears does
// Sections of both tools are moved in by the contact tolerance; tools among themselves may touch by one of these.
constexpr double kBetweenTools_mm = kContactTolerance_mm;

struct Box {
    Vec2 least;
    Vec2 most;
};

Box boxOf(const Convex2& shape) {
    Box box{shape.points().front(), shape.points().front()};
    for (const Vec2& p : shape.points()) box = {box.least.cwiseMin(p), box.most.cwiseMax(p)};
    return box;
}

// By how much `moved` must be shifted along an axis until it is clear of `still` to either side, if that stands in its
// way.
void addClearances(const Convex2& moved, const Convex2& still, int axis, double apart_mm,
                   std::vector<double>& shifts_mm) {
    const Box moves = boxOf(moved);
    const Box stands = boxOf(still);
    shifts_mm.push_back(stands.most[axis] - moves.least[axis] + apart_mm);
    shifts_mm.push_back(stands.least[axis] - moves.most[axis] - apart_mm);
}

bool boxesApart(const Box& moves, const Vec2& from, const Vec2& to, const Box& stands, double apart_mm) {
    const Vec2 least = moves.least + from.cwiseMin(to);
    const Vec2 most = moves.most + from.cwiseMax(to);
    return ((least - stands.most).array() > apart_mm).any() || ((stands.least - most).array() > apart_mm).any();
}

// The nearest to 0, ascending, without those that are all but the same.
std::vector<double> nearest(std::vector<double> shifts_mm, std::size_t most) {
    std::erase_if(shifts_mm, [](double shift_mm) { return std::abs(shift_mm) > kFurthest_mm; });
    std::sort(shifts_mm.begin(), shifts_mm.end(),
              [](double a, double b) { return std::abs(a) < std::abs(b) || (std::abs(a) == std::abs(b) && a < b); });
    std::vector<double> kept{0};
    for (const double shift_mm : shifts_mm) {
        const bool known =
            std::any_of(kept.begin(), kept.end(), [&](double other) { return std::abs(other - shift_mm) < kSame_mm; });
        if (!known && kept.size() < most) kept.push_back(shift_mm);
    }
    std::sort(kept.begin(), kept.end());
    return kept;
}

std::size_t placeOf(const std::vector<double>& shifts_mm) {
    return static_cast<std::size_t>(std::find(shifts_mm.begin(), shifts_mm.end(), 0.0) - shifts_mm.begin());
}

std::vector<Convex2> sectionsOf(const Machine& machine, std::size_t family) {
    const ToolFamily& tools = machine.families()[family];
    std::vector<Convex2> sections = machine.bodies()[tools.high].section;
    if (tools.low >= 0) {
        const std::vector<Convex2>& low = machine.bodies()[static_cast<std::size_t>(tools.low)].section;
        sections.insert(sections.end(), low.begin(), low.end());
    }
    return sections;
}

bool within(const Interval& one, const Interval& other) { return one.lo >= other.lo && one.hi <= other.hi; }

// A move that goes on as the last one went makes that longer.
void addTo(std::vector<ExitMove::Point>& path, const ExitMove::Point& next) {
    const auto way = [](const ExitMove::Point& a, const ExitMove::Point& b) {
        return Vec3(b.x_mm - a.x_mm, b.y_mm - a.y_mm, b.z_mm - a.z_mm);
    };
    if (path.size() > 1) {
        const Vec3 last = way(path[path.size() - 2], path.back());
        const Vec3 now = way(path.back(), next);
        if (last.dot(now) > 0 && last.cross(now).isZero()) path.pop_back();
    }
    path.push_back(next);
}

}  // namespace

PieceEscape::PieceEscape(const Machine& machine, RestShadows& part, const StandingTool& piece, BarString others,
                         Interval machine_x)
    : machine_(machine),
      part_(part),
      family_(machine.familyOf(piece.tool)),
      piece_(piece.at),
      others_(std::move(others)),
      machine_x_(machine_x) {
    std::vector<double> past_tools_mm;
    std::vector<double> past_part_mm;
    std::vector<double> up_mm;
    for (std::size_t family = 0; family < machine.families().size(); ++family)
        sections_.push_back(sectionsOf(machine, family));
    for (const Convex2& section : sections_[family_]) {
        for (const std::vector<Convex2>& other : sections_) {
            for (const Convex2& still : other)
                addClearances(section, still, 0, kBetweenTools_mm + kOff_mm, past_tools_mm);
        }
        for (const RestGroup& group : part.part()) {
            for (const Solid& solid : group.seenFrom(BodyKind::kBarHigh)) {
                addClearances(section, solid.section(), 0, kOff_mm, past_part_mm);
                addClearances(section, solid.section(), 1, kOff_mm, up_mm);
            }
        }
    }
    back_mm_ = nearest(std::move(past_tools_mm), kMostPastTools);
    const std::vector<double> past_part = nearest(std::move(past_part_mm), kMostPastPart);
    back_mm_.insert(back_mm_.end(), past_part.begin(), past_part.end());
    back_mm_ = nearest(std::move(back_mm_), back_mm_.size());
    up_mm_ = nearest(std::move(up_mm), kMostUp);
}

bool PieceEscape::meetsOther(std::size_t family, const Vec2& from, const Vec2& to) {
    const auto [entry, is_new] = part_.passes().try_emplace({family_, family, from.x(), from.y(), to.x(), to.y()});
    if (is_new) entry->second = sweepsOver(family, from, to);
    return entry->second;
}

bool PieceEscape::sweepsOver(std::size_t family, const Vec2& from, const Vec2& to) const {
    for (const Convex2& section : sections_[family_]) {
        for (const Convex2& still : sections_[family]) {
            if (boxesApart(boxOf(section), from, to, boxOf(still), kBetweenTools_mm)) continue;
            if (!apart(sweptBy(section.moved(from).points(), to - from), still, kBetweenTools_mm)) return true;
        }
    }
    return false;
}

// Where along x the piece stays clear of all on a straight step across the machine, and is no wider than the stretch.
std::vector<Interval> PieceEscape::gaps(Vec2 from, Vec2 to) {
    // A step and the same step back meet the same: what is met is kept by where it goes.
    if (std::pair(to.x(), to.y()) < std::pair(from.x(), from.y())) std::swap(from, to);
    IntervalSet barred = part_.bars(family_, from, to);
    for (const StandingTool& other : others_) {
        if (!barred.covers(other.at) && meetsOther(machine_.familyOf(other.tool), from, to)) barred.add(other.at);
    }
    const IntervalSet free = barred.gapsIn(machine_x_);
    std::vector<Interval> wide_enough;
    for (const Interval& gap : free.items()) {
        if (gap.length() >= piece_.length()) wide_enough.push_back(gap);
    }
    return wide_enough;
}

const std::vector<std::size_t>& PieceEscape::nodesOf(const Cell& cell) {
    const auto [entry, is_new] = cells_.try_emplace(cell);
    if (is_new) {
        for (const Interval& gap : gaps(at(cell), at(cell))) {
            entry->second.push_back(nodes_.size());
            nodes_.push_back({cell, gap, nodes_.size(), {}, false});
        }
    }
    return entry->second;
}

// Straight up, or back.
std::optional<PieceEscape::Exit> PieceEscape::exitOf(const Node& node) {
    for (const Vec2& by : {Vec2(0, PlanarEscape::kOut_mm), Vec2(PlanarEscape::kOut_mm, 0)}) {
        for (const Interval& gap : gaps(at(node.cell), at(node.cell) + by)) {
            if (within(gap, node.gap)) return Exit{gap, by};
        }
    }
    return std::nullopt;
}

void PieceEscape::step(std::size_t here, const Cell& to) {
    if (to.first >= back_mm_.size() || to.second >= up_mm_.size()) return;
    const std::vector<std::size_t>& next_ones = nodesOf(to);
    if (std::all_of(next_ones.begin(), next_ones.end(), [&](std::size_t next) { return nodes_[next].seen; })) return;
    for (const Interval& through : gaps(at(nodes_[here].cell), at(to))) {
        if (!within(through, nodes_[here].gap)) continue;
        for (const std::size_t next : next_ones) {
            Node& node = nodes_[next];
            if (node.seen || !within(through, node.gap)) continue;
            node.seen = true;
            node.from = here;
            node.through = through;
            open_.push_back(next);
        }
    }
}

std::optional<std::vector<ExitMove::Point>> PieceEscape::wayOut() {
    for (const std::size_t node : nodesOf({placeOf(back_mm_), placeOf(up_mm_)})) {
        nodes_[node].seen = within(piece_, nodes_[node].gap);
        if (nodes_[node].seen) open_.push_back(node);
    }
    while (!open_.empty()) {
        const std::size_t here = open_.front();
        open_.pop_front();
        if (const auto exit = exitOf(nodes_[here])) return pathTo(here, *exit);
        const auto [back, up] = nodes_[here].cell;
        step(here, {back + 1, up});
        step(here, {back - 1, up});  // none before the first: that is a very large one
        step(here, {back, up + 1});
        step(here, {back, up - 1});
    }
    return std::nullopt;
}

std::vector<ExitMove::Point> PieceEscape::pathTo(std::size_t node, const Exit& exit) const {
    std::vector<std::size_t> way{node};
    while (nodes_[way.back()].from != way.back()) way.push_back(nodes_[way.back()].from);
    std::reverse(way.begin(), way.end());
    std::vector<ExitMove::Point> path{{}};
    Vec2 place = Vec2::Zero();
    const auto go = [&](Interval through, const Vec2& to) {
        const Micron x = piece_.lo + micronNearest(path.back().x_mm);
        const Micron to_x = std::clamp(x, through.lo, through.hi - piece_.length());
        if (to_x != x) addTo(path, {toMm(to_x - piece_.lo), place.x(), place.y(), 0});
        place = to;
        addTo(path, {toMm(to_x - piece_.lo), place.x(), place.y(), 0});
    };
    for (std::size_t i = 1; i < way.size(); ++i) go(nodes_[way[i]].through, at(nodes_[way[i]].cell));
    go(exit.gap, place + exit.by);
    path.erase(path.begin());
    return path;
}

}  // namespace tinwright
