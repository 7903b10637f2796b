// SPDX-License-Identifier: GPL-3.0-or-later
// Press brakes in shop and tooling files.
#include <catch2/catch.hpp>

#include <algorithm>

#include "reading.h"

using namespace tinwright;

namespace {

const char* const kPress =
    R"({"format": "tinwright-tooling/1", "units": "mm", "kind": "brake", "machine": "press-brake", "name": "press",
    "length": 1000, "force_kn": 300, "open_height": 300, "stroke": 150, "frames": {"throat": 200, "left": 100, "right": -50},
    "ram": [[-45, 0], [45, 0], [45, 400], [-45, 400]], "bed": [[-30, 0], [-30, -300], [30, -300], [30, 0]],
    "back_gauge": {"nearest": 5, "furthest": 500, "finger_width": 60, "finger_height": 15, "lowest": -20, "highest": 150}, "overhang": "both",
    "punches": [{"set": "punches"}], "dies": [{"set": "dies"}], "uncertain": ["/force_kn", "/frames"]})";
const char* const kPunches = R"({"format": "tinwright-tooling/1", "units": "in", "kind": "punches",
    "each_punch": {"height": 4, "tip_radius": 0.03, "tip_angle_deg": 85, "body_width": 0.75, "max_kn_per_m": 800, "uncertain": ["/height"]},
    "punches": [{"id": "S1", "width": 1, "count": 2},
                {"id": "S4L", "width": 4, "horn": {"reach": 1, "height": 0.5, "end": "left"}, "uncertain": ["/horn"]},
                {"id": "S4R", "width": 4, "horn": {"reach": 1, "height": 0.5, "end": "right"}}]})";
const char* const kDies = R"({"format": "tinwright-tooling/1", "units": "mm", "kind": "dies",
    "each_die": {"height": 60, "angle_deg": 85, "shoulder_radius": 1, "body_width": 28, "uncertain": ["/height"]},
    "dies": [{"id": "V12", "width": 500, "opening": 12, "max_kn_per_m": 600}, {"id": "V8", "width": 500, "opening": 8, "slot": {"width": 1, "depth": 7}}]})";

Result<Shop> read(const std::string& entry) {
    return readShopText(R"({"format": "tinwright-shop/1", "units": "mm", "brakes": [)" + entry + "]}", "shop.json",
                        test::memory({{"press", kPress}, {"punches", kPunches}, {"dies", kDies}}));
}

Brake good(const Result<Shop>& shop) {
    INFO(test::textOf(shop.issues()));
    REQUIRE(shop.ok());
    return shop.value().brakes.at(0);
}

Vec2 lowest(const Polygon& section) {
    return *std::min_element(section.begin(), section.end(),
                             [](const Vec2& a, const Vec2& b) { return a.y() < b.y(); });
}

}  // namespace

TEST_CASE("a press brake reads: punches first, then dies, each in its own file's units") {
    const Brake brake = good(read(R"({"tooling": "press"})"));
    REQUIRE(brake.isPress());
    CHECK(brake.press().force_kn == 300);
    CHECK(brake.press().open_height_mm == 300);
    CHECK(brake.press().stroke_mm == 150);
    CHECK(brake.press().throat_mm == 200);
    CHECK(brake.press().frames_left_mm == 100);
    CHECK(brake.press().frames_right_mm == 1050);
    REQUIRE(brake.press().gauge);
    CHECK(brake.press().gauge->furthest_mm == 500);
    CHECK(brake.press().gauge->finger_width_mm == 60);
    CHECK(brake.press().gauge->finger_height_mm == 15);
    CHECK(brake.press().gauge->lowest_mm == -20);
    CHECK(brake.press().gauge->highest_mm == 150);
    CHECK(signedArea_mm2(brake.press().bed) > 0);
    REQUIRE(brake.toolCount() == 5);
    REQUIRE(brake.press().punches.size() == 3);
    CHECK(brake.press().punches[0].count == 2);
    CHECK(brake.press().punches[0].width_mm == Approx(25.4));
    CHECK(brake.press().punches[0].height_mm == Approx(101.6));
    CHECK(brake.press().punches[0].tip_radius_mm == Approx(0.762));
    CHECK(brake.press().punches[0].max_kn_per_m == 800);  // kN/m in a file in inches too
    CHECK(lowest(brake.press().punches[0].profile).y() == 0);
    REQUIRE(brake.press().punches[1].horn);
    CHECK(brake.press().punches[1].horn->at_left);
    CHECK(brake.press().punches[1].horn->reach_mm == Approx(25.4));
    CHECK_FALSE(brake.press().punches[2].horn->at_left);
    CHECK(brake.press().dies[0].vee == Vee{12, Angle::degrees(85), 1});
    CHECK(brake.press().dies[0].max_kn_per_m == 600);
    CHECK(lowest(brake.press().dies[0].profile).y() == -60);
    CHECK(veesOf(brake).size() == 2);
}

