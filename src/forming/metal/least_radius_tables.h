// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <string_view>

/// Published tables of smallest inside radii, as printed. -1: the table has no value.
namespace tinwright::forming {

/// DIN 6935 (1975-10), mm, across the rolling direction and up to 120°, by thickness (over the band before, up to and
/// with) and lower limit of Rm.
inline constexpr std::size_t kDinBands = 15;
inline constexpr std::array<double, kDinBands> kDinThickness_mm{1, 1.5, 2.5, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20};
struct DinRow {
    double to_tensile_mpa;
    std::array<double, kDinBands> radius_mm;
};
inline constexpr std::array<DinRow, 3> kDinRows{{
    {390, {1, 1.6, 2.5, 3, 5, 6, 8, 10, 12, 16, 20, 25, 28, 36, 40}},
    {490, {1.2, 2, 3, 4, 5, 8, 10, 12, 16, 20, 25, 28, 32, 40, 45}},
    {640, {1.6, 2.5, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 36, 45, 50}},
}};

/// EN 10025-2, cold flanging, mm, up to 90°, over 1 mm. Rows: S235 across and along, S275, S355.
inline constexpr std::size_t kEnBands = 16;
inline constexpr std::array<double, kEnBands> kEnThickness_mm{1.5, 2.5, 3,  4,  5,  6,  7,  8,
                                                              10,  12,  14, 16, 18, 20, 25, 30};
inline constexpr std::array<std::array<double, kEnBands>, 6> kEnRows{{
    {1.6, 2.5, 3, 5, 6, 8, 10, 12, 16, 20, 25, 28, 36, 40, 50, 60},
    {1.6, 2.5, 3, 6, 8, 10, 12, 16, 20, 25, 28, 32, 40, 45, 55, 70},
    {2, 3, 4, 5, 8, 10, 12, 16, 20, 25, 28, 32, 40, 45, 55, 70},
    {2, 3, 4, 6, 10, 12, 16, 20, 25, 32, 36, 40, 45, 50, 60, 75},
    {2.5, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 36, 45, 50, 65, 80},
    {2.5, 4, 5, 8, 10, 12, 16, 20, 25, 32, 36, 40, 50, 63, 75, 90},
}};

/// Aluminum Association, Aluminum Design Manual 2005 part VII, 90° cold bends, in thicknesses, by thickness in inches.
inline constexpr std::size_t kAluminiumColumns = 8;
inline constexpr std::array<double, kAluminiumColumns> kAluminiumThickness_in{1.0 / 64, 1.0 / 32, 1.0 / 16, 1.0 / 8,
                                                                              3.0 / 16, 1.0 / 4,  3.0 / 8,  1.0 / 2};
struct AluminiumRow {
    std::string_view alloy_temper;
    std::array<double, kAluminiumColumns> thicknesses;
};
inline constexpr std::array<AluminiumRow, 25> kAluminiumRows{{
    {"1100-O", {0, 0, 0, 0, .5, 1, 1, 1.5}},
    {"1100-H12", {0, 0, 0, .5, 1, 1, 1.5, 2}},
    {"1100-H14", {0, 0, 0, 1, 1, 1.5, 2, 2.5}},
    {"1100-H16", {0, .5, 1, 1.5, 1.5, 2.5, 3, 4}},
    {"1100-H18", {1, 1, 1.5, 2.5, 3, 3.5, 4, 4.5}},
    {"2014-T6", {3, 4, 4, 5, 6, 8, 8.5, 9.5}},
    {"2024-O", {0, 0, 0, .5, 1, 1, 2.5, 4}},
    {"2024-T3", {2.5, 3, 4, 5, 5, 6, 7, 7.5}},
    {"2024-T361", {3, 4, 5, 6, 6, 8, 8.5, 9.5}},
    {"2024-T4", {2.5, 3, 4, 5, 5, 6, 7, 7.5}},
    {"3003-O", {0, 0, 0, 0, .5, 1, 1, 1.5}},
    {"3003-H12", {0, 0, 0, .5, 1, 1, 1.5, 2}},
    {"3003-H14", {0, 0, 0, 1, 1, 1.5, 2, 2.5}},
    {"3003-H16", {.5, 1, 1, 1.5, 2.5, 3, 3.5, 4}},
    {"3003-H18", {1, 1.5, 2, 2.5, 3.5, 4.5, 5.5, 6.5}},
    {"5052-O", {0, 0, 0, .5, 1, 1, 1.5, 1.5}},
    {"5052-H32", {0, 0, 1, 1.5, 1.5, 1.5, 1.5, 2}},
    {"5052-H34", {0, 1, 1.5, 2, 2, 2.5, 2.5, 3}},
    {"5052-H36", {1, 1, 1.5, 2.5, 3, 3.5, 4, 4.5}},
    {"5052-H38", {1, 1.5, 2.5, 3, 4, 5, 5.5, 6.5}},
    {"5083-O", {-1, -1, .5, 1, 1, 1, 1.5, 1.5}},
    {"5083-H321", {-1, -1, 1, 1.5, 1.5, 1.5, 2, 2.5}},
    {"6061-O", {0, 0, 0, 1, 1, 1, 1.5, 2}},
    {"6061-T4", {0, 0, 1, 1.5, 2.5, 3, 3.5, 4}},
    {"6061-T6", {1, 1, 1.5, 2.5, 3, 3.5, 4.5, 5}},
}};

/// Which of these rows goes for a material of the materials file.
struct AluminiumName {
    std::string_view material;
    std::string_view alloy_temper;
    bool is_analogue;
};
inline constexpr std::array<AluminiumName, 14> kAluminiumNames{{
    {"1050a-h14", "1100-H14", true},
    {"1100-h14-typical", "1100-H14", false},
    {"2024-t3", "2024-T3", false},
    {"2024-t3-typical", "2024-T3", false},
    {"3003-o-typical", "3003-O", false},
    {"3003-h14-typical", "3003-H14", false},
    {"5052-o", "5052-O", false},
    {"5052-h32", "5052-H32", false},
    {"5052-h32-us", "5052-H32", false},
    {"5052-h34", "5052-H34", false},
    {"5052-h36", "5052-H36", false},
    {"5083-o", "5083-O", false},
    {"5083-o-typical", "5083-O", false},
    {"6061-t6", "6061-T6", false},
}};

}  // namespace tinwright::forming
