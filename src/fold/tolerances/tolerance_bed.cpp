// SPDX-License-Identifier: GPL-3.0-or-later
// What lies on the sheet that swings, over the bed.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "tolerances/tolerance_table.h"

namespace tinwright {

// What lies on the moving sheet and nowhere under it: with f its distance in front of the strip's end and g its height
// over the nose centre, z >= T0 + f sin a + g cos a, T0 = t + rn, g >= -T0 (NOTES.md).
std::optional<double> ToleranceTable::overBedLack_mm(std::uint32_t record) {
    const GroupRecord& contact = table_.at(record);
    const int formed = deviation(record, Phase::kBefore).formedBends();
    if (!contact.moving || !contact.rises) return std::nullopt;
    if (leavesTheNose(record)) return 0;
    const Inflated& group = inflated(record, SeenFrom::kBed, true);
    if (formed > 1 && group.z_lo_mm < -kFlat_mm) return std::nullopt;
    const SwingBounds& how = swingBounds(contact.bend);
    double least_mm = 0;
    for (const Solid& solid : group.solids) {
        least_mm = std::min(least_mm, leastRising_mm(solid, how.motions.swing));
        if (how.motions.swing.set_rad() > 0.5 * std::numbers::pi)
            least_mm = std::min(least_mm, leastFalling_mm(solid, how.motions.swing) - how.bed_mm);
    }
    return std::max(0.0, -kContactTolerance_mm - least_mm);
}

// To a right angle: what is in front of the strip's end stays over the bed, what is behind it comes down by a right
// angle at the latest, or, lower than the nose centre, by hypot(g, f) under it. By then it may have passed the bed's
// back.
double ToleranceTable::leastRising_mm(const Solid& solid, const Swing& swing) const {
    const double rise_mm = swing.centre().y();
    double least_mm = 0;
    double behind_mm = 0;
    double lowest_mm = std::numeric_limits<double>::infinity();
    for (const Vec3& corner : solid.corners()) {
        const double f = swing.centre().x() - swing.allowance_mm() - corner.y();
        const double g = corner.z() - rise_mm;
        lowest_mm = std::min(lowest_mm, g);
        if (f >= 0) continue;
        behind_mm = std::max(behind_mm, -f);
        least_mm = std::min(least_mm, rise_mm - (g < 0 ? std::hypot(f, std::max(g, -rise_mm)) : -f));
    }
    const bool passed =
        lowest_mm > 0 && swing.centre().x() + lowest_mm * lowest_mm / std::hypot(lowest_mm, behind_mm) > bed_back_mm_;
    return passed ? 0 : least_mm;
}

// From a right angle on: least at the end; without bound for what is behind the bed by then. Behind the nose centre y
// is concave in the angle, so that it is least at an end.
double ToleranceTable::leastFalling_mm(const Solid& solid, const Swing& swing) const {
    const double sine = std::sin(swing.set_rad());
    const double cosine = std::cos(swing.set_rad());
    constexpr double kNowhere_mm = std::numeric_limits<double>::infinity();
    double least_mm = kNowhere_mm;
    double front_mm = kNowhere_mm;
    for (const Vec3& corner : solid.corners()) {
        const double f = swing.centre().x() - swing.allowance_mm() - corner.y();
        const double g = corner.z() - swing.centre().y();
        least_mm = std::min(least_mm, swing.centre().y() + (f > 0 ? f * sine : f) + std::max(0.0, g) * cosine);
        front_mm =
            std::min({front_mm, swing.centre().x() + g, swing.centre().x() + g * sine - std::min(f, 0.0) * cosine});
    }
    return front_mm > bed_back_mm_ ? kNowhere_mm : least_mm;
}

}  // namespace tinwright
