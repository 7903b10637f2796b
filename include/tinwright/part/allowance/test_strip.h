// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/part/allowance/allowance.h>
#include <tinwright/part/allowance/measured_bends.h>

/// From test strips to a k-factor and a deduction. A strip of known length is bent once across its middle and both legs
/// are measured: what the legs have over the flat length is the deduction.
namespace tinwright {

struct TestStrip {
    std::string material;
    std::string tool;  ///< empty: not said
    double thickness_mm = 0;
    double inside_radius_mm = 0;
    Angle angle;                      ///< as measured, turned from flat
    double flat_mm = 0;               ///< length before bending
    std::array<double, 2> legs_mm{};  ///< from the free end to where setback_mm() of `legs_to` says
    Face legs_to = Face::kOutside;
    std::string date;
    std::string place;  ///< for issues
};

/// Sum of the legs over their outside faces, less the flat length.
[[nodiscard]] double stripDeduction_mm(const TestStrip& strip);
/// The k-factor that makes the flat length what it was.
[[nodiscard]] double stripK(const TestStrip& strip);

/// A number with its spread.
struct Spread {
    double mean = 0;
    double median = 0;  ///< of two, and of the middle two of an even number, their mean
    double least = 0;
    double most = 0;
    std::optional<double> deviation;  ///< sample standard deviation (divided by n - 1); none for one strip
};

/// What strips of one kind came to.
struct Calibration {
    MeasuredBend bend;  ///< mean sizes and angle, median k: a strip that was measured wrongly does not move it
    Spread k;
    Spread deduction_mm;  ///< each strip's k at the mean angle, so that angles that differ a little do not count
    std::vector<std::size_t> strips;
    std::vector<std::size_t> astray;  ///< of those, the ones that are off the median by more than measuring explains
    std::vector<std::string> warnings;
    bool is_vague = false;   ///< the angle is so small that measuring errors hide k: not for a shop file
    bool disagrees = false;  ///< no more than half of the strips agree with the median: which are right is not known
};

/// Usual error of a length measured with a caliper on a cut edge.
inline constexpr double kMeasuringError_mm = 0.1;

/// One calibration for each material, tool, nominal sheet, radius and angle, in the order of the strips: thickness and
/// radius that go on from strip to strip by kSameSize are one (a rolled sheet is up to some 5 % off its nominal
/// thickness), and angles that do by 2 degrees. Warns when k is outside 0 to 1 (impossible: something was measured
/// wrongly) or 0.25 to 0.6 (unusual, from memory), and when strips differ by more than three measuring errors (a
/// deduction is made of three lengths), or when those would change k by half or more.
[[nodiscard]] std::vector<Calibration> calibrate(const std::vector<TestStrip>& strips,
                                                 double measuring_error_mm = kMeasuringError_mm);

}  // namespace tinwright
