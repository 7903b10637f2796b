// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <tinwright/base/units.h>
#include <tinwright/forming/metal/least_radius.h>
#include <tinwright/io/shop/materials_io.h>

using namespace tinwright;

namespace {

const Angle kSquare = Angle::degrees(90);

LeastRadius of(const std::string& id, double thickness_mm, Grain grain = Grain::kAcross, Angle angle = kSquare) {
    const Result<Materials> materials = readShippedMaterials();
    REQUIRE(materials);
    REQUIRE(materials.value().find(id));
    const auto least = leastRadius(*materials.value().find(id), thickness_mm, grain, angle);
    REQUIRE(least);
    return *least;
}

}  // namespace

TEST_CASE("D.5 DIN 6935: 410 MPa class, 6 mm: 10 across, 12 past 120 degrees (two copies read agree)") {
    CHECK(*din6935LeastRadius_mm(410, 6, false, kSquare) == 10);
    CHECK(*din6935LeastRadius_mm(410, 6, false, Angle::degrees(120)) == 10);
    CHECK(*din6935LeastRadius_mm(410, 6, false, Angle::degrees(121)) == 12);
    CHECK(*din6935LeastRadius_mm(410, 6, true, kSquare) == 12);
}

TEST_CASE("D.5 bands: over the lower bound up to and with the upper one; nothing outside the table") {
    CHECK(*din6935LeastRadius_mm(390, 1, false, kSquare) == 1);
    CHECK(*din6935LeastRadius_mm(390, 1.001, false, kSquare) == 1.6);
    CHECK(*din6935LeastRadius_mm(391, 1, false, kSquare) == 1.2);
    CHECK(*din6935LeastRadius_mm(640, 20, false, kSquare) == 50);
    CHECK_FALSE(din6935LeastRadius_mm(640, 20, true, kSquare));
    CHECK_FALSE(din6935LeastRadius_mm(641, 2, false, kSquare));
    CHECK_FALSE(din6935LeastRadius_mm(400, 21, false, kSquare));
}

TEST_CASE("D.6 EN 10025-2 across the grain is DIN's row in every band that both have (independent tables)") {
    const struct {
        StructuralSteel steel;
        double tensile_mpa;
    } rows[] = {{StructuralSteel::kS235, 360}, {StructuralSteel::kS275, 410}, {StructuralSteel::kS355, 510}};
    for (const auto& row : rows) {
        for (const double thickness : {1.2, 2.0, 2.8, 3.5, 4.5, 5.5, 6.5, 7.5, 9.0, 11.0, 13.0, 15.0, 17.0, 19.0}) {
            CAPTURE(row.tensile_mpa, thickness);
            CHECK(*en10025LeastRadius_mm(row.steel, thickness, false) ==
                  *din6935LeastRadius_mm(row.tensile_mpa, thickness, false, kSquare));
        }
    }
}

TEST_CASE("D.6 along the grain has a row of its own; below 3 mm it asks no more, where DIN's rule does") {
    CHECK(*en10025LeastRadius_mm(StructuralSteel::kS235, 2, true) == 2.5);
    CHECK(*din6935LeastRadius_mm(360, 2, true, kSquare) == 3);
    CHECK(*en10025LeastRadius_mm(StructuralSteel::kS355, 6, true) == 12);
    CHECK(*en10025LeastRadius_mm(StructuralSteel::kS275, 30, false) == 70);
    CHECK_FALSE(en10025LeastRadius_mm(StructuralSteel::kS235, 1, false));
}

TEST_CASE("D.2 aluminium by alloy and temper, in thicknesses; between columns the thicker one") {
    CHECK(*aluminiumLeastRadius_mm("5052-H32", kMmPerInch / 16) == Approx(kMmPerInch / 16));
    CHECK(*aluminiumLeastRadius_mm("5052-H32", 2) == Approx(1.5 * 2));
    CHECK(*aluminiumLeastRadius_mm("6061-T6", kMmPerInch / 4) == Approx(3.5 * kMmPerInch / 4));
    CHECK(*aluminiumLeastRadius_mm("2024-T3", kMmPerInch / 32) == Approx(3 * kMmPerInch / 32));
    CHECK(*aluminiumLeastRadius_mm("2024-T3", 0.040 * kMmPerInch) == Approx(0.16 * kMmPerInch));  // FAA-H-8083-31
                                                                                                  // figure 4-125: 0.16
                                                                                                  // in
    CHECK_FALSE(aluminiumLeastRadius_mm("5083-O", 0.5));
    CHECK_FALSE(aluminiumLeastRadius_mm("7075-T6", 1));
    CHECK_FALSE(aluminiumLeastRadius_mm("5052-H32", 13));
}

TEST_CASE("the table for a material of the file, with its source") {
    CHECK(of("mild-steel", 1.5).radius_mm == 1.6);
    CHECK(of("mild-steel", 1.5).source == "DIN 6935 (1975-10)");
    CHECK(of("s355jr", 2).radius_mm == 4);
    CHECK(of("s355jr", 2).source == "EN 10025-2, cold flanging");
    CHECK(of("s355jr", 2, Grain::kAcross, Angle::degrees(100)).source == "DIN 6935 (1975-10)");  // EN stops at 90
                                                                                                 // degrees
    CHECK(of("1050a-h14", 3).is_analogue);
    CHECK_FALSE(of("5052-h32", 3).is_analogue);
}

TEST_CASE("D.1 soft metal, Kalpakjian and Schmid table 16.3") {
    Material steel;
    steel.family = "steel";
    CHECK(softestLeastRadius(steel, 2)->radius_mm == 1);
    steel.family = "aluminium";
    CHECK(softestLeastRadius(steel, 2)->radius_mm == 0);
    steel.family = "copper";
    CHECK_FALSE(softestLeastRadius(steel, 2));
}
