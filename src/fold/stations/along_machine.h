// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "contact/stroke_scene.h"
#include "setup/placed.h"

namespace tinwright {

/// Where along the machine the part may lie, and whether what stands there covers the bend.
class AlongMachine {
public:
    AlongMachine(ContactCache& table, BarStrings& strings) : table_(table), strings_(strings) {}

    /// Where the part's x may be (machine x of fold x = 0).
    [[nodiscard]] IntervalSet partRoom(const StrokeScene& scene, const Obstacles& obstacles, Micron margin) const;
    /// Where what holds the sheet stands, in machine x: of a leaf brake all of it, of a press brake each string of
    /// punches.
    [[nodiscard]] std::vector<Interval> stationsOf(const Placed& placed) const;
    [[nodiscard]] std::vector<Interval> stationsOf(const Setup& setup) const;
    /// The pieces of one row of tools.
    [[nodiscard]] BarString ofRow(const BarString& bars, ToolRow row) const;
    /// True when every row covers all stretches of the bend.
    [[nodiscard]] bool covered(const StrokeScene& scene, const BarString& bars) const;
    /// How much of the bend's length lies under bars, 0 to 1.
    [[nodiscard]] double coveredShare(const StrokeScene& scene, const BarString& bars) const;

private:
    ContactCache& table_;
    BarStrings& strings_;
};

}  // namespace tinwright
