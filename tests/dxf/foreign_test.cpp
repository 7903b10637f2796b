// SPDX-License-Identifier: GPL-3.0-or-later
// Drawings written by libraries that are not ours (foreign/, with the scripts that wrote them), against numbers worked
// out by hand from those scripts. Curves are flattened inside their arcs by at most 0.02 mm, so areas of holes may
// differ by that times the length of the arcs.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include "drawing_text.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

constexpr double kChord_mm = 0.02;
constexpr double kPi = std::numbers::pi;

Part foreign(const std::string& name, const std::string& bends, const DxfOptions& options = {}) {
    const std::string folder = TINWRIGHT_SOURCE_DIR "/tests/dxf/foreign/";
    Result<Part> part = readDxfBlank(folder + name, folder + bends, options);
    INFO(textOf(part.issues()));
    REQUIRE(part.ok());
    return std::move(part).value();
}

bool hasHoleAt(const Part& part, const Vec2& centre, double area_mm2, double arcs_mm) {
    for (const Polygon& hole : part.blank.holes) {
        if ((centreOf(hole) - centre).norm() < 1e-3 &&
            std::abs(signedArea_mm2(hole) - area_mm2) <= kChord_mm * arcs_mm + 1e-3)
            return true;
    }
    return false;
}

void checkBracket(const Part& part) {
    REQUIRE(part.bends.size() == 1);
    CHECK(part.blank.holes.size() == 21);
    CHECK(bendLength_mm(part.bends[0]) == Approx(160).margin(1e-5));
    CHECK(part.bends[0].angle.deg() == Approx(60));
    CHECK_FALSE(part.bends[0].up);
    CHECK(part.bends[0].inside_radius_mm == Approx(2.5).margin(1e-3));
    const double arcs = 2 * kPi * (6 + 12 * 3 + 8 + 12);
    const double area = 160 * 100 - (4 - kPi) * 36 - 6 * 16 - 12 * kPi * 9 - kPi * 64 - kPi * 72 - 100;
    CHECK(std::abs(area_mm2(part.blank) - area) <= kChord_mm * arcs);
    // A wedge has its centre a third along each side. In the pair the second is its mirror image 12 mm up.
    const Vec2 wedge(8.0 / 3, 4.0 / 3), mirrored(8.0 / 3, 12 - 4.0 / 3);
    for (const Vec2& at :
         std::vector<Vec2>{Vec2(15, 10) + wedge, Vec2(15, 10) + mirrored, Vec2(80 - wedge.x(), 10 + wedge.y()),
                           Vec2(80 - mirrored.x(), 10 + mirrored.y()), Vec2(110 - wedge.y(), 15 + wedge.x()),
                           Vec2(110 - mirrored.y(), 15 + mirrored.x())}) {
        INFO(at.transpose());
        CHECK(hasHoleAt(part, at, 16, 0));
    }
    for (const Vec2& at :
         std::vector<Vec2>{Vec2(29, 10), Vec2(29, 22), Vec2(66, 10), Vec2(66, 22), Vec2(110, 29), Vec2(98, 29),
                           Vec2(20, 65), Vec2(32, 65), Vec2(44, 65), Vec2(20, 80), Vec2(32, 80), Vec2(44, 80)}) {
        INFO(at.transpose());
        CHECK(hasHoleAt(part, at, kPi * 9, 2 * kPi * 3));
    }
    CHECK(hasHoleAt(part, {80, 75}, kPi * 64, 2 * kPi * 8));
    CHECK(hasHoleAt(part, {110, 75}, kPi * 72, 2 * kPi * 12));
    CHECK(hasHoleAt(part, {140, 75}, 100, 0));
    CHECK(warns(part, "2 DIMENSION"));
    CHECK(warns(part, "2 of the cut lines drawn twice"));
    CHECK(warns(part, "bent down 60°"));
}

void checkTray(const Part& part) {
    REQUIRE(part.bends.size() == 2);
    CHECK(part.name == "small tray");
    CHECK(part.bends[0].name == "back");
    CHECK(part.bends[1].name == "b1");
    CHECK(part.bends[0].toward_child.y() == 1);
    CHECK(part.bends[1].toward_child.y() == -1);
    CHECK(area_mm2(part.blank) == Approx(120 * 90 - 100 - 400 - 2 * 64).margin(1e-2));
    for (const Bend& bend : part.bends) CHECK(bendLength_mm(bend) == Approx(120).margin(1e-5));
    CHECK(hasHoleAt(part, {60, 45}, 400, 0));
    CHECK(hasHoleAt(part, {30, 45}, 64, 0));
    CHECK(hasHoleAt(part, {95, 45}, 64, 0));
    CHECK(warns(part, "2 curves taken as bend lines, by the layer's name"));
}

}  // namespace

TEST_CASE("an npm writer's bracket in mm: nested and mirrored blocks, spline, ellipse, doubles, text, dimensions") {
    checkBracket(foreign("npm-bracket-mm.dxf", "npm.bends.json"));
}

TEST_CASE("the same bracket in inches is the same part") {
    checkBracket(foreign("npm-bracket-in.dxf", "npm.bends.json"));
}

TEST_CASE("an npm writer's grille of 1200 holes, half of them copies of a block") {
    const Part part = foreign("npm-grille.dxf", "npm.bends.json");
    CHECK(part.blank.holes.size() == 1200);
    CHECK(std::abs(area_mm2(part.blank) - (400 * 300 - 1200 * kPi * 4)) <= 1200 * kChord_mm * 2 * kPi * 2);
    CHECK(hasHoleAt(part, {20 + 12 * 29, 10 + 6.5 * 19}, kPi * 4, 2 * kPi * 2));
    CHECK(hasHoleAt(part, {20 + 12 * 29, 160 + 6.5 * 19}, kPi * 4, 2 * kPi * 2));
}

TEST_CASE("GDAL's tray in mm, once it is told so against its header") {
    DxfOptions options;
    options.mm_per_unit = 1.0;
    checkTray(foreign("gdal-tray-mm.dxf", "gdal.bends.json", options));
}

TEST_CASE("GDAL's tray in inches, as its header says") { checkTray(foreign("gdal-tray-in.dxf", "gdal.bends.json")); }
