// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <nlohmann/json.hpp>

#include "start/start_json.h"
#include "start/start_sizes.h"

namespace tinwright {

/// What every piece of the recipe is written from.
struct StartDraft {
    const StartChoice& choice;
    const StartSizes& sizes;
    StartJson json;
};

using OrderedJson = nlohmann::ordered_json;

/// "cover", "floor", "web", "seat" or "face".
[[nodiscard]] std::string baseName(StartShape shape);
/// "inside_width" between two walls, "inside_depth" ...; "width", "length" where there are none: one for each axis of
/// the base.
[[nodiscard]] std::string baseDimension(const StartDraft& draft, std::size_t axis);
/// The wall at an edge of the base: "wall_left", "leg_left", "upright"; its height: "wall_height", "leg_height",
/// "upright_height".
[[nodiscard]] std::string wallAt(const StartDraft& draft, std::size_t edge);
[[nodiscard]] std::string heightName(StartShape shape);

[[nodiscard]] OrderedJson startBase(const StartDraft& draft);
/// Walls, then what hangs on them.
[[nodiscard]] OrderedJson startFlanges(const StartDraft& draft);
[[nodiscard]] OrderedJson startCorners(const StartDraft& draft);
/// Openings of the base, then holes for screws.
[[nodiscard]] OrderedJson startCutOuts(const StartDraft& draft);
/// Where every mating dimension comes from, and which face is drawn.
[[nodiscard]] std::string startNotes(const StartDraft& draft);

/// Tabs on the wall at an edge.
struct StartTab {
    std::string name;
    OrderedJson place;  ///< from_left, from_right or neither, and the width
};
[[nodiscard]] std::vector<StartTab> startTabs(const StartDraft& draft, std::size_t edge);

/// Whether something hangs on the wall at this edge, or it has holes itself.
[[nodiscard]] bool isFixed(const StartDraft& draft, std::size_t edge);

}  // namespace tinwright
