// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "start/start_parts.h"

namespace tinwright {

namespace {

using Json = OrderedJson;
constexpr std::array<const char*, 3> kAxes{"width", "depth", "height"};

// The first of its kind has the name; the others are told by it.
class Once {
public:
    explicit Once(const StartDraft& draft) : draft_(draft) {}
    Json operator()(double mm, const std::string& name) {
        const bool is_new = std::find(said_.begin(), said_.end(), name) == said_.end();
        if (!is_new) return StartJson::same(name);
        said_.push_back(name);
        return draft_.json.named(mm, name);
    }

private:
    const StartDraft& draft_;
    std::vector<std::string> said_;
};

Json wall(const StartDraft& draft, std::size_t edge, Once& once) {
    const StartSizes& s = draft.sizes;
    const double length = s.inside_height_mm + (s.far == FarEdge::kTurnedOut ? s.thickness_mm : 0);
    Json flange;
    flange["name"] = wallAt(draft, edge);
    flange["on"] = baseName(draft.choice.shape) + "." + kBaseEdges[edge];
    flange["length"] = once(length, heightName(draft.choice.shape));
    // Under a lip the component is closed in: its height mates too.
    if (s.far == FarEdge::kTurnedIn && !flange["length"].contains("is")) flange["length"]["locked"] = true;
    if (isBox(draft.choice.shape) && s.mitre_deg > 0) {
        flange["left_mitre"] = s.mitre_deg;
        flange["right_mitre"] = s.mitre_deg;
    }
    return flange;
}

void addTabs(const StartDraft& draft, std::size_t edge, Once& once, Json& flanges) {
    for (const StartTab& tab : startTabs(draft, edge)) {
        Json flange;
        flange["name"] = tab.name;
        flange["on"] = wallAt(draft, edge) + ".far";
        flange["direction"] = "down";
        flange["length"] = once(draft.sizes.turned_mm, "tab_length");
        if (tab.place.contains("from_left")) flange["from_left"] = tab.place["from_left"];
        if (tab.place.contains("from_right")) flange["from_right"] = once(draft.sizes.tab_inset_mm, "tab_inset");
        flange["width"] = once(draft.sizes.tab_width_mm, "tab_width");
        flanges.push_back(flange);
    }
}

void addWholeEdge(const StartDraft& draft, std::size_t edge, Once& once, Json& flanges) {
    const bool lip = draft.sizes.far == FarEdge::kTurnedIn;
    Json flange;
    flange["name"] = (lip ? "lip_" : "foot_") + std::string(toText(draft.sizes.view.at[edge]));
    flange["on"] = wallAt(draft, edge) + ".far";
    if (!lip) flange["direction"] = "down";
    flange["length"] = once(draft.sizes.turned_mm, lip ? "lip_length" : "foot_length");
    flanges.push_back(flange);
}

}  // namespace

std::string baseName(StartShape shape) {
    switch (shape) {
        case StartShape::kHousing: return "cover";
        case StartShape::kTray: return "floor";
        case StartShape::kBracket: return "seat";
        case StartShape::kWindowFace: return "face";
        case StartShape::kChannel:
        case StartShape::kHat: break;
    }
    return "web";
}

std::string baseDimension(const StartDraft& draft, std::size_t axis) {
    const std::string size = kAxes[axis == 0 ? draft.sizes.view.width : draft.sizes.view.depth];
    if (draft.sizes.wallsAcross(axis) > 0) return "inside_" + size;
    return axis == 0 ? size : "length";
}

std::string wallAt(const StartDraft& draft, std::size_t edge) {
    if (isBox(draft.choice.shape)) return wallName(draft.sizes.view.at[edge]);
    if (draft.choice.shape == StartShape::kBracket) return "upright";
    return "leg_" + std::string(toText(draft.sizes.view.at[edge]));
}

std::string heightName(StartShape shape) {
    if (isBox(shape)) return "wall_height";
    return shape == StartShape::kBracket ? "upright_height" : "leg_height";
}

bool isFixed(const StartDraft& draft, std::size_t edge) {
    const auto& fix = draft.sizes.fix;
    return draft.sizes.has_wall[edge] && std::find(fix.begin(), fix.end(), draft.sizes.view.at[edge]) != fix.end();
}

OrderedJson startBase(const StartDraft& draft) {
    Json base;
    base["name"] = baseName(draft.choice.shape);
    for (const std::size_t axis : {std::size_t{0}, std::size_t{1}}) {
        const double mm = axis == 0 ? draft.sizes.across_mm : draft.sizes.along_mm;
        const std::string name = baseDimension(draft, axis);
        base[axis == 0 ? "width" : "depth"] =
            draft.sizes.wallsAcross(axis) > 0 ? draft.json.mating(mm, name) : draft.json.named(mm, name);
    }
    return base;
}

std::vector<StartTab> startTabs(const StartDraft& draft, std::size_t edge) {
    const StartSizes& s = draft.sizes;
    const std::string name = "tab_" + std::string(toText(s.view.at[edge]));
    if (s.fixings == 1) return {{name, Json::object()}};
    const double pitch = (s.farEdge_mm(edge) - 2 * s.tab_inset_mm - s.tab_width_mm) / (s.fixings - 1);
    std::vector<StartTab> tabs;
    for (int i = 0; i < s.fixings; ++i) {
        Json place = Json::object();
        if (i + 1 == s.fixings)
            place["from_right"] = draft.json.length(s.tab_inset_mm);
        else if (i == 0)
            place["from_left"] = draft.json.length(s.tab_inset_mm);
        else
            place["from_left"] = std::round(draft.json.length(s.tab_inset_mm + i * pitch) * 1000) / 1000;
        tabs.push_back({fmt::format("{}_{}", name, i + 1), place});
    }
    return tabs;
}

OrderedJson startFlanges(const StartDraft& draft) {
    Once once(draft);
    Json flanges = Json::array();
    for (std::size_t edge = 0; edge < 4; ++edge) {
        if (draft.sizes.has_wall[edge]) flanges.push_back(wall(draft, edge, once));
    }
    for (std::size_t edge = 0; edge < 4; ++edge) {
        if (!draft.sizes.has_wall[edge] || draft.sizes.far == FarEdge::kFree) continue;
        if (!isBox(draft.choice.shape))
            addWholeEdge(draft, edge, once, flanges);
        else if (isFixed(draft, edge))
            addTabs(draft, edge, once, flanges);
    }
    return flanges;
}

OrderedJson startCorners(const StartDraft& draft) {
    Json corners = Json::array();
    for (std::size_t edge = 0; edge < 4 && isBox(draft.choice.shape); ++edge) {
        Json corner;
        corner["between"] = {wallAt(draft, edge), wallAt(draft, (edge + 1) % 4)};
        corner["type"] = draft.choice.corners == StartCorners::kWeld ? "butt" : "open";
        corner["gap"] =
            edge == 0 ? draft.json.named(draft.sizes.corner_gap_mm, "corner_gap") : StartJson::same("corner_gap");
        corners.push_back(corner);
    }
    return corners;
}

}  // namespace tinwright
