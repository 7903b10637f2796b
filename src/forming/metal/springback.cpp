// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/metal/springback.h>

#include <array>
#include <cmath>

namespace tinwright {

namespace {

constexpr std::size_t kColumns = 11;
// Heads of the columns from memory: the copy that was read had lost them; its eleven values a row fit them.
constexpr std::array<double, kColumns> kRadiusOverThickness{1, 1.6, 2.5, 4, 6.3, 10, 16, 25, 40, 63, 100};

struct Row {
    std::string_view name;
    std::array<double, kColumns> factor;  // 0: none
};

// A German tool and trade table book, springback factors by r2/s.
constexpr std::array<Row, 9> kRows{{
    {"DC04", {.99, .99, .99, .98, .97, .97, .96, .94, .91, .87, .83}},
    {"DC01", {.99, .99, .99, .97, .96, .96, .93, .90, .85, .77, .66}},
    {"X12CrNi18-8", {.99, .98, .97, .95, .93, .89, .84, .76, .63, 0, 0}},
    {"E-Cu-R20", {.98, .97, .97, .96, .95, .93, .90, .85, .79, .72, .60}},
    {"CuZn33-R29", {.97, .97, .96, .95, .94, .93, .89, .86, .83, .77, .73}},
    {"CuNi18Zn20", {0, 0, 0, .97, .96, .95, .92, .87, .82, .72, 0}},
    {"EN AW-Al99.0", {.99, .99, .99, .99, .98, .98, .97, .97, .96, .95, .93}},
    {"EN AW-AlCuMg1", {.98, .98, .98, .98, .97, .97, .96, .95, .93, .91, .87}},
    {"EN AW-AlSiMgMn", {.98, .98, .97, .96, .95, .93, .90, .86, .82, .76, .72}},
}};

struct NamedRow {
    std::string_view material;
    std::string_view row;
};
constexpr std::array<NamedRow, 5> kMaterialRows{{{"dc01", "DC01"},
                                                 {"dc04", "DC04"},
                                                 {"304", "X12CrNi18-8"},
                                                 {"1.4301", "X12CrNi18-8"},
                                                 {"1100-h14-typical", "EN AW-Al99.0"}}};

constexpr int kRadiusSteps = 60;

/// Inside radius under load from which the sheet springs back to `free_mm`: bisection, since the ratio falls with the
/// radius.
std::optional<double> loadedRadius_mm(double free_mm, double thickness_mm, double yield_mpa, double modulus_mpa) {
    const double elastic_mm = 0.5 * modulus_mpa * thickness_mm / yield_mpa;  // X = 0.5
    double low = 0;
    double high = std::min(free_mm, elastic_mm);
    for (int i = 0; i < kRadiusSteps; ++i) {
        const double middle = 0.5 * (low + high);
        const std::optional<double> ratio = radiusRatio(middle, thickness_mm, yield_mpa, modulus_mpa);
        const bool too_small = ratio && *ratio > 0 && middle / *ratio < free_mm;
        (too_small ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace

std::optional<double> radiusRatio(double loaded_radius_mm, double thickness_mm, double yield_mpa, double modulus_mpa) {
    const double x = loaded_radius_mm * yield_mpa / (modulus_mpa * thickness_mm);
    if (x > 0.5) return std::nullopt;
    return 4 * x * x * x - 3 * x + 1;
}

double angleRatio(double loaded_radius_mm, double free_radius_mm, double thickness_mm) {
    return (2 * loaded_radius_mm / thickness_mm + 1) / (2 * free_radius_mm / thickness_mm + 1);
}

std::optional<double> springbackFactor(std::string_view row, double radius_over_thickness) {
    for (const Row& candidate : kRows) {
        if (candidate.name != row) continue;
        for (std::size_t i = 0; i + 1 < kColumns; ++i) {
            const double from = kRadiusOverThickness[i];
            const double to = kRadiusOverThickness[i + 1];
            if (radius_over_thickness < from || radius_over_thickness > to) continue;
            const double share = std::log(radius_over_thickness / from) / std::log(to / from);
            const double a = candidate.factor[i];
            const double b = candidate.factor[i + 1];
            if ((a == 0 && share < 1) || (b == 0 && share > 0)) continue;
            return share == 0 ? a : a + share * (b - a);
        }
    }
    return std::nullopt;
}

std::string_view springbackRow(std::string_view material_id) {
    for (const NamedRow& named : kMaterialRows) {
        if (named.material == material_id) return named.row;
    }
    return {};
}

double toolRadius_mm(double factor, double free_radius_mm, double thickness_mm) {
    return factor * (free_radius_mm + thickness_mm / 2) - thickness_mm / 2;
}

SetAngle setAngleFor(const Material& material, Angle wanted, double radius_mm, double thickness_mm) {
    SetAngle set;
    const std::optional<double> factor = springbackFactor(springbackRow(material.id), radius_mm / thickness_mm);
    if (factor) set.by_table = Angle::radians(wanted.rad() / *factor);
    const auto yield_mpa = material.yield_mpa.most ? material.yield_mpa.most : material.yield_mpa.least;
    const auto modulus_gpa =
        material.youngs_modulus_gpa.least ? material.youngs_modulus_gpa.least : material.youngs_modulus_gpa.most;
    if (!yield_mpa || !modulus_gpa) return set;
    const std::optional<double> loaded = loadedRadius_mm(radius_mm, thickness_mm, *yield_mpa, *modulus_gpa * 1000);
    set.by_formula = Angle::radians(wanted.rad() / angleRatio(*loaded, radius_mm, thickness_mm));
    set.formula_is_least = !material.yield_mpa.most;
    return set;
}

}  // namespace tinwright
