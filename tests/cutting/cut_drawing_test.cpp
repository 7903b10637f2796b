// SPDX-License-Identifier: GPL-3.0-or-later
// Drill marks and kerf in the DXF, as GDAL's reader finds them. GDAL turns circles into chords of 0.05 degrees: its
// boxes are right to 1e-6 of a size.
#include <catch2/catch.hpp>

#include <algorithm>

#include <nlohmann/json.hpp>

#include <tinwright/forming/cutting/cut_plan.h>
#include <tinwright/io/blank/blank_io.h>
#include <tinwright/part/edges/kerf.h>

#include "gdal_measure.h"
#include "plates.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

nlohmann::json measured(const std::string& dxf) { return gdalMeasured("cutting/measure_cut.py", dxf); }

/// The closed curve of a layer about a place.
nlohmann::json loopAt(const nlohmann::json& layer, double x, double y) {
    for (const auto& loop : layer.at("closed")) {
        if (std::abs(loop["x"].get<double>() - x) < 0.01 && std::abs(loop["y"].get<double>() - y) < 0.01) return loop;
    }
    FAIL("no closed curve about " << x << ", " << y);
    return {};
}

Part square() {
    Part part = plate();
    part.blank.outline = rectangle(0, 0, 50, 50);
    addHole(part, "hole", 30, 25, 12);
    return part;
}

BlankDrawingOptions options(std::optional<Region> cut, std::vector<Vec2> drill = {}) {
    return {{}, false, std::move(cut), std::move(drill), {"allowance: k-factor 0.44", "cut by plasma"}};
}

}  // namespace

TEST_CASE("as read by GDAL: without kerf the drawing is the finished edge") {
    const nlohmann::json found = measured(blankDxf(drawBlank(square(), options(std::nullopt))));
    const auto& cut = found.at("CUT");
    REQUIRE(cut.at("closed").size() == 2);
    CHECK(loopAt(cut, 25, 25)["width"].get<double>() == Approx(50).margin(1e-6));
    CHECK(loopAt(cut, 30, 25)["width"].get<double>() == Approx(12).margin(1e-5));
}

TEST_CASE("as read by GDAL: with a kerf of 1.5 a 50 mm square is a path of 51.5, a 12 mm hole one of 10.5") {
    const Part part = square();
    const nlohmann::json found = measured(blankDxf(drawBlank(part, options(kerfPath(part.blank, 1.5).value().path))));
    const auto& cut = found.at("CUT");
    REQUIRE(cut.at("closed").size() == 2);
    CHECK(loopAt(cut, 25, 25)["width"].get<double>() == Approx(51.5).margin(1e-6));
    CHECK(loopAt(cut, 25, 25)["height"].get<double>() == Approx(51.5).margin(1e-6));
    CHECK(loopAt(cut, 30, 25)["width"].get<double>() == Approx(10.5).margin(1e-5));
    CHECK(loopAt(cut, 30, 25)["height"].get<double>() == Approx(10.5).margin(1e-5));
}

TEST_CASE("as read by GDAL: holes of the drill list leave CUT and stand on DRILL as a point and a cross") {
    Part part = plate();
    addHole(part, "small", 20, 30, 2.5);
    addHole(part, "large", 80, 40, 20);
    addCutOut(part, "slit", slot(60, 15, 30, 2));
    const CutPlan plan = cutPlan(part, cuttingOf(CutProcess::kPlasma));
    std::vector<Vec2> centres;
    for (const DrilledHole& hole : plan.drilled) centres.push_back(hole.centre);
    const nlohmann::json found = measured(blankDxf(drawBlank(part, options(cutRegion(part, plan), centres))));
    REQUIRE(found.at("CUT").at("closed").size() == 2);
    CHECK(loopAt(found.at("CUT"), 80, 40)["width"].get<double>() == Approx(20).margin(1e-5));
    auto points = found.at("DRILL").at("points").get<std::vector<std::vector<double>>>();
    REQUIRE(points.size() == 3);
    CHECK(points[0][0] == Approx(20));
    CHECK(points[0][1] == Approx(30));
    CHECK(points[1][0] == Approx(46).margin(0.01));
    CHECK(points[2][0] == Approx(74).margin(0.01));
    const auto lines = found.at("DRILL").at("open").get<std::vector<std::vector<std::vector<double>>>>();
    REQUIRE(lines.size() == 6);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto& centre = points[i / 2];
        CHECK(0.5 * (lines[i][0][0] + lines[i][1][0]) == Approx(centre[0]).margin(1e-6));
        CHECK(0.5 * (lines[i][0][1] + lines[i][1][1]) == Approx(centre[1]).margin(1e-6));
    }
}

TEST_CASE("as read by GDAL: a pilot is a circle on CUT round its mark, and both take the kerf") {
    Part part = plate();
    part.thickness_mm = 6;
    addHole(part, "hole", 40, 40, 8);
    Cutting cutting = cuttingOf(CutProcess::kPlasma);
    cutting.cut_under_mm = 1.5;
    cutting.kerfs = {{6, 1.8, {}}};
    const CutPlan plan = cutPlan(part, cutting);
    REQUIRE(plan.drilled.size() == 1);
    const Region cut = cutRegion(part, plan);
    CHECK(loopAt(measured(blankDxf(drawBlank(part, options(cut)))).at("CUT"), 40, 40)["width"].get<double>() ==
          Approx(6.5).margin(1e-4));
    const Region path = kerfPath(cut, 1.8).value().path;
    CHECK(loopAt(measured(blankDxf(drawBlank(part, options(path)))).at("CUT"), 40, 40)["width"].get<double>() ==
          Approx(4.7).margin(1e-4));
}

TEST_CASE("comments of the drawing are group 999, plain and in one line") {
    const std::string dxf = blankDxf(drawBlank(square(), {{}, false, std::nullopt, {}, {"a\nb \xc3\xa9"}}));
    CHECK(dxf.find("999\na?b ??\n") != std::string::npos);
    CHECK(blankSvg(drawBlank(square(), {{}, false, std::nullopt, {Vec2(30, 25)}, {"a < b"}}))
              .find("<desc>a &lt; b</desc>") != std::string::npos);
}
