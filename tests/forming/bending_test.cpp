// SPDX-License-Identifier: GPL-3.0-or-later
// Worked examples of textbooks and handbooks for moments and forces. The formulas take any consistent set of units.
#include <catch2/catch.hpp>

#include <tinwright/forming/metal/bending.h>

using namespace tinwright;

namespace {

struct ForceExample {
    const char* name;  // and its source
    double factor, tensile, length, thickness, opening;
    double force, within;
};

}  // namespace

TEST_CASE("bending forces of worked examples") {
    const ForceExample example = GENERATE(
        ForceExample{"B-E1 Groover, SI example (from memory)", kVBendFactor, 450, 44.5, 3.2, 25, 10'909, 1},
        ForceExample{"B-E1b Groover, US units (from memory)", kVBendFactor, 65'000, 1.75, 0.125, 1.0, 2'364, 1},
        ForceExample{"B-E2 wiping die, data of Groover problem, read", kWipingFactor, 340, 20, 5, 8, 7'012.5, 1e-6},
        ForceExample{"B-E3 Groover problem 19.7 data, computed", kVBendFactor, 350, 35, 5, 40, 10'182.8, 0.5},
        ForceExample{"B-E3b solution manual, rounded up (from memory)", kVBendFactor, 600, 35, 5, 40, 17'460, 5},
        ForceExample{"B-E3c solution manual, wiping (from memory)", kWipingFactor, 600, 35, 5, 28, 6'188, 1},
        ForceExample{"B-E4 Groover problem (from memory)", kVBendFactor, 340, 20, 3, 15, 5'426, 1},
        ForceExample{"B-E5 Groover problem, V (from memory)", kVBendFactor, 70'000, 1.5, 5.0 / 32, 1.25, 2'728, 1},
        ForceExample{"B-E5 Groover problem, wiping (from memory)", kWipingFactor, 70'000, 1.5, 5.0 / 32, 0.75, 1'128,
                     1},
        ForceExample{"B-E7 die design page, factor 2.5, kgf", 2.5, 41, 75, 3, 60, 1'153, 1},
        ForceExample{"B-E8 calculator page", 1.33, 50, 3, 1.5, 12, 37.406, 0.001},
        ForceExample{"B-E9 science page", 1.33, 20, 60, 1.5, 2, 1'795.5, 1e-6});
    INFO(example.name);
    CHECK(bendForce_n(example.factor, example.tensile, example.length, example.thickness, example.opening) ==
          Approx(example.force).margin(example.within));
}

TEST_CASE("B-E6 Oehler's force and work, forming handbook after Lange 1990, read") {
    const double force_n = oehlerForce_n(310, 100, 1, 10);
    CHECK(force_n == Approx(4340).margin(5));
    CHECK(bendingWork_j(force_n, 15, 0.75) == Approx(48.82).margin(0.006));
    CHECK(oehlerForce_n(310, 100, 1, 10.01) == Approx(310 * 100 / 10.01));  // C = 1 for wider dies
}

TEST_CASE("B-E10 plastic moment of a metre of sheet, and the same in plane strain") {
    CHECK(plasticMoment_nmm(250, 1000, 1.6) / 1000 == Approx(160.0).epsilon(1e-9));
    CHECK(wideSheetMoment_nmm(250, 1000, 1.6) / 1000 == Approx(184.752).epsilon(1e-6));
    CHECK(plasticMoment_nmm(250, 1000, 1.6) / firstYieldMoment_nmm(250, 1000, 1.6) == Approx(1.5));  // shape factor of
                                                                                                     // a rectangle
}

TEST_CASE("B-E11 force goes with tensile strength: bending chart page, 44 to 55 and to 25 kg/mm2") {
    const auto force = [](double tensile) { return bendForce_n(kVBendFactor, tensile, 100, 2, 16); };
    CHECK(force(55) / force(44) == Approx(1.25).margin(0.005));
    CHECK(force(25) / force(44) == Approx(0.57).margin(0.005));
}

TEST_CASE("B-E12 pull of a magnet by its field: 1 T is 58 psi") {
    constexpr double kSquareInch_mm2 = 645.16;
    constexpr double kNewtonPerPound = 4.4482216152605;
    CHECK(magnetPull_n(1, kSquareInch_mm2) / kNewtonPerPound == Approx(58).margin(0.5));
    const double kilopascals[][2] = {{0.5, 99.5},   {0.8, 254.6},  {1.2, 573.0}, {1.5, 895.2},
                                     {1.6, 1018.6}, {1.8, 1289.2}, {2.0, 1591.5}};
    for (const auto& row : kilopascals) CHECK(magnetPull_n(row[0], 1000) == Approx(row[1]).margin(0.05));
}

TEST_CASE("B-E13 pull of a coil over a gap, one gap and two; halving the gap makes it fourfold") {
    CHECK(gapField_t(1000, 1) == Approx(1.25664).epsilon(1e-5));
    CHECK(magnetPull_n(gapField_t(1000, 1), 1000) == Approx(628.319).epsilon(1e-5));
    CHECK(gapField_t(1000, 2) == Approx(0.62832).epsilon(1e-5));
    CHECK(2 * magnetPull_n(gapField_t(1000, 2), 1000) == Approx(314.159).epsilon(1e-5));
    CHECK(magnetPull_n(gapField_t(1000, 0.5), 1000) / magnetPull_n(gapField_t(1000, 1), 1000) == Approx(4));
}

TEST_CASE("B.2 sheet that is not magnetic counts as gap: less pull than on steel") {
    const double skin_mm = 0.2;  // oxidised hot-rolled skin 0.1 to 0.3 mm, lifting-magnet manual
    CHECK(magnetPull_n(gapField_t(500, skin_mm + 1.0), 1000) < magnetPull_n(gapField_t(500, skin_mm), 1000));
}
