// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/io/start/start_part.h>

#include "options/choices.h"

namespace tinwright::app {

/// What `start` was told, as it was typed: lengths in the units of the file to be written.
struct StartArguments {
    std::string shape;
    std::string name;
    std::string units = "mm";
    std::string material = "mild-steel";
    std::vector<double> component;  ///< width, depth, height
    double gap = 0.5;
    std::optional<double> gap_width, gap_depth, gap_height;
    std::optional<double> thickness, radius, k;
    std::optional<std::string> open;
    std::string corners = "open";
    std::vector<double> window, window_at;  ///< two each, or none
    std::optional<double> boss;
    std::vector<double> boss_at;
    std::optional<double> inside_height;
    std::vector<std::string> fix;  ///< sides, or "none" alone
    std::optional<int> fixings;
    std::optional<double> tab_length, tab_width, screw, lip, foot, upright;
    bool gap_given = false;
    bool force = false;  ///< write over a file that is there already
    std::string out_path;
    ShopChoice shop;  ///< whose bars are to come between the walls; may have no path
};

[[nodiscard]] std::vector<Option> startOptions(StartArguments& arguments);

/// Issues: "usage", of options that do not go together.
[[nodiscard]] Result<StartChoice> startChoice(const StartArguments& arguments);

}  // namespace tinwright::app
