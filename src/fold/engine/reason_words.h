// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

namespace tinwright {

/// What is said of a stroke that cannot be made, after "bend, side held: ". Angles are those of the whole bend.
struct ReasonWords {
    const BrakeInSetup& brake;

    /// It must be set to `set_deg`; leaf or V go to `most_deg`. `bend_deg`: as drawn.
    [[nodiscard]] std::string overAngle(double bend_deg, double set_deg, double most_deg) const;
    [[nodiscard]] std::string noLand(const std::string& held, const Limits& limits) const;
    [[nodiscard]] std::string trapped() const;
    [[nodiscard]] std::string nowhere() const;
    /// `panel` of the held side is met by the swinging leaf.
    [[nodiscard]] std::string leafMeets(const std::string& panel, double at_deg, double bend_deg) const;
    /// Neither of a row suits the bend, wherever it stands. Of press brakes.
    [[nodiscard]] std::string noTool(ToolRow row, double set_deg) const;
    /// No string covers so much of the bend; `space`: what is free there. `lacks`: the row of a press brake of which
    /// there are too few pieces whatever is free.
    [[nodiscard]] std::string noString(std::optional<ToolRow> lacks, double bend_mm, const std::string& space,
                                       const Limits& limits) const;
};

}  // namespace tinwright
