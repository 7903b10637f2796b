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

    /// The steepest that the sheet may get: past it its face would lie on the flanks.
    [[nodiscard]] double steepest_rad() const { return steepest_rad_; }
    /// How far from the foot of the normal from the arc's centre the shoulders touch the sheet's lower face when the
    /// strip rolls, between two angles, give or take `stray_mm`.
    struct Reach {
        double middle_mm = 0;
        double stray_mm = 0;
    };
    [[nodiscard]] Reach reach(double from_rad, double to_rad) const;

private:
    double sheet_mm_;
    double shoulder_mm_;
    double half_width_mm_;  // of the shoulders' centres
    double steepest_rad_;
};

}  // namespace tinwright
