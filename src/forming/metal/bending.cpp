// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/metal/bending.h>

#include <numbers>

namespace tinwright {

namespace {

constexpr double kMu0 = 4e-7 * std::numbers::pi;  // T m / A
constexpr double kThinOver = 10;                  // w/s from which Oehler's C falls to 1

}  // namespace

double bendForce_n(double factor, double tensile_mpa, double length_mm, double thickness_mm, double opening_mm) {
    return factor * tensile_mpa * length_mm * thickness_mm * thickness_mm / opening_mm;
}

double oehlerForce_n(double tensile_mpa, double length_mm, double thickness_mm, double opening_mm) {
    const bool narrow = opening_mm / thickness_mm <= kThinOver;
    return bendForce_n(narrow ? 1 + 4 * thickness_mm / opening_mm : 1.0, tensile_mpa, length_mm, thickness_mm,
                       opening_mm);
}

double bendingWork_j(double force_n, double stroke_mm, double fullness) {
    return force_n * stroke_mm * fullness / 1000;
}

double usualDieOpening_mm(double thickness_mm) {
    if (thickness_mm <= 2.6) return 6 * thickness_mm;
    if (thickness_mm <= 8) return 8 * thickness_mm;
    return (thickness_mm <= 10 ? 10 : 12) * thickness_mm;
}

double airBendRadius_mm(double opening_mm) { return 0.16 * opening_mm; }
double airBendLeastFlange_mm(double opening_mm) { return 0.7 * opening_mm; }

double firstYieldMoment_nmm(double stress_mpa, double width_mm, double thickness_mm) {
    return stress_mpa * width_mm * thickness_mm * thickness_mm / 6;
}
double plasticMoment_nmm(double stress_mpa, double width_mm, double thickness_mm) {
    return stress_mpa * width_mm * thickness_mm * thickness_mm / 4;
}
double wideSheetMoment_nmm(double stress_mpa, double width_mm, double thickness_mm) {
    return kPlaneStrain * plasticMoment_nmm(stress_mpa, width_mm, thickness_mm);
}

double magnetPull_n(double field_t, double area_mm2) { return field_t * field_t * area_mm2 * 1e-6 / (2 * kMu0); }
double gapField_t(double ampere_turns, double gap_mm) { return kMu0 * ampere_turns / (gap_mm * 1e-3); }

}  // namespace tinwright
