// SPDX-License-Identifier: GPL-3.0-or-later
#include "exits/escape_search.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "exits/planar_escape.h"

namespace tinwright {

namespace {

constexpr int kExitColumns = 2;

// The spans without their outermost millimetre, or quarter: a way keeps off what it passes where it can.
Span inside(const Span& span) {
    const double off_mm = std::min(1.0, 0.25 * span.length_mm());
    return {span.lo_mm + off_mm, span.hi_mm - off_mm};
}

}  // namespace

std::optional<std::vector<EscapePlace>> EscapeSearch::wayOut(bool may_go_up) {
    const auto first = start();
    if (!first) return std::nullopt;
    visit(*first, *first);
    while (!open_.empty() && rooms_seen_ < grid_.most_rooms) {
        const std::size_t here = open_.front();
        open_.pop_front();
        if (const auto exit = exitOf(nodes_[here], may_go_up)) return placesTo(here, *exit);
        for (const int by : {-1, 1}) visitBeside(here, by);
        for (const int by : {-1, 1}) visitTilted(here, by);
    }
    return std::nullopt;
}

// Column 0 is the start's y alone.
Span EscapeSearch::columnOf(int column) const {
    if (column == 0) return {0, 0};
    const double near_mm = grid_.y_mm.at(std::abs(column) - 1);
    const double far_mm = grid_.y_mm.at(std::abs(column));
    return column > 0 ? Span{near_mm, far_mm} : Span{-far_mm, -near_mm};
}

double EscapeSearch::tiltOf_deg(int tilt) const {
    return tilt < 0 ? -grid_.tilt_deg.at(-tilt) : grid_.tilt_deg.at(tilt);
}

bool EscapeSearch::within(const Cell& cell) const {
    return grid_.tilt_deg.at(std::abs(cell.first)) <= grid_.tilt_deg.reach &&
           grid_.y_mm.at(std::abs(cell.second)) <= grid_.y_mm.reach;
}

const EscapePlane& EscapeSearch::plane(int half_tilts) {
    std::unique_ptr<EscapePlane>& plane = planes_[half_tilts];
    const auto from = static_cast<int>(std::floor(0.5 * half_tilts));
    const auto to = static_cast<int>(std::ceil(0.5 * half_tilts));
    if (!plane) plane = std::make_unique<EscapePlane>(pairs_, pivot_, tiltOf_deg(from), tiltOf_deg(to));
    return *plane;
}

std::vector<FreeRoom> EscapeSearch::roomsAt(int half_tilts, int column) {
    const Span at = columnOf(column);
    return plane(half_tilts).rooms(at.lo_mm, at.hi_mm, travel_);
}

const std::vector<FreeRoom>& EscapeSearch::turningAt(int half_tilts, int column) {
    const auto [entry, is_new] = turning_.try_emplace({half_tilts, column});
    if (is_new) entry->second = roomsAt(half_tilts, column);
    return entry->second;
}

const std::vector<std::size_t>& EscapeSearch::nodesOf(const Cell& cell) {
    const auto [entry, is_new] = cells_.try_emplace(cell);
    if (is_new) {
        for (const FreeRoom& room : roomsAt(2 * cell.first, cell.second)) {
            entry->second.push_back(nodes_.size());
            nodes_.push_back({cell, room});
        }
    }
    return entry->second;
}

std::optional<std::size_t> EscapeSearch::start() {
    for (const std::size_t node : nodesOf({0, 0})) {
        const FreeRoom& room = nodes_[node].room;
        if (room.z.lo_mm <= 0 && room.z.hi_mm >= 0 && room.w.lo_mm <= 0 && room.w.hi_mm >= 0) return node;
    }
    return std::nullopt;
}

void EscapeSearch::visit(std::size_t node, std::size_t from) {
    nodes_[node].seen = true;
    nodes_[node].from = from;
    open_.push_back(node);
    ++rooms_seen_;
}

void EscapeSearch::visitBeside(std::size_t here, int by) {
    const Cell cell{nodes_[here].cell.first, nodes_[here].cell.second + by};
    if (!within(cell)) return;
    for (const std::size_t next : nodesOf(cell)) {
        if (!nodes_[next].seen && isOpen(common(nodes_[here].room, nodes_[next].room), travel_)) visit(next, here);
    }
}

void EscapeSearch::visitTilted(std::size_t here, int by) {
    const Cell cell{nodes_[here].cell.first + by, nodes_[here].cell.second};
    if (!within(cell)) return;
    const std::vector<std::size_t>& next_ones = nodesOf(cell);
    if (std::all_of(next_ones.begin(), next_ones.end(), [&](std::size_t next) { return nodes_[next].seen; })) return;
    for (const FreeRoom& turning : turningAt(2 * nodes_[here].cell.first + by, cell.second)) {
        const FreeRoom from_here = common(nodes_[here].room, turning);
        if (!isOpen(from_here, travel_)) continue;
        for (const std::size_t next : next_ones) {
            if (!nodes_[next].seen && isOpen(common(from_here, nodes_[next].room), travel_)) visit(next, here);
        }
    }
}

std::optional<EscapeSearch::Exit> EscapeSearch::exitOf(const Node& node, bool may_go_up) {
    // What can go straight forward gets to a column of which that is seen.
    if (node.cell.second % kExitColumns != 0) return std::nullopt;
    const Span at = columnOf(node.cell.second);
    const EscapePlane& here = plane(2 * node.cell.first);
    for (const FreeRoom& forward : here.rooms(-std::numeric_limits<double>::infinity(), at.hi_mm, travel_)) {
        const FreeRoom room = common(node.room, forward);
        if (isOpen(room, travel_)) return Exit{room, Vec2(-PlanarEscape::kOut_mm, 0)};
    }
    if (!may_go_up) return std::nullopt;
    const FreeRoom room = common(node.room, here.openAbove(at.lo_mm, at.hi_mm));
    return isOpen(room, travel_) ? std::optional(Exit{room, Vec2(0, PlanarEscape::kOut_mm)}) : std::nullopt;
}

// The nearest place in the room, a little off its bounds where there is so much of it.
EscapePlace EscapeSearch::into(const FreeRoom& room, EscapePlace place) const {
    FreeRoom keeps{inside(room.z), inside(room.w)};
    if (!isOpen(keeps, travel_)) keeps = room;
    place.z_mm = std::clamp(place.z_mm, std::max(keeps.z.lo_mm, keeps.w.lo_mm + travel_.down_mm),
                            std::min(keeps.z.hi_mm, keeps.w.hi_mm + travel_.up_mm));
    place.w_mm = std::clamp(place.w_mm, std::max(keeps.w.lo_mm, place.z_mm - travel_.up_mm),
                            std::min(keeps.w.hi_mm, place.z_mm - travel_.down_mm));
    return place;
}

void EscapeSearch::passOn(const Node& from, const Node& to, std::vector<EscapePlace>& places) {
    EscapePlace place = places.back();
    if (from.cell.first == to.cell.first) {
        const Span near =
            columnOf(std::abs(from.cell.second) < std::abs(to.cell.second) ? from.cell.second : to.cell.second);
        place.y_mm = to.cell.second + from.cell.second > 0 ? near.hi_mm : near.lo_mm;
        places.push_back(into(common(from.room, to.room), place));
        return;
    }
    const FreeRoom both = common(from.room, to.room);
    for (const FreeRoom& turning : turningAt(from.cell.first + to.cell.first, from.cell.second)) {
        const FreeRoom room = common(both, turning);
        if (!isOpen(room, travel_)) continue;
        place = into(room, place);
        places.push_back(place);
        place.tilt_deg = tiltOf_deg(to.cell.first);
        places.push_back(place);
        return;
    }
}

std::vector<EscapePlace> EscapeSearch::placesTo(std::size_t node, const Exit& exit) {
    std::vector<std::size_t> way{node};
    while (nodes_[way.back()].from != way.back()) way.push_back(nodes_[way.back()].from);
    std::reverse(way.begin(), way.end());
    std::vector<EscapePlace> places{EscapePlace{}};
    for (std::size_t i = 1; i < way.size(); ++i) passOn(nodes_[way[i - 1]], nodes_[way[i]], places);
    places.push_back(into(exit.room, places.back()));
    EscapePlace out = places.back();
    out.y_mm += exit.by.x();
    out.z_mm += exit.by.y();
    out.w_mm += exit.by.y();
    places.push_back(out);
    return places;
}

}  // namespace tinwright