TEST_CASE("a press brake makes air bends unless it is said to bottom, and then with a factor of force") {
    const Brake air = good(read(R"({"tooling": "press"})"));
    CHECK(air.press().mode == PressMode::kAirBending);
    CHECK(air.press().bottoming_factor == 5);
    const Brake bottoming = good(read(R"({"tooling": "press", "bending": "bottoming", "bottoming_factor": 3.5})"));
    CHECK(bottoming.press().mode == PressMode::kBottoming);
    CHECK(bottoming.press().bottoming_factor == 3.5);
    const Result<Shop> wrong = read(R"({"tooling": "press", "bending": "coining", "bottoming_factor": 0.5})");
    REQUIRE_FALSE(wrong);
    CHECK(test::textOf(wrong.issues()).find("/brakes/0/bending") != std::string::npos);
    CHECK(test::textOf(wrong.issues()).find("/brakes/0/bottoming_factor") != std::string::npos);
}

TEST_CASE("uncertain figures of punches and dies come out under their lists") {
    const std::vector<std::string> all = good(read(R"({"tooling": "press", "force_kn": 320})")).uncertain;
    CHECK(all == std::vector<std::string>{"/frames", "/punches/*/height", "/punches/S4L/horn", "/dies/*/height"});
}

TEST_CASE("an adapter hangs under the ram, as its section or as a block, and takes its height off the open height") {
    const Brake with_profile = good(read(
        R"({"tooling": "press", "adapter": {"height": 80, "profile": [[-20, 0], [20, 0], [20, 80], [-20, 80]]}})"));
    const Brake block = good(read(R"({"tooling": "press", "adapter": {"height": 80}})"));
    for (const Brake& brake : {with_profile, block}) {
        CHECK(brake.press().open_height_mm == 220);
        CHECK(isValid(Region{brake.press().ram, {}}));
        CHECK(lowest(brake.press().ram).y() == 0);
    }
    CHECK(signedArea_mm2(with_profile.press().ram) == Approx(90 * 400 + 40 * 80));
    CHECK(signedArea_mm2(block.press().ram) == Approx(90 * 480));
}

TEST_CASE("the Vs of a block are dies of their own, each seen from its middle") {
    const Brake brake = good(read(
        R"({"tooling": "press", "dies": [{"width": 400, "count": 2, "height": 60, "body_width": 60, "angle_deg": 85, "shoulder_radius": 1,
        "uncertain": ["/height"], "vees": [{"id": "B16", "opening": 16, "offset": -15, "shoulder_radius": 2}, {"id": "B8", "opening": 8, "offset": 20, "uncertain": ["/offset"]}]}]})"));
    REQUIRE(brake.toolCount() == 5);
    const Die& wide = brake.press().dies[0];
    const Die& narrow = brake.press().dies[1];
    CHECK(wide.id == "B16");
    CHECK(wide.count == 2);
    CHECK(wide.vee.shoulder_radius_mm == 2);
    CHECK(narrow.vee.shoulder_radius_mm == 1);
    CHECK(signedArea_mm2(wide.profile) == Approx(signedArea_mm2(narrow.profile)));
    CHECK(wide.profile[0].x() == Approx(-15));
    CHECK(narrow.profile[0].x() == Approx(-50));
    CHECK(std::count(brake.uncertain.begin(), brake.uncertain.end(), "/dies/B8/offset") == 1);
}

TEST_CASE("sections of punches and dies may be given point by point, in the frame of the die's block") {
    const Brake brake = good(read(R"({"tooling": "press",
        "punches": [{"id": "P", "width": 40, "tip_radius": 0, "profile": [[0, 0], [-8, 8], [-8, 90], [8, 90], [8, 8]]}],
        "dies": [{"id": "D", "width": 40, "opening": 16, "angle_deg": 90, "shoulder_radius": 0, "offset": 5,
                  "profile": [[-15, -60], [20, -60], [20, 0], [13, 0], [5, -8], [-3, 0], [-15, 0]]}]})"));
    CHECK(brake.press().punches[0].height_mm == 90);
    CHECK(brake.press().dies[0].height_mm == 60);
    CHECK(signedArea_mm2(brake.press().punches[0].profile) > 0);
    CHECK(std::find(brake.press().dies[0].profile.begin(), brake.press().dies[0].profile.end(), Vec2(0, -8)) !=
          brake.press().dies[0].profile.end());
}

TEST_CASE("what is not said of a press brake is taken the cautious way, or stands nowhere") {
    const Brake brake = good(read(
        R"({"machine": "press-brake", "name": "p", "length": 1000, "force_kn": 300, "open_height": 300, "stroke": 150,
        "ram": [[-45, 0], [45, 0], [45, 400], [-45, 400]], "bed": [[-30, 0], [-30, -300], [30, -300], [30, 0]],
        "punches": [{"set": "punches", "only": ["S1"]}], "dies": [{"set": "dies", "only": ["V8"]}]})"));
    CHECK(brake.press().throat_mm == 0);
    CHECK_FALSE(brake.press().gauge);
    CHECK_FALSE(brake.overhang_left);
    CHECK(brake.toolCount() == 2);
}

TEST_CASE("fields of the other machine are told where they stand, with the machine that is meant") {
    const Result<Shop> shop = read(R"({"tooling": "press", "nose_radius": 1})");
    REQUIRE(shop.issues().size() == 1);
    CHECK(shop.issues()[0].code == "shop.machine");
    CHECK(shop.issues()[0].place == "/brakes/0/nose_radius");
    CHECK(shop.issues()[0].expected == "only fields of a press brake");
}
