// SPDX-License-Identifier: GPL-3.0-or-later
// What blankDxf() writes, measured by GDAL's DXF reader and GEOS (measure.py), against the part. A part has polygons
// inside its arcs by at most 0.02 mm, the drawing the arcs themselves: areas may differ by that times the length of the
// ring, perimeters by the ratio of an arc to a chord of it (8 chords a half circle at least: under 0.7 %).
// Straight-sided rings, centres and bend lines agree to the 1e-6 mm that the drawing is written to.
#include <catch2/catch.hpp>

#include <cmath>

#include <nlohmann/json.hpp>

#include <tinwright/io/blank/blank_io.h>
#include <tinwright/io/recipe/recipe_io.h>

#include "drawing_text.h"
#include "gdal_measure.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

constexpr double kChord_mm = 0.021;
constexpr double kWritten_mm = 2e-6;

nlohmann::json measured(const std::string& dxf) { return gdalMeasured("dxf/measure.py", dxf); }

void checkRing(const Polygon& ring, const nlohmann::json& all) {
    const Vec2 centre = centreOf(ring);
    const double area = signedArea_mm2(ring), perimeter = perimeter_mm(ring);
    const nlohmann::json* nearest = nullptr;
    double least = 1e300;
    for (const auto& other : all) {
        const double off =
            (Vec2(other["x"], other["y"]) - centre).norm() + std::abs(other["area"].get<double>() - area) / perimeter;
        if (off < least) least = off, nearest = &other;
    }
    REQUIRE(nearest != nullptr);
    INFO("ring about " << centre.transpose());
    const bool round = ring.size() > 8;
    CHECK((Vec2((*nearest)["x"], (*nearest)["y"]) - centre).norm() < (round ? 1e-3 : kWritten_mm));
    CHECK(std::abs((*nearest)["area"].get<double>() - area) <= perimeter * (round ? kChord_mm : kWritten_mm));
    CHECK(std::abs((*nearest)["perimeter"].get<double>() - perimeter) <=
          perimeter * (round ? 7e-3 : 1e-7) + kWritten_mm);
}

void checkWritten(const Part& part) {
    INFO(part.name);
    const nlohmann::json found = measured(blankDxf(drawBlank(part, {bendLineMarks(part), true})));
    const nlohmann::json& cut = found.at("CUT").at("closed");
    REQUIRE(cut.size() == 1 + part.blank.holes.size());
    CHECK(found.at("CUT").at("open").empty());
    checkRing(part.blank.outline, cut);
    for (const Polygon& hole : part.blank.holes) checkRing(hole, cut);
    for (const bool up : {true, false}) {
        std::vector<double> lengths, written;
        for (const Bend& bend : part.bends) {
            for (const StripSpan& span : bend.spans) {
                if (bend.up == up) lengths.push_back(span.to_mm - span.from_mm);
            }
        }
        const char* layer = up ? "BEND_UP" : "BEND_DOWN";
        if (found.contains(layer)) written = found.at(layer).at("open").get<std::vector<double>>();
        std::sort(lengths.begin(), lengths.end());
        std::sort(written.begin(), written.end());
        REQUIRE(written.size() == lengths.size());
        for (std::size_t i = 0; i < lengths.size(); ++i) CHECK(std::abs(written[i] - lengths[i]) < kWritten_mm);
    }
}

}  // namespace

TEST_CASE("what is written of the examples, measured by GDAL and GEOS") {
    for (const char* name :
         {"roaster-pod/part", "roaster-pod/part-suited", "tray-lips/part", "hat-channel/part", "deep-housing/part"}) {
        const Result<Part> part = readPartFile(std::string(TINWRIGHT_SOURCE_DIR "/examples/") + name + ".json");
        REQUIRE(part.ok());
        checkWritten(part.value());
    }
}

TEST_CASE("what is written of drawings that others wrote, measured by GDAL and GEOS") {
    const std::string folder = TINWRIGHT_SOURCE_DIR "/tests/dxf/foreign/";
    for (const char* name : {"npm-bracket-mm", "npm-bracket-in", "npm-grille"}) {
        const Result<Part> part = readDxfBlank(folder + name + ".dxf", folder + "npm.bends.json");
        REQUIRE(part.ok());
        checkWritten(part.value());
    }
}

// The reader on both sides: what GDAL measures of the file is what this reader makes of it.
TEST_CASE("drawings that others wrote: GDAL's measures and this reader's agree") {
    const std::string folder = TINWRIGHT_SOURCE_DIR "/tests/dxf/foreign/";
    std::ifstream file(folder + "npm-bracket-mm.dxf", std::ios::binary);
    const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    const Result<Part> part = readDxfBlank(folder + "npm-bracket-mm.dxf", folder + "npm.bends.json");
    REQUIRE(part.ok());
    const nlohmann::json found = measured(text);
    checkRing(part.value().blank.outline, found.at("OUTLINE").at("closed"));
    CHECK(found.at("CREASES").at("open").at(0).get<double>() == Approx(bendLength_mm(part.value().bends[0])));
}

TEST_CASE("circles and slots are drawn as arcs, straight sides as they are") {
    Region plate{{{0, 0}, {100, 0}, {100, 80}, {0, 80}}, {}};
    const Result<Part> pod = readPartFile(TINWRIGHT_SOURCE_DIR "/examples/roaster-pod/part.json");
    REQUIRE(pod.ok());
    std::size_t circles = 0, arcs = 0;
    for (const DrawnLoop& loop : drawBlank(pod.value(), {}).cut) {
        circles += loop.is_circle ? 1 : 0;
        for (const DrawnCorner& corner : loop.corners) arcs += corner.bulge != 0 ? 1 : 0;
    }
    CHECK(circles >= 3);
    CHECK(arcs >= 2);
    Part part;
    part.blank = plate;
    const BlankDrawing drawing = drawBlank(part, {});
    REQUIRE(drawing.cut.size() == 1);
    CHECK(drawing.cut[0].corners.size() == 4);
    for (const DrawnCorner& corner : drawing.cut[0].corners) CHECK(corner.bulge == 0);
}
