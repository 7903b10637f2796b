// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/shop/cutting_tolerance.h>

#include <array>
#include <cstddef>

namespace tinwright {

namespace {

constexpr double kNone = -1;  // the standard has no value there
constexpr std::array<double, 6> kThicknessUpTo_mm{1, 3.15, 6.3, 10, 15, 20};
constexpr std::array<double, 10> kLengthUnder_mm{3, 10, 35, 125, 315, 1000, 2000, 4000, 6000, 8000};
using Table = std::array<std::array<double, 10>, 6>;

constexpr Table kClass1_mm{{
    {.075, .10, .10, .20, .20, .30, .40, .65, .90, 1.60},
    {.10, .15, .20, .25, .25, .35, .40, .65, 1.00, 1.75},
    {.20, .20, .25, .25, .30, .40, .45, .70, 1.10, 1.90},
    {kNone, .25, .30, .30, .35, .45, .55, .75, 1.25, 2.20},
    {kNone, .30, .35, .40, .45, .55, .65, .85, 1.50, 2.50},
    {kNone, .40, .40, .45, .55, .75, .85, 1.20, 1.90, 2.80},
}};
constexpr Table kClass2_mm{{
    {.5, .6, .6, .7, .7, .8, .9, .9, kNone, kNone},
    {.6, .6, .7, .7, .8, .9, 1.0, 1.1, 1.4, 1.4},
    {.7, .8, .9, .9, 1.1, 1.2, 1.3, 1.3, 1.6, 1.6},
    {kNone, 1.0, 1.1, 1.3, 1.4, 1.5, 1.6, 1.7, 1.9, 2.0},
    {kNone, 1.8, 1.8, 1.8, 1.9, 2.3, 3.0, 4.2, 4.3, 4.5},
    {kNone, 1.8, 1.8, 1.8, 1.9, 2.3, 3.0, 4.2, 4.3, 4.5},
}};

}  // namespace

std::optional<double> cuttingTolerance_mm(CutProcess process, double thickness_mm, double length_mm) {
    if (process == CutProcess::kShearAndDrill || !(thickness_mm > 0) || !(length_mm > 0)) return std::nullopt;
    std::size_t row = 0, column = 0;
    while (row < kThicknessUpTo_mm.size() && thickness_mm > kThicknessUpTo_mm[row]) ++row;
    while (column < kLengthUnder_mm.size() && length_mm >= kLengthUnder_mm[column]) ++column;
    if (row == kThicknessUpTo_mm.size() || column == kLengthUnder_mm.size()) return std::nullopt;
    const double value = (process == CutProcess::kLaser ? kClass1_mm : kClass2_mm)[row][column];
    return value == kNone ? std::nullopt : std::optional(value);
}

std::optional<double> cutSquareness_mm(int range, double thickness_mm) {
    constexpr std::array<std::array<double, 2>, 5> kLine{
        {{0.05, 0.003}, {0.15, 0.007}, {0.4, 0.01}, {0.8, 0.02}, {1.2, 0.035}}};
    if (range < 1 || range > static_cast<int>(kLine.size()) || !(thickness_mm > 0)) return std::nullopt;
    const auto& [fixed_mm, per_mm] = kLine[static_cast<std::size_t>(range - 1)];
    return fixed_mm + per_mm * thickness_mm;
}

}  // namespace tinwright
