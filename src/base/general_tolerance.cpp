// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/base/general_tolerance.h>

#include <array>
#include <cstddef>
#include <string_view>

namespace tinwright {

namespace {

constexpr double kNone = -1;  // the standard has no value there
constexpr std::string_view kClasses = "fmcv";

constexpr std::array<double, 8> kSizesUpTo_mm{3, 6, 30, 120, 400, 1000, 2000, 4000};
constexpr std::array<std::array<double, 8>, 4> kLinear_mm{{
    {0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, kNone},
    {0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2},
    {0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4},
    {kNone, 0.5, 1, 1.5, 2.5, 4, 6, 8},
}};
constexpr double kSmallest_mm = 0.5;

constexpr std::array<double, 4> kLegsUpTo_mm{10, 50, 120, 400};
constexpr std::array<std::array<double, 5>, 4> kAngle_min{{
    {60, 30, 20, 10, 5},
    {60, 30, 20, 10, 5},
    {90, 60, 30, 15, 10},
    {180, 120, 60, 30, 20},
}};
constexpr double kMinutesPerDegree = 60;

template <std::size_t n>
std::size_t rangeOf(const std::array<double, n>& up_to, double size) {
    std::size_t range = 0;
    while (range < n && size > up_to[range]) ++range;
    return range;
}

}  // namespace

std::optional<double> iso2768Linear_mm(char tolerance_class, double size_mm) {
    const std::size_t row = kClasses.find(tolerance_class);
    const std::size_t range = rangeOf(kSizesUpTo_mm, size_mm);
    if (row == std::string_view::npos || !(size_mm >= kSmallest_mm) || range == kSizesUpTo_mm.size())
        return std::nullopt;
    const double value = kLinear_mm[row][range];
    return value == kNone ? std::nullopt : std::optional(value);
}

std::optional<double> iso2768Angle_deg(char tolerance_class, double shorter_leg_mm) {
    const std::size_t row = kClasses.find(tolerance_class);
    if (row == std::string_view::npos || !(shorter_leg_mm > 0)) return std::nullopt;
    return kAngle_min[row][rangeOf(kLegsUpTo_mm, shorter_leg_mm)] / kMinutesPerDegree;
}

}  // namespace tinwright
