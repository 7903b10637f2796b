// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace tinwright::app {

/// What `calibrate` was told, as it was typed.
struct CalibrateOptions {
    std::string strips_path;          ///< empty: one strip by options
    std::optional<std::string> into;  ///< shop file to write into
    std::string material;
    std::string tool;
    std::string units = "mm";
    std::string measured = "outside";
    std::string date;
    std::optional<double> thickness, radius, flat;
    std::vector<double> legs;
    double angle_deg = 90;
    std::optional<double> measuring_error;
    bool any_of_strip = false;  ///< some option of a single strip was given
};

void addCalibrateOptions(CLI::App& app, CalibrateOptions& options);
[[nodiscard]] std::string calibrateHelp();

}  // namespace tinwright::app
