// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/press_motion.h"

#include <cmath>
#include <numbers>

namespace tinwright::replay {

namespace {

// How far the centre of a shoulder's arc is from the middle of the V: it touches the top as far outside the corner of
// top and flank as the flank under it.
double shoulderCentre_mm(const Vee& vee) {
    const double corner_rad = 0.5 * std::numbers::pi - 0.5 * vee.angle.rad();
    return 0.5 * vee.opening_mm + vee.shoulder_radius_mm * std::tan(0.5 * corner_rad);
}

}  // namespace

double dieRise_mm(const Bending& stroke, const Vee& vee, const Motion& motion, double angle_rad) {
    // The front shoulder's centre, at (-c, d - s), is s further out from the bend's centre along the sheet's normal
    // (-sin h, -cos h) than the sheet's outer face.
    const double h = 0.5 * angle_rad;
    const double s = vee.shoulder_radius_mm;
    const double out = outerFace_mm(stroke, motion, angle_rad) + s;
    return s + stroke.centre().y() - (out - shoulderCentre_mm(vee) * std::sin(h)) / std::cos(h);
}

double bearingPlace_mm(const Bending& stroke, const Vee& vee, const Motion& motion, double angle_rad) {
    // The sheet touches the shoulder where the shoulder's centre is over it: so far along it from the foot of the
    // normal. What is there was w nearer to the bend's centre while the sheet was flat.
    const double h = 0.5 * angle_rad;
    const double below = dieRise_mm(stroke, vee, motion, angle_rad) - vee.shoulder_radius_mm - stroke.centre().y();
    const double from_foot = shoulderCentre_mm(vee) * std::cos(h) + below * std::sin(h);
    return from_foot + shiftBeforeTurn(stroke, motion, angle_rad).x();
}

}  // namespace tinwright::replay
