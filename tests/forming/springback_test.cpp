// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <cmath>

#include <tinwright/forming/metal/springback.h>
#include <tinwright/io/shop/materials_io.h>

using namespace tinwright;

namespace {

Material shipped(const std::string& id) {
    const Result<Materials> materials = readShippedMaterials();
    REQUIRE(materials);
    const Material* material = materials.value().find(id);
    REQUIRE(material);
    return *material;
}

/// 1 - R M / (E I) of an elastic, perfectly plastic strip, with the moment summed over thin layers: the meaning of the
/// closed form.
double ratioByLayers(double radius_mm, double thickness_mm, double yield_mpa, double modulus_mpa) {
    constexpr int kLayers = 200'000;
    double moment = 0;
    for (int i = 0; i < kLayers; ++i) {
        const double y = (i + 0.5) / kLayers * thickness_mm / 2;
        moment += 2 * y * std::min(yield_mpa, modulus_mpa * y / radius_mm) * thickness_mm / 2 / kLayers;
    }
    return 1 - radius_mm * moment / (modulus_mpa * std::pow(thickness_mm, 3) / 12);
}

}  // namespace

TEST_CASE(
    "C-E1 steel strip 0.0359 in: radius after springback and angle to set, textbook homework; answer from memory") {
    const double ratio = *radiusRatio(0.5, 0.0359, 40'000, 29e6);
    CHECK(ratio == Approx(0.9424).margin(1e-4));
    CHECK(0.5 / ratio == Approx(0.531).margin(6e-4));
    CHECK(90 / angleRatio(0.5, 0.5 / ratio, 0.0359) == Approx(95.31).margin(0.02));
    const double other = *radiusRatio(0.5, 0.0359, 40'000, 30e6);  // C-E1b, computed
    CHECK(0.5 / other == Approx(0.5295).margin(6e-4));
    CHECK(90 / angleRatio(0.5, 0.5 / other, 0.0359) == Approx(95.12).margin(0.02));
}

TEST_CASE("C-E2 strip of 300 MPa, 0.0265 in thick: computed from read data") {
    const double ratio = *radiusRatio(0.5, 0.0265, 300, 200'000);
    CHECK(ratio == Approx(0.915185).margin(1e-6));
    CHECK(0.5 / ratio == Approx(0.54634).margin(1e-5));
    CHECK(90 / angleRatio(0.5, 0.5 / ratio, 0.0265) == Approx(98.13).margin(0.01));
}

TEST_CASE("C-E3 and C-F1: the closed form is the integral over layers") {
    CHECK(*radiusRatio(50, 2, 300, 210e3) == Approx(0.8930394).margin(1e-6));
    CHECK(50 / *radiusRatio(50, 2, 300, 210e3) == Approx(55.98857).margin(1e-4));
    for (const double radius : {2.0, 10.0, 50.0, 120.0, 300.0})
        CHECK(*radiusRatio(radius, 2, 300, 210e3) == Approx(ratioByLayers(radius, 2, 300, 210e3)).margin(1e-8));
    CHECK_FALSE(radiusRatio(1000, 2, 300, 210e3));  // wholly elastic
}

TEST_CASE("C: springback factors of the tool book, and what they make of angle and radius") {
    CHECK(*springbackFactor("DC01", 10) == Approx(.96));
    CHECK(toolRadius_mm(.96, 10, 1) == Approx(9.58).margin(1e-9));
    CHECK(90 / *springbackFactor("DC01", 10) == Approx(93.75));
    CHECK(toolRadius_mm(*springbackFactor("X12CrNi18-8", 4), 4, 1) == Approx(3.775).margin(1e-9));
    CHECK(90 / *springbackFactor("X12CrNi18-8", 4) == Approx(94.74).margin(0.01));
    CHECK(toolRadius_mm(*springbackFactor("EN AW-AlSiMgMn", 2.5), 5, 2) == Approx(4.82).margin(1e-9));
    CHECK(90 / *springbackFactor("EN AW-AlSiMgMn", 2.5) == Approx(92.78).margin(0.01));
}

TEST_CASE("C: the table is interpolated within, and silent outside and where it has no value") {
    CHECK(*springbackFactor("DC01", 20) < .93);
    CHECK(*springbackFactor("DC01", 20) > .90);
    CHECK_FALSE(springbackFactor("DC01", 0.9));
    CHECK_FALSE(springbackFactor("DC01", 101));
    CHECK_FALSE(springbackFactor("X12CrNi18-8", 63));
    CHECK(*springbackFactor("X12CrNi18-8", 40) == Approx(.63));
    CHECK_FALSE(springbackFactor("no such row", 4));
}

TEST_CASE(
    "C: overbend by the formula for 90 degrees, r/t = 2, 5, 10 (model sanity figures, computed from 90/ratio - 90)") {
    struct Row {
        double yield_mpa, modulus_mpa, at[3];
    };
    const Row rows[] = {{85, 71e3, {.65, 1.65, 3.35}},      {125, 70.3e3, {.95, 2.41, 4.94}},
                        {276, 68.9e3, {2.22, 5.75, 12.26}}, {345, 73.1e3, {2.62, 6.85, 14.79}},
                        {280, 210e3, {.73, 1.84, 3.75}},    {230, 193e3, {.65, 1.64, 3.34}}};
    const double r_over_t[] = {2, 5, 10};
    for (const Row& row : rows) {
        for (int i = 0; i < 3; ++i)
            CHECK(90 / *radiusRatio(r_over_t[i], 1, row.yield_mpa, row.modulus_mpa) - 90 ==
                  Approx(row.at[i]).epsilon(0.03));
    }
}

TEST_CASE("the angle to set brings the wanted radius back: forth and back agree") {
    const Material dc01 = shipped("mild-steel");
    const SetAngle set = setAngleFor(dc01, Angle::degrees(90), 10, 1);
    REQUIRE(set.by_formula);
    REQUIRE(set.by_table);
    CHECK(set.by_table->deg() == Approx(93.75));
    CHECK_FALSE(set.formula_is_least);
    double loaded = 10;  // fixed point of Ri = Rf ratio(Ri)
    for (int i = 0; i < 200; ++i) loaded = 10 * *radiusRatio(loaded, 1, 280, 210e3);
    CHECK(set.by_formula->deg() == Approx(90 / angleRatio(loaded, 10, 1)).margin(1e-6));
}

TEST_CASE("with a lower limit of the yield the formula says that it tells the least") {
    const SetAngle stainless = setAngleFor(shipped("1.4301"), Angle::degrees(90), 5, 1);
    CHECK(stainless.formula_is_least);
    CHECK(*stainless.by_formula < *stainless.by_table);  // hardening is left out: 1.6 against about 5 degrees observed
}
