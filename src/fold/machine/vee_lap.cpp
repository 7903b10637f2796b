// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/vee_lap.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/brake/tooling/vee_bearing.h>

namespace tinwright {

namespace {

constexpr int kLapSpans = 512;  // of the stroke, each bounded as a whole

}  // namespace

// A point that laps by no more than e, v under the arc's centre C (0 <= v <= sheet_mm), is at half angle h at y = v sin
// h - e cos h, z = C_z - v cos h - e sin h, or further up and towards its own side: a strip that rolls is still flat at
// its end, and one that curves has a larger arc, whose centre is over C. The other half of the die lies under the line
// of its flank; where the V is filled up, under its floor. Over a span of angles v (cot(φ / 2) sin h - cos h) is least
// at its start, and so is the rise greatest at its end as long as the sheet bears on the shoulders (dieFits).
double lapClearance_mm(const VeeBend& bend, double lap_mm) {
    const VeeBearing bearing(bend.vee, bend.sheet_mm);
    if (!bearing.takes(bend.half_rad)) return -lap_mm;
    const double flank = std::tan(bearing.steepest_rad());
    const double half_vee_mm = 0.5 * bend.vee.opening_mm;
    // What reaches higher than C is over the other side's lower face all along if it is where it passes C
    // (overDies_mm).
    double clear_mm = bend.sheet_mm - lap_mm;
    for (int i = 0; i < kLapSpans; ++i) {
        const double from = bend.half_rad * i / kLapSpans;
        const double to = bend.half_rad * (i + 1) / kLapSpans;
        const double rise_mm = bearing.rise(std::cos(to), std::sin(to), 0).most_mm();
        const double back_mm = std::min(0.0, bend.sheet_mm * (flank * std::sin(from) - std::cos(from)));
        const double over_flank_mm =
            bend.sheet_mm + back_mm - rise_mm + half_vee_mm * flank - lap_mm * (std::sin(to) + flank * std::cos(from));
        const double over_floor_mm =
            bend.sheet_mm * (1 - std::cos(from)) - rise_mm + bend.free_mm - lap_mm * std::sin(to);
        clear_mm = std::min({clear_mm, over_flank_mm * std::cos(bearing.steepest_rad()), over_floor_mm});
    }
    return clear_mm;
}

}  // namespace tinwright
