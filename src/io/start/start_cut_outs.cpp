// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "start/start_parts.h"

namespace tinwright {

namespace {

using Json = OrderedJson;

Json locked(const StartDraft& draft, double mm, const std::string& name) {
    Json dimension = draft.json.named(mm, name);
    dimension["locked"] = true;
    return dimension;
}

// A round one is placed by its centre.
Json place(const StartDraft& draft, const StartOpening& opening, std::size_t edge, double side_mm, double size_mm,
           const char* way) {
    Json at;
    at["from"] = kBaseEdges[edge];
    at["datum"] = draft.sizes.has_wall[edge] ? "inside" : "edge";
    at["distance"] =
        locked(draft, side_mm + (opening.round ? 0.5 * size_mm : 0), fmt::format("{}_{}", opening.word, way));
    if (!opening.round) at["to"] = "near-side";
    return at;
}

Json cutOut(const StartDraft& draft, const StartOpening& opening) {
    Json cut;
    cut["name"] = opening.round ? "boss_hole" : "window";
    cut["on"] = baseName(draft.choice.shape);
    cut["shape"] = opening.round ? "circle" : "rectangle";
    if (opening.round) {
        cut["diameter"] = locked(draft, opening.width_mm, "boss_hole_diameter");
    } else {
        cut["width"] = locked(draft, opening.width_mm, "window_width");
        cut["height"] = locked(draft, opening.height_mm, "window_height");
    }
    const BaseView& view = draft.sizes.view;
    cut["at"] = {place(draft, opening, view.left, opening.left_mm, opening.width_mm, "from_left"),
                 place(draft, opening, view.lower, opening.lower_mm, opening.height_mm, "from_lower")};
    return cut;
}

class ScrewHoles {
public:
    ScrewHoles(const StartDraft& draft, Json& cut_outs) : draft_(draft), cut_outs_(cut_outs) {}

    void add(const std::string& name, const std::string& panel, double from_left_mm) {
        Json cut;
        cut["name"] = name;
        cut["on"] = panel;
        cut["shape"] = "circle";
        cut["diameter"] =
            said_ ? StartJson::same("screw_hole") : draft_.json.named(draft_.sizes.screw_mm, "screw_hole");
        said_ = true;
        cut["at"] = {
            Json{{"from", "far"}, {"datum", "edge"}, {"distance", draft_.json.length(draft_.sizes.screw_from_far_mm)}},
            Json{{"from", "left"}, {"datum", "edge"}, {"distance", draft_.json.length(from_left_mm)}}};
        cut_outs_.push_back(cut);
    }

    // Evenly along a whole edge, half a pitch from its ends.
    void addRow(const std::string& side, const std::string& panel, double edge_mm) {
        const int count = draft_.sizes.fixings;
        for (int i = 0; i < count; ++i)
            add(fmt::format("screw_{}_{}", side, i + 1), panel, edge_mm * (2 * i + 1) / (2 * count));
    }

private:
    const StartDraft& draft_;
    Json& cut_outs_;
    bool said_ = false;
};

void addScrewHoles(const StartDraft& draft, Json& cut_outs) {
    ScrewHoles holes(draft, cut_outs);
    for (std::size_t edge = 0; edge < 4; ++edge) {
        if (!isFixed(draft, edge)) continue;
        const std::string side(toText(draft.sizes.view.at[edge]));
        if (draft.choice.shape == StartShape::kBracket) {
            holes.addRow(side, "upright", draft.sizes.across_mm);
        } else if (draft.choice.shape == StartShape::kHat) {
            holes.addRow(side, "foot_" + side, draft.sizes.along_mm);
        } else {
            for (const StartTab& tab : startTabs(draft, edge))
                holes.add("screw" + tab.name.substr(3), tab.name, 0.5 * draft.sizes.tab_width_mm);
        }
    }
}

}  // namespace

OrderedJson startCutOuts(const StartDraft& draft) {
    Json cut_outs = Json::array();
    for (const StartOpening& opening : startOpenings(draft.choice, draft.sizes))
        cut_outs.push_back(cutOut(draft, opening));
    if (draft.sizes.screw_mm > 0) addScrewHoles(draft, cut_outs);
    return cut_outs;
}

}  // namespace tinwright
