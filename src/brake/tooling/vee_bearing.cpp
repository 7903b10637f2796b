// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/tooling/vee_bearing.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tinwright {

VeeBearing::VeeBearing(const Vee& vee, double sheet_mm)
    : sheet_mm_(sheet_mm),
      shoulder_mm_(vee.shoulder_radius_mm),
      half_width_mm_(0.5 * vee.opening_mm +
                     vee.shoulder_radius_mm * std::tan(0.5 * (std::numbers::pi / 2 - 0.5 * vee.angle.rad()))),
      steepest_rad_(std::numbers::pi / 2 - 0.5 * vee.angle.rad()) {}

VeeBearing::Rise VeeBearing::rise(double cos_h, double sin_h, double sink_mm) const {
    const double rolling_mm = shoulder_mm_ + sheet_mm_ - (sheet_mm_ + shoulder_mm_ - half_width_mm_ * sin_h) / cos_h;
    const double lower_mm = sink_mm / cos_h;
    return {rolling_mm - 0.5 * lower_mm, 0.5 * lower_mm};
}

// With k = sheet + shoulder + sink: rise = shoulder + sheet - k / cos h + c tan h, so |rise| <= k / cos + c tan + k,
// and |d rise / dh| <= k sin / cos² + c / cos² + sink' / cos.
double VeeBearing::rate_mm_per_rad(double end_rad, double sink_mm, double sink_rate_mm) const {
    const double cosine = std::cos(end_rad);
    const double k = sheet_mm_ + shoulder_mm_ + sink_mm;
    const double rise_mm = k / cosine + half_width_mm_ / cosine + k;
    return rise_mm + (k + half_width_mm_) / (cosine * cosine) + sink_rate_mm / cosine;
}

// (c cos h + (z_s - C_z) sin h) with the shoulders' centres at z_s = C_z - (u + s - c sin h) / cos h is c / cos h - (u
// + s) tan h, which changes by no more than (c + u + s) / cos² h.
VeeBearing::Reach VeeBearing::reach(double from_rad, double to_rad) const {
    const double middle_rad = 0.5 * (from_rad + to_rad);
    const double k = sheet_mm_ + shoulder_mm_;
    const double cosine = std::cos(to_rad);
    return {(half_width_mm_ - k * std::sin(middle_rad)) / std::cos(middle_rad),
            0.5 * (to_rad - from_rad) * (half_width_mm_ + k) / (cosine * cosine)};
}

// Of a strip that rolls A (1 - h / S) is still flat on either side of the foot of the normal from C; of one that curves
// the arc ends D sin h from it, D = A (1 / h - 1 / S), and the sheet is D (1 - cos h) lower.
VeeBearing::Bearing VeeBearing::bearing(double end, double half_allowance_mm) const {
    constexpr int kSpans = 512;
    Bearing result{1e9, 0};
    for (int i = 0; i < kSpans; ++i) {
        const double from = end * i / kSpans;
        const double to = end * (i + 1) / kSpans;
        const double arc_mm = half_allowance_mm * (1 - from / end);
        const double sink_mm = arc_mm * (1 - std::cos(to)) / to;
        const Reach touches = reach(from, to);
        result.least_mm =
            std::min(result.least_mm, touches.middle_mm - touches.stray_mm - arc_mm - sink_mm * std::tan(to));
        result.land_mm = std::max(result.land_mm, touches.middle_mm + touches.stray_mm -
                                                      half_allowance_mm * (1 - to / end) * std::sin(to) / to);
    }
    return result;
}

double VeeBearing::leastFlat_mm(double half_set_rad, double half_allowance_mm) const {
    constexpr double kPastShoulder_mm = 0.3;
    return bearing(half_set_rad, half_allowance_mm).land_mm + kPastShoulder_mm;
}

}  // namespace tinwright
