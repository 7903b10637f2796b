// SPDX-License-Identifier: GPL-3.0-or-later
// What is made of drawings that are drawn well enough.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include <tinwright/io/blank/blank_io.h>
#include <tinwright/part/allowance/allowance.h>

#include "drawing_text.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

Part drawn(const DrawingText& drawing, const std::string& bends = bendsText(), const DxfOptions& options = {}) {
    Result<Part> part = readDrawn(drawing, bends, options);
    INFO(textOf(part.issues()));
    REQUIRE(part.ok());
    return std::move(part).value();
}

/// A plate 100 x 80 with one bend across.
DrawingText plate() {
    DrawingText drawing;
    drawing.rectangle("CUT", {0, 0}, {100, 80}).line("BEND", {0, 30}, {100, 30});
    return drawing;
}

/// A cross with four walls, its notches down to where the strips of the bends end; 120 x 100 base, walls of 30.
DrawingText cross(double c = 0.5 * kFactorAllowance_mm(Angle::degrees(90), 1.5, 1.5, 0.44) + 0.5) {
    DrawingText drawing;
    drawing.ring("CUT", {{c, -30},
                         {120 - c, -30},
                         {120 - c, c},
                         {150, c},
                         {150, 100 - c},
                         {120 - c, 100 - c},
                         {120 - c, 130},
                         {c, 130},
                         {c, 100 - c},
                         {-30, 100 - c},
                         {-30, c},
                         {c, c}});
    drawing.line("BEND", {c, 0}, {120 - c, 0})
        .line("BEND", {c, 100}, {120 - c, 100})
        .line("BEND", {0, c}, {0, 100 - c})
        .line("BEND", {120, c}, {120, 100 - c});
    return drawing;
}

std::string everything(const Part& part) {
    std::string text = bendsJson(part) + blankDxf(drawBlank(part, {bendLineMarks(part), true}));
    for (const NamedEdge& edge : part.edges)
        text += fmt::format("{} {} {} {} {}\n", edge.name, edge.from.x(), edge.from.y(), edge.to.x(), edge.to.y());
    for (const Panel& panel : part.panels) text += fmt::format("{} {}\n", panel.name, area_mm2(panel.region));
    return text;
}

}  // namespace

TEST_CASE("one bend: the strip lies about its line, panels are the rest") {
    const Part part = drawn(plate());
    REQUIRE(part.panels.size() == 2);
    const Bend& bend = part.bends.at(0);
    CHECK(bend.allowance_mm == Approx(kFactorAllowance_mm(Angle::degrees(90), 1.5, 1.5, 0.44)));
    CHECK(part.panels[0].name == "base");
    CHECK(part.panels[1].name == "b1");
    CHECK(area_mm2(part.panels[0].region) == Approx(100 * (50 - 0.5 * bend.allowance_mm)));
    CHECK(area_mm2(part.panels[1].region) == Approx(100 * (30 - 0.5 * bend.allowance_mm)));
    CHECK(bend.along.x() == -1);  // the child is on the left
    CHECK(bend.toward_child.y() == -1);
    REQUIRE(bend.spans.size() == 1);
    CHECK(bend.spans[0].from_mm == Approx(0).margin(1e-9));
    CHECK(bend.spans[0].to_mm == Approx(100));
    CHECK(part.edges.size() == 6);
}

TEST_CASE("a cross folds to a box; four walls named in a fixed order") {
    const Part part = drawn(cross());
    REQUIRE(part.bends.size() == 4);
    for (const Bend& bend : part.bends) CHECK(bend.parent.index() == 0);
    CHECK(part.bends[0].toward_child.x() == -1);  // left to right, bottom to top
    CHECK(part.bends[1].toward_child.y() == -1);
    CHECK(part.bends[2].toward_child.y() == 1);
    CHECK(part.bends[3].toward_child.x() == 1);
}

