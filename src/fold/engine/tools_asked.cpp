// SPDX-License-Identifier: GPL-3.0-or-later
#include "engine/tools_asked.h"

#include <algorithm>
#include <tuple>

namespace tinwright {

namespace {

constexpr Micron kLookedAt_um = kFar / 8;  // to either side of the bend
constexpr Micron kNoWalls_um = kFar / 16;  // room that is longer than this is not told

Micron lengthOf(const ToolsAsked::Room& room) { return room.at ? room.at->length() : 0; }

/// Those that are wanted; all of them when none is.
std::vector<std::size_t> kept(const std::vector<std::size_t>& families, auto wanted) {
    std::vector<std::size_t> some;
    std::copy_if(families.begin(), families.end(), std::back_inserter(some), wanted);
    return some.empty() ? families : some;
}

}  // namespace

ToolsAsked::ToolsAsked(FoldEngine::Impl& engine, const StrokeScene& scene) : engine_(engine), scene_(scene) {
    std::vector<std::size_t> all;
    for (std::size_t face = 0; face < engine.table.machine().faceCount(); ++face) all.push_back(face);
    const BendId bend = scene.bends.front().bend;
    faces_ = kept(all, [&](std::size_t face) {
        return engine.placer.faceServes(scene, face) && engine.table.tools().drivenClearsBeam(bend, face);
    });
    // Tools of other heights stand on other faces: one on which none of a row would do says nothing.
    for (const ToolRow row : {ToolRow::kUpper, ToolRow::kLower}) {
        const std::vector<std::size_t> families = ofRow(row, faces_);
        faces_ = kept(faces_, [&](std::size_t face) {
            return std::any_of(families.begin(), families.end(), [&](std::size_t f) { return suitsOn(f, face); });
        });
    }
}

bool ToolsAsked::isOf(ToolId tool, std::size_t family) const {
    return engine_.table.machine().familyOf(tool) == family;
}

bool ToolsAsked::suitsOn(std::size_t family, std::size_t face) const {
    return engine_.table.machine().standsOn(family, face) &&
           std::all_of(scene_.bends.begin(), scene_.bends.end(), [&](const StrokeBend& bend) {
               return engine_.table.tools().fits(bend.bend, bend.hold, family, face);
           });
}

bool ToolsAsked::suits(std::size_t family, const std::vector<std::size_t>& faces) const {
    return std::any_of(faces.begin(), faces.end(), [&](std::size_t face) { return suitsOn(family, face); });
}

bool ToolsAsked::wouldCover(std::size_t family) const {
    const Machine& machine = engine_.table.machine();
    BarRequest request{scene_.needs, {}, {}};
    request.free.add(Interval{scene_.needs.front().lo - kFar, scene_.needs.back().hi + kFar});
    request.allowed.assign(machine.brake()->toolCount(), false);
    for (const ToolId tool : machine.brake().tools()) request.allowed[tool.index()] = isOf(tool, family);
    int offered = 0;
    bool cut_short = false;
    const auto any = [](const BarString&) { return true; };
    return engine_.strings.choose(request, any, offered, cut_short) || cut_short;
}

std::vector<std::size_t> ToolsAsked::ofRow(ToolRow row, const std::vector<std::size_t>& faces) const {
    const Machine& machine = engine_.table.machine();
    std::vector<std::size_t> families;
    for (std::size_t f = 0; f < machine.families().size(); ++f) {
        if (machine.families()[f].row == row) families.push_back(f);
    }
    families = kept(families, [&](std::size_t family) { return suits(family, faces); });
    return kept(families, [&](std::size_t family) { return wouldCover(family); });
}

ToolsAsked::Room ToolsAsked::roomOf(std::size_t family, const Obstacles& blocked) const {
    const Interval need{scene_.needs.front().lo, scene_.needs.back().hi};
    const Interval window{need.lo - kLookedAt_um, need.hi + kLookedAt_um};
    const Micron middle = (need.lo + need.hi) / 2;
    const IntervalSet free = blocked.bars[family].gapsIn(window);
    for (const Interval& item : free.items()) {
        if (item.lo < middle && middle < item.hi) return {family, item, item.length() <= kNoWalls_um};
    }
    return {family, std::nullopt, true};
}

ToolsAsked::Room ToolsAsked::room(const std::vector<ToolRow>& rows, const Obstacles& blocked,
                                  const std::vector<std::size_t>& faces, std::optional<std::size_t> upper) const {
    std::optional<Room> least;
    for (const ToolRow row : rows) {
        std::optional<Room> most;
        for (const std::size_t family : ofRow(row, faces)) {
            if (row == ToolRow::kUpper && upper.value_or(family) != family) continue;
            const Room room = roomOf(family, blocked);
            if (!most || lengthOf(room) > lengthOf(*most)) most = room;
        }
        if (most && (!least || lengthOf(*most) < lengthOf(*least))) least = most;
    }
    return least.value_or(Room{});
}

bool ToolsAsked::isOneOfSeveral(std::size_t family) const {
    const std::vector<ToolFamily>& all = engine_.table.machine().families();
    const auto of_row = [&](const ToolFamily& other) { return other.row == all[family].row; };
    return std::count_if(all.begin(), all.end(), of_row) > 1 && wouldCover(family);
}

ToolId ToolsAsked::named(std::size_t family) const {
    const BrakeInSetup& brake = engine_.table.machine().brake();
    ToolId best = engine_.table.machine().toolOf(family);
    for (const ToolId tool : brake.tools()) {
        if (!isOf(tool, family)) continue;
        const Tool& one = brake->tool(tool);
        const Tool& known = brake->tool(best);
        if (std::tuple(-one.width_mm, one.id) < std::tuple(-known.width_mm, known.id)) best = tool;
    }
    return best;
}

}  // namespace tinwright
