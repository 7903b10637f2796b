// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

/// Moments and forces of bending as published: plain formulas, all in N and mm (so MPa = N/mm²). Any consistent set of
/// units will do as well, which is how the tests follow examples in pounds and inches. Forces want the upper limit of
/// the tensile strength; the lower one is no value for tonnage.
namespace tinwright {

/// Factors of bendForce_n by kind of tool: Groover, Principles of Modern Manufacturing, eq. 19.8 (1.33 and 0.33); U-die
/// from Kalpakjian and Schmid, eq. 16.11 (from memory).
inline constexpr double kVBendFactor = 1.33;
inline constexpr double kWipingFactor = 0.33;
inline constexpr double kUDieFactor = 0.7;

/// factor · Rm · w · t² / D, with D the die opening or the distance from punch to die. Groover eq. 19.8, Kalpakjian
/// eq. 16.11.
[[nodiscard]] double bendForce_n(double factor, double tensile_mpa, double length_mm, double thickness_mm,
                                 double opening_mm);

/// C · b · s² · Rm / w with C = 1 + 4 s/w under w/s = 10 and 1 over it; the example that goes with it uses 1.4 at 10
/// exactly. Oehler, in Lange's handbook of metal forming. Valid for 0.5 <= s <= 10 mm and 5 <= w/s <= 20.
[[nodiscard]] double oehlerForce_n(double tensile_mpa, double length_mm, double thickness_mm, double opening_mm);

/// F · h · m in J, with h in mm and m from 0.6 to 0.9. Same source.
[[nodiscard]] double bendingWork_j(double force_n, double stroke_mm, double fullness);

/// Air bend of mild steel as a published chart has it: 1.48 · Rm · t² / V for a length, fitted to 84 of its 89 cells.
inline constexpr double kAirBendChartFactor = 1.48;

/// V opening for a thickness: 6 t up to 2.6 mm, 8 t up to 8 mm, 10 t up to 10 mm, 12 t over it. The same chart.
[[nodiscard]] double usualDieOpening_mm(double thickness_mm);
/// Inside radius of an air bend, 0.16 V, and shortest flange, 0.7 V: means of the same chart (their spread: 0.156 to
/// 0.175, 0.667 to 0.75).
[[nodiscard]] double airBendRadius_mm(double opening_mm);
[[nodiscard]] double airBendLeastFlange_mm(double opening_mm);

/// Moment at which the outer fibre of a sheet begins to yield: w t² / 6 · sigma. Strength of materials.
[[nodiscard]] double firstYieldMoment_nmm(double stress_mpa, double width_mm, double thickness_mm);
/// Moment at which its whole section yields: w t² / 4 · sigma, 1.5 times the former.
[[nodiscard]] double plasticMoment_nmm(double stress_mpa, double width_mm, double thickness_mm);
/// A wide sheet cannot shrink along the bend: 2/√3 times as much (von Mises, plane strain).
inline constexpr double kPlaneStrain = 1.1547005383792515;
[[nodiscard]] double wideSheetMoment_nmm(double stress_mpa, double width_mm, double thickness_mm);

/// Pull of a magnet in N from the field in its gap: B² A / (2 µ0), B in T and A in mm².
[[nodiscard]] double magnetPull_n(double field_t, double area_mm2);
/// Field in T of `ampere_turns` over air gaps of `gap_mm` in all, iron taken as perfect: µ0 N I / g.
[[nodiscard]] double gapField_t(double ampere_turns, double gap_mm);

}  // namespace tinwright
