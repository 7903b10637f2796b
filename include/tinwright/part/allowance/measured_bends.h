// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/angle.h>

/// A shop's own table of test bends, and what it says about a bend between them.
///
///     MeasuredBends table = shop.measured_bends;
///     std::optional<MeasuredK> k = measuredK(table, {"dc01", "", 1.5, 1.5, Angle::degrees(90)});
///     if (!k) ... nothing measured reaches that far: see measuredRange()
namespace tinwright {

/// What one or more equal test strips came to.
struct MeasuredBend {
    std::string material;
    double thickness_mm = 0;
    double inside_radius_mm = 0;
    Angle angle;       ///< turned from flat
    double k = 0;      ///< neutral fibre at r + k t
    std::string tool;  ///< bar, punch or brake it was bent with; empty: not said
    int strips = 1;
    std::optional<double> spread_mm;  ///< largest less least deduction; none: not said
    std::string date;
};

struct MeasuredBends {
    std::vector<MeasuredBend> bends;
    std::vector<std::vector<std::string>> same_material;  ///< each: names that mean one material

    [[nodiscard]] bool isSameMaterial(std::string_view a, std::string_view b) const;
};

/// The bend that is asked about.
struct MeasuredQuery {
    std::string_view material;
    std::string_view tool;  ///< empty: bends whose tool is not said; where there are none, those of the one tool that
                            ///< was used
    double thickness_mm = 0;
    double inside_radius_mm = 0;
    Angle angle;
};

struct MeasuredK {
    double k = 0;
    std::string source;  ///< for people: which strips, and whether it lies between them
};

/// Up to this share a sheet or a radius is still the nominal one that was measured, and up to this angle the same bend.
/// Only where nothing was measured on the other side: that is as far past a table's end as it is trusted.
inline constexpr double kSameSize = 0.05;
inline constexpr double kSameAngle_deg = 1.0;

/// k in proportion between the nearest bends below and above, first over the angle at one radius and thickness, then
/// over the radius at one thickness (which is over r/t there), then over the thickness. Equal bends count as their
/// mean. Never past what was measured: nothing then, or when the material is not in the table.
[[nodiscard]] std::optional<MeasuredK> measuredK(const MeasuredBends& table, const MeasuredQuery& query);

/// The measured bend that is most like it, however far off; nullptr when there is none of the material and tool.
[[nodiscard]] const MeasuredBend* nearestMeasured(const MeasuredBends& table, const MeasuredQuery& query);

/// What is measured of the query's material and tool, for a message: "dc01: thickness 1 to 2 mm, inside radius 1 to 3
/// mm, 45 to 90 degrees". When there is nothing of it: what is measured at all.
[[nodiscard]] std::string measuredRange(const MeasuredBends& table, const MeasuredQuery& query);

}  // namespace tinwright