// As drawn without reliefs, notches end where the bend lines meet, or a little off: the strips then share a corner.
TEST_CASE("a cross whose notches end at the corners of the bend lines") {
    for (const double notch : {0.0, 1e-4, -1e-4, 5e-3, 0.3, 0.8}) {
        INFO(notch);
        const Part part =
            drawn(cross(notch), bendsText(R"(, "base": {"at": [60, 50]})", R"("angle": 45, "direction": "up")"));
        REQUIRE(part.bends.size() == 4);
        REQUIRE(part.panels.size() == 5);
        for (const Bend& bend : part.bends) {
            CHECK(bend.parent.index() == 0);
            CHECK(bend.spans.size() == 1);
            CHECK(bendLength_mm(bend) == Approx((std::abs(bend.along.x()) > 0.5 ? 120 : 100) - 2 * notch).margin(2e-3));
        }
        for (const Panel& panel : part.panels) CHECK(panel.region.outline.size() == 4);
    }
}

TEST_CASE("the order of the entities, and which way they are drawn, change nothing") {
    DrawingText drawing = cross();
    drawing.circle("CUT", {50, 50}, 7).arc("CUT", {80, 50}, 5, 90, 270).arc("CUT", {80, 50}, 5, 270, 90);
    const std::string first = everything(drawn(drawing));
    for (unsigned seed = 1; seed <= 10; ++seed) {
        std::mt19937 random(seed);
        std::shuffle(drawing.entities.begin(), drawing.entities.end(), random);
        INFO("seed " << seed);
        CHECK(everything(drawn(drawing)) == first);
    }
    DrawingText other;
    for (const std::string& entity : drawing.entities) {
        // Ends of lines swapped: group 10 for 11, 20 for 21.
        std::string swapped = entity;
        if (entity.starts_with("0\nLINE")) {
            for (const auto& [a, b] : {std::pair<std::string, std::string>{"\n10\n", "\n11\n"}, {"\n20\n", "\n21\n"}}) {
                const auto p = swapped.find(a), q = swapped.find(b);
                swapped.replace(p, a.size(), b).replace(q, b.size(), a);
            }
        }
        other.entity(swapped);
    }
    CHECK(everything(drawn(other)) == first);
}

TEST_CASE("a bend across a window is one bend with two stretches; tabs on one line are two bends") {
    DrawingText window = plate();
    window.rectangle("CUT", {40, 20}, {60, 50});
    const Part with_window = drawn(window);
    REQUIRE(with_window.bends.size() == 1);
    REQUIRE(with_window.bends[0].spans.size() == 2);
    CHECK(bendLength_mm(with_window.bends[0]) == Approx(80));

    DrawingText tabs;
    tabs.ring("CUT", {{0, 0}, {40, 0}, {40, 33}, {60, 33}, {60, 0}, {100, 0}, {100, 90}, {0, 90}})
        .line("BEND", {0, 30}, {40, 30})
        .line("BEND", {60, 30}, {100, 30});
    const Part with_tabs = drawn(tabs);
    REQUIRE(with_tabs.bends.size() == 2);
    CHECK(with_tabs.bends[0].parent == with_tabs.bends[1].parent);
}

TEST_CASE("a hole that bites into a strip leaves the bend whole") {
    DrawingText drawing = plate();
    drawing.rectangle("CUT", {40, 29.5}, {60, 50});
    const Part part = drawn(drawing);
    REQUIRE(part.bends.size() == 1);
    REQUIRE(part.bends[0].spans.size() == 1);
    CHECK(bendLength_mm(part.bends[0]) == Approx(100));
    CHECK(part.panels[1].region.outline.size() == 4);
}

