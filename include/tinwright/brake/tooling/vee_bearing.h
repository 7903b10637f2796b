// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake.h>

namespace tinwright {

/// How a die follows the sheet that bears on the shoulders of its V (src/fold/NOTES.md). Angles are those of half a
/// bend.
class VeeBearing {
public:
    /// `sheet_mm`: sheet thickness and inside radius, from the lower face at the tip up to the arc's centre.
    VeeBearing(const Vee& vee, double sheet_mm);

    /// How far the die's top is over where the stroke began. The sheet's lower face is `sink_mm` further from the arc's
    /// centre than when rolling, at most.
    struct Rise {
        double middle_mm = 0;  ///< of the highest (rolling) and the lowest
        double spread_mm = 0;  ///< half of what lies between them
        [[nodiscard]] double most_mm() const { return middle_mm + spread_mm; }
    };
    [[nodiscard]] Rise rise(double cos_h, double sin_h, double sink_mm) const;
    /// A bound of |d rise / dh| + |rise| up to `end_rad`, under a right angle, with `sink_mm` at most and d sink / dh
    /// at most `sink_rate_mm`.
    [[nodiscard]] double rate_mm_per_rad(double end_rad, double sink_mm, double sink_rate_mm) const;

    /// The steepest that the sheet may get: there its face lies on the flanks.
    [[nodiscard]] double steepest_rad() const { return steepest_rad_; }
    /// As steep as the flanks or less; an angle that is over them by its rounding alone is as steep as they are.
    [[nodiscard]] bool takes(double half_rad) const { return half_rad <= steepest_rad_ + kRounding_rad; }
    /// How far from the foot of the normal from the arc's centre the shoulders touch the sheet's lower face when the
    /// strip rolls, between two angles, give or take `stray_mm`.
    struct Reach {
        double middle_mm = 0;
        double stray_mm = 0;
    };
    [[nodiscard]] Reach reach(double from_rad, double to_rad) const;

    /// Over a stroke, whichever way the strip forms, bounded by spans: `half_set_rad` and `half_allowance_mm` are half
    /// of the set angle and of the strip.
    struct Bearing {
        double least_mm = 0;  ///< by how much the shoulders bear further out than the strip is bent
        double land_mm = 0;   ///< from where a side begins to where the shoulder bears on it
    };
    [[nodiscard]] Bearing bearing(double half_set_rad, double half_allowance_mm) const;

    /// Flat sheet that a side must have from the strip on to the end of that stroke, and a little past where it bears.
    [[nodiscard]] double leastFlat_mm(double half_set_rad, double half_allowance_mm) const;

private:
    static constexpr double kRounding_rad = 1e-9;

    double sheet_mm_;
    double shoulder_mm_;
    double half_width_mm_;  // of the shoulders' centres
    double steepest_rad_;
};

}  // namespace tinwright
