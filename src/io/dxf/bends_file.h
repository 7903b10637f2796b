// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/recipe/recipe.h>

namespace tinwright {

/// How a line is bent, as far as it is said.
struct BendSaid {
    std::optional<double> angle_deg;
    std::optional<bool> up;
    std::optional<double> inside_radius_mm;
    std::optional<double> allowance_mm;
};

struct DrawnLine {
    Vec2 from = Vec2::Zero();
    Vec2 to = Vec2::Zero();
};

/// One bend of a bends file, by a point near its line or by the line itself.
struct BendEntry {
    std::string name;
    BendSaid said;
    std::optional<Vec2> at;
    std::vector<DrawnLine> lines;
    std::string place;
};

struct LayerRules {
    std::vector<std::string> cut;
    std::vector<std::string> bend;
    std::vector<std::string> ignored;
    std::vector<std::string> bend_line_types;
};

/// What goes with a drawing. In mm.
struct BendsFile {
    std::string file;
    std::string name;  ///< of the part; empty: that of the drawing
    std::optional<double> mm_per_drawing_unit;
    Sheet sheet;
    AllowanceChoice allowance;
    double gap_mm = 0.1;  ///< in the outline, that is closed
    std::string base_name = "base";
    std::optional<Vec2> base_at;
    BendSaid standard;  ///< of bends that say nothing else; with a radius
    LayerRules layers;
    std::vector<BendEntry> bends;
};

/// Safe on any bytes; all issues at once, codes "json." and "bends.".
[[nodiscard]] Result<BendsFile> readBendsFile(std::string_view text, const std::string& file);

}  // namespace tinwright