TEST_CASE("what is drawn twice, over one another, or not quite closed is mended, and said") {
    DrawingText drawing;
    drawing.line("CUT", {0, 0}, {60, 0}).line("CUT", {40, 0}, {100, 0}).line("CUT", {100, 0}, {0, 0});
    drawing.line("CUT", {100.04, 0.05}, {100.04, 80})
        .line("CUT", {100, 80.03}, {0, 80})
        .line("CUT", {0, 80}, {0, 0})
        .line("CUT", {0, 0}, {0, 80});
    drawing.circle("CUT", {50, 60}, 5)
        .circle("CUT", {50, 60}, 5)
        .arc("CUT", {20, 60}, 5, 0, 180)
        .arc("CUT", {20, 60}, 5, 180, 360)
        .arc("CUT", {20, 60}, 5, 0, 180);
    drawing.line("BEND", {0.3, 30}, {100.2, 30}).line("BEND", {0.3, 30}, {70, 30});
    const Part part = drawn(drawing);
    CHECK(part.blank.holes.size() == 2);
    CHECK(warns(part, "gaps in cut lines closed"));
    CHECK(warns(part, "drawn twice"));
    CHECK(part.bends.size() == 1);
    CHECK(area_mm2({part.blank.outline, {}}) == Approx(100 * 80).epsilon(1e-3));
}

TEST_CASE("an end past a corner is trimmed, and said") {
    DrawingText drawing;
    drawing.line("CUT", {0, 0}, {100.05, 0})
        .line("CUT", {100, 0}, {100, 80})
        .line("CUT", {100, 80}, {0, 80})
        .line("CUT", {0, 80}, {0, 0});
    const Part part = drawn(drawing);
    CHECK(part.bends.empty());
    CHECK(part.blank.outline.size() == 4);
    CHECK(warns(part, "trimmed"));
}

TEST_CASE("layers and line types: rules first, guesses said") {
    DrawingText drawing;
    drawing.rectangle("Profile", {0, 0}, {100, 80})
        .line("Crease", {0, 30}, {100, 30})
        .line("Frame", {-50, -50}, {150, -50});
    CHECK_FALSE(readDrawn(drawing).ok());
    DxfOptions options;
    options.bend_layers = {"CREASE"};
    options.ignored_layers = {"fra*"};
    const Part by_options = drawn(drawing, bendsText(), options);
    CHECK(by_options.bends.size() == 1);
    CHECK(warns(by_options, "layer \"Profile\": 4 curves taken as cut lines"));
    const Part by_file = drawn(drawing, bendsText(R"(, "layers": {"cut": ["Profile"], "bend": ["Crease"]})"));
    CHECK(by_file.bends.size() == 1);
    CHECK(warns(by_file, "layer \"Frame\": 1 curve taken as neither"));
    CHECK(by_file.warnings.size() == 1);

    DrawingText dashed;
    dashed.rectangle("0", {0, 0}, {100, 80}).entity("0\nLINE\n8\n0\n6\nDASHED2\n10\n0\n20\n30\n11\n100\n21\n30\n");
    CHECK(warns(drawn(dashed), "by their line type DASHED2"));
    DxfOptions by_type;
    by_type.bend_line_types = {"dashed*"};
    CHECK_FALSE(warns(drawn(dashed, bendsText(), by_type), "DASHED2"));
}

TEST_CASE("layers that are off or frozen, paper space and invisible entities are left out, and said") {
    DrawingText drawing = plate();
    drawing.tables =
        "0\nTABLE\n2\nLAYER\n0\nLAYER\n2\nOFF\n70\n0\n62\n-"
        "7\n6\nCONTINUOUS\n0\nLAYER\n2\nCOLD\n70\n1\n62\n7\n6\nCONTINUOUS\n0\nENDTAB\n";
    drawing.line("OFF", {5, 5}, {9, 9}).line("COLD", {5, 5}, {9, 9});
    drawing.entity("0\nLINE\n8\nCUT\n67\n1\n10\n1\n20\n1\n11\n7\n21\n7\n")
        .entity("0\nLINE\n8\nCUT\n60\n1\n10\n1\n20\n1\n11\n7\n21\n7\n");
    CHECK(warns(drawn(drawing), "layers off or frozen): 4"));
}

