// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <tinwright/brake/shop/cutting.h>

using namespace tinwright;

// Guidance of a plasma-cutting service (read): holes from 1.5 t, spacing from 1.5 t, corners with a radius from 1 mm.
TEST_CASE("plasma: holes and webs from one and a half thicknesses, corners of 1 mm") {
    const Cutting plasma = cuttingOf(CutProcess::kPlasma);
    CHECK(plasma.smallest_hole.forThickness_mm(6) == Approx(9.0));
    CHECK(plasma.smallest_hole.forThickness_mm(1.5) == Approx(3.0));  // no plasma hole is smaller (from memory)
    CHECK(plasma.least_web.forThickness_mm(6) == Approx(9.0));
    CHECK(plasma.inside_radius_mm == 1.0);
    CHECK(plasma.dross == Dross::kBackFace);
    CHECK(cuttingOf(CutProcess::kLaser).smallest_hole.forThickness_mm(6) == Approx(6.0));  // from memory
}

// Kerfs of a plasma course (read), mild steel: 25 to 30 A 1.27 to 1.52 mm, 40 to 50 A 1.65 to 2.03 mm; their middles as
// a shop's own.
TEST_CASE("kerf: as measured, in proportion between, nothing outside") {
    Cutting cutting = cuttingOf(CutProcess::kPlasma);
    CHECK_FALSE(cutting.kerf_mm(1.5));
    cutting.kerfs = {{1.5, 1.4, 30.0}, {4.0, 1.84, 45.0}};
    CHECK(*cutting.kerf_mm(1.5) == Approx(1.4));
    CHECK(*cutting.kerf_mm(4.0) == Approx(1.84));
    CHECK(*cutting.kerf_mm(2.75) == Approx(1.62));
    CHECK(*cutting.kerf_mm(1.36) == Approx(1.4));  // a tenth off is still the same sheet
    CHECK(*cutting.kerf_mm(4.39) == Approx(1.84));
    CHECK_FALSE(cutting.kerf_mm(1.34));
    CHECK_FALSE(cutting.kerf_mm(4.41));
    cutting.kerfs = {{2.0, 1.5, {}}};
    CHECK(*cutting.kerf_mm(2.1) == Approx(1.5));
    CHECK_FALSE(cutting.kerf_mm(3.0));
}
