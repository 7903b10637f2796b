// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace tinwright::app {

/// What `start` was told, as it was typed: lengths in the units of the file to be written.
struct StartOptions {
    std::string shape;
    std::string name;
    std::string units = "mm";
    std::string material = "mild-steel";
    std::vector<double> component;  ///< width, depth, height
    double gap = 0.5;
    std::optional<double> gap_width, gap_depth, gap_height;
    std::optional<double> thickness, radius, k;
    std::optional<std::string> open;
    std::vector<double> window, window_at;  ///< two each, or none
    std::optional<double> boss;
    std::vector<double> boss_at;
    std::optional<double> inside_height;
    std::vector<std::string> fix;  ///< sides, or "none" alone
    std::optional<int> fixings;
    std::optional<double> tab_length, tab_width, screw, lip, foot, upright;
    bool gap_given = false;
    bool force = false;
};

/// The options of `start` but for its output.
void addStartOptions(CLI::App& app, StartOptions& options);

/// Examples, one for each shape.
[[nodiscard]] std::string startHelp();

}  // namespace tinwright::app