TEST_CASE("how a line is bent: entry, then text, then layer, then default") {
    DrawingText drawing;
    drawing.rectangle("CUT", {0, 0}, {100, 200})
        .line("BEND_DOWN", {0, 40}, {100, 40})
        .line("BEND", {0, 80}, {100, 80})
        .line("BEND", {0, 120}, {100, 120})
        .line("BEND", {0, 160}, {100, 160});
    drawing.text("NOTES", {50, 83}, "Down 30%%d r 2")
        .text("NOTES", {50, 123}, "DOWN 30")
        .text("NOTES", {50, 140}, "UP 12");
    const std::string entry =
        R"(, "base": {"name": "floor", "at": [50, 100]}, "bends": [{"name": "mine", "at": [10, 121], "angle": 45, "direction": "up", "inside_radius": 3}])";
    const Part part = drawn(drawing, bendsText(entry));
    REQUIRE(part.bends.size() == 4);
    const auto at = [&](double y) {
        return *std::find_if(part.bends.begin(), part.bends.end(),
                             [&](const Bend& bend) { return std::abs(bend.origin.y() - y) < 1e-6; });
    };
    CHECK(part.panels[0].name == "floor");
    CHECK(at(120).name == "mine");
    CHECK(at(120).angle.deg() == Approx(45));
    CHECK(at(120).up);
    CHECK(at(120).inside_radius_mm == 3);
    CHECK(at(80).angle.deg() == Approx(30));
    CHECK_FALSE(at(80).up);
    CHECK(at(80).inside_radius_mm == 2);
    CHECK_FALSE(at(40).up);
    CHECK(at(40).angle.deg() == Approx(90));
    CHECK(at(160).up);
    CHECK(part.bends[0].name == "mine");
}

TEST_CASE("a drawing on the back of its plane, and copies, scaled unevenly and turned") {
    DrawingText drawing = plate();
    drawing.blocks = "0\nBLOCK\n2\nb\n10\n1\n20\n0\n0\nCIRCLE\n8\n0\n10\n1\n20\n0\n40\n2\n0\nENDBLK\n";
    drawing.entity("0\nINSERT\n8\nCUT\n2\nB\n10\n20\n20\n60\n41\n2\n42\n1\n50\n90\n");
    drawing.entity("0\nINSERT\n8\nCUT\n2\nB\n10\n-50\n20\n60\n210\n0\n220\n0\n230\n-1\n");
    const Part part = drawn(drawing);
    REQUIRE(part.blank.holes.size() == 2);
    std::vector<Polygon> holes = part.blank.holes;
    std::sort(holes.begin(), holes.end(),
              [](const Polygon& a, const Polygon& b) { return centreOf(a).x() < centreOf(b).x(); });
    CHECK((centreOf(holes[0]) - Vec2(20, 60)).norm() < 1e-3);
    CHECK((centreOf(holes[1]) - Vec2(50, 60)).norm() < 1e-3);
    CHECK(std::abs(signedArea_mm2(holes[0]) - 8 * 3.14159265) < 0.02 * 20);
    Vec2 high = holes[0].front();
    for (const Vec2& p : holes[0]) high = high.cwiseMax(p);
    CHECK(high.y() == Approx(64).margin(0.001));
}

TEST_CASE("units: of the command line, the bends file, the header, in this order") {
    DrawingText inches(1);
    inches.rectangle("CUT", {0, 0}, {4, 3});
    CHECK(area_mm2(drawn(inches).blank) == Approx(12 * 25.4 * 25.4));
    CHECK(area_mm2(drawn(inches, bendsText(R"(, "drawing_units": "mm")")).blank) == Approx(12));
    DxfOptions options;
    options.mm_per_unit = 25.4;
    CHECK(area_mm2(drawn(inches, bendsText(R"(, "drawing_units": "mm")"), options).blank) == Approx(12 * 25.4 * 25.4));
}
