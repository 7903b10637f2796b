// SPDX-License-Identifier: GPL-3.0-or-later
// What a shop says itself, over what its tooling files say, each in its own units.
#include <catch2/catch.hpp>

#include <algorithm>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "reading.h"

using namespace tinwright;

namespace {

const char* const kBrake = R"({"format": "tinwright-tooling/1", "units": "in", "kind": "brake", "name": "old",
    "length": 40, "max_leaf_angle_deg": 130, "leaf_faces": [{"name": "full", "reach": 1, "thickness": 0.5}],
    "nose_radius": 0.04, "setback": 0.06, "bed": [[0, 0], [0, -2], [4, -2], [4, 0]], "above": "nothing",
    "clamp": "loose-bars", "overhang": "right", "bars": [{"set": "bars"}],
    "uncertain": ["/length", "/bed/2", "/setback"]})";
const char* const kBars = R"({"format": "tinwright-tooling/1", "units": "mm", "kind": "bars",
    "each_bar": {"clamp_depth": 60, "height": 25, "nose_angle_deg": 45, "end_relief": {"length": 1, "height": 2}, "count": 2,
                 "uncertain": ["/height"]},
    "bars": [{"id": "A", "width": 30}, {"id": "B", "width": 50, "count": 1, "height": 30, "uncertain": ["/width"]}]})";

Result<Shop> read(const std::string& entry, const std::string& units = "mm", const std::string& more = "") {
    return readShopText(
        R"({"format": "tinwright-shop/1", "units": ")" + units + R"(", "brakes": [)" + entry + "]" + more + "}",
        "shop.json", test::memory({{"brake", kBrake}, {"bars", kBars}}));
}

Shop good(const Result<Shop>& shop) {
    INFO(test::textOf(shop.issues()));
    REQUIRE(shop.ok());
    return shop.value();
}

}  // namespace

TEST_CASE("each file's lengths are in the units it names") {
    const Shop shop = good(read(R"({"tooling": "brake", "hinge_height": 1})"));
    const Brake& brake = shop.brakes.at(0);
    CHECK(brake.name == "old");
    CHECK(brake.length_mm == Approx(1016).epsilon(1e-12));
    CHECK(brake.leaf().nose_radius_mm == Approx(1.016).epsilon(1e-12));
    CHECK(brake.leaf().hinge_height_mm == 1.0);
    CHECK(brake.leaf().bars.at(0).width_mm == 30.0);
    CHECK((brake.leaf().bed.at(0) - Vec2(0, 0)).norm() == 0.0);
    CHECK(signedArea_mm2(brake.leaf().bed) == Approx(4 * 2 * 25.4 * 25.4));
    CHECK(inSetup(brake, 2).setback_mm() == Approx(0.06 * 25.4));
    CHECK_FALSE(brake.overhang_left);
    CHECK(brake.overhang_right);
}

TEST_CASE("what the shop says stands over the tooling file, field by field") {
    const Shop shop = good(
        read(R"({"tooling": "brake", "name": "mine", "length": 50, "setback": "sheet-thickness", "overhang": "left"})",
             "in"));
    const Brake& brake = shop.brakes.at(0);
    CHECK(brake.name == "mine");
    CHECK(brake.length_mm == Approx(1270).epsilon(1e-12));
    CHECK(inSetup(brake, 2).setback_mm() == 2.0);
    CHECK(brake.overhang_left);
    CHECK_FALSE(brake.overhang_right);
    CHECK(brake.leaf().max_leaf_angle.deg() == Approx(130));
}

TEST_CASE("a bar takes what it does not say from each_bar") {
    const Shop shop = good(read(R"({"tooling": "brake"})"));
    const std::vector<Bar>& bars = shop.brakes.at(0).leaf().bars;
    REQUIRE(bars.size() == 2);
    CHECK(bars[0].height_mm == 25.0);
    CHECK(bars[0].count == 2);
    CHECK(bars[0].end_relief_mm == 1.0);
    CHECK(bars[0].end_relief_height_mm == 2.0);
    CHECK(bars[1].height_mm == 30.0);
    CHECK(bars[1].count == 1);
    CHECK(bars[1].clamp_depth_mm == 60.0);
}

TEST_CASE("bars of a shop stand in place of the tooling file's, sets and own ones mixed") {
    const Shop shop = good(read(R"({"tooling": "brake", "bars": [{"set": "bars", "only": ["B"]},
        {"id": "own", "width": 2, "clamp_depth": 2, "height": 1, "nose_angle_deg": 45}]})",
                                "in"));
    const std::vector<Bar>& bars = shop.brakes.at(0).leaf().bars;
    REQUIRE(bars.size() == 2);
    CHECK(bars[0].id == "B");
    CHECK(bars[0].width_mm == 50.0);
    CHECK(bars[1].id == "own");
    CHECK(bars[1].width_mm == Approx(50.8).epsilon(1e-12));
}

TEST_CASE("uncertain figures come out by name, and what the shop measured is not among them") {
    const std::vector<std::string> all = good(read(R"({"tooling": "brake"})")).brakes.at(0).uncertain;
    CHECK(all == std::vector<std::string>{"/length", "/bed/2", "/setback", "/bars/A/height", "/bars/B/width"});
    const std::vector<std::string> left =
        good(read(R"({"tooling": "brake", "length": 900, "bed": [[0, 0], [0, -50], [90, -50], [90, 0]],
        "bars": [{"set": "bars", "only": ["A"]}]})"))
            .brakes.at(0)
            .uncertain;
    CHECK(left == std::vector<std::string>{"/setback", "/bars/*/height"});
}

TEST_CASE("a bar's section may be given point by point, either way round") {
    const Shop shop = good(read(R"({"tooling": "brake", "nose_radius": 0, "bars": [
        {"id": "P", "width": 40, "profile": [[0, 0], [20, 20], [40, 20], [40, 0]]}]})"));
    const Bar& bar = shop.brakes.at(0).leaf().bars.at(0);
    CHECK(signedArea_mm2(bar.profile) == Approx(600));
    CHECK(bar.clamp_depth_mm == 40.0);
    CHECK(bar.height_mm == 20.0);
}

TEST_CASE("limits, times and overbend: what is said counts, the rest keeps its default") {
    const Shop shop = good(
        read(R"({"tooling": "brake"})", "in",
             R"(, "limits": {"bar_gap": 0.1}, "times": {"flip_s": 2.5}, "overbend": {"by_material_deg": {"304": 5}})"));
    CHECK(shop.limits.bar_gap_mm == Approx(2.54));
    CHECK(shop.limits.uncovered_end_mm == Limits{}.uncovered_end_mm);
    CHECK(shop.times.flip_ms == 2500);
    CHECK(shop.times.fold_ms == Times{}.fold_ms);
    CHECK(shop.overbendFor_deg("304", shop.brakes[0]) == 5.0);
    CHECK(shop.overbendFor_deg("dc01", shop.brakes[0]) == 3.0);  // FAA leaf-brake figure
}

TEST_CASE("a brake's own overbend counts for it instead of the shop's, all of it") {
    const Shop shop =
        good(read(R"({"tooling": "brake", "overbend": {"default_deg": 1, "by_material_deg": {"dc01": 0.5}}})", "mm",
                  R"(, "overbend": {"default_deg": 4, "by_material_deg": {"304": 5}})"));
    CHECK(shop.overbendFor_deg("dc01", shop.brakes[0]) == 0.5);
    CHECK(shop.overbendFor_deg("304", shop.brakes[0]) == 1.0);
    Brake other = shop.brakes[0];
    other.overbend.reset();
    CHECK(shop.overbendFor_deg("304", other) == 5.0);
    CHECK(shop.overbendFor_deg("dc01", other) == 4.0);
}

TEST_CASE("tolerances: what is said counts, in the file's units; the rest is left open or keeps its default") {
    const Shop shop =
        good(read(R"({"tooling": "brake"})", "in", R"(, "tolerances": {"cutting": 0.01, "bend_angle_deg": 0.5})"));
    CHECK(*shop.tolerances.cutting_mm == Approx(0.254));
    CHECK(shop.tolerances.bend_angle.deg() == Approx(0.5));
    CHECK_FALSE(shop.tolerances.thickness_mm);
    CHECK(shop.tolerances.bend_line_mm == Tolerances{}.bend_line_mm);
    const Result<Shop> wrong =
        read(R"({"tooling": "brake"})", "mm", R"(, "tolerances": {"thickness": 6, "bend_line": -1, "angle": 1})");
    REQUIRE_FALSE(wrong.ok());
    CHECK(test::has(wrong.issues(), "shop.range", "/tolerances/thickness"));
    CHECK(test::has(wrong.issues(), "shop.range", "/tolerances/bend_line"));
}

TEST_CASE("what is not said of a brake is taken the cautious way") {
    const Shop shop =
        good(read(R"({"name": "b", "length": 500, "max_leaf_angle_deg": 120, "nose_radius": 1, "clamp": "on-beam",
        "leaf_faces": [{"name": "full", "reach": 20, "thickness": 10}], "bed": [[0, 0], [0, -50], [90, -50], [90, 0]],
        "above": {"beam_height": 40, "beam_front": 20}, "opening": 30,
        "bars": [{"id": "P", "width": 40, "clamp_depth": 60, "height": 40, "nose_angle_deg": 45}]})"));
    const Brake& brake = shop.brakes.at(0);
    CHECK_FALSE(brake.overhang_left);
    CHECK_FALSE(brake.overhang_right);
    CHECK_FALSE(brake.leaf().pieces_out_in_place);
    CHECK(brake.leaf().bars.at(0).count == 1);
    CHECK(brake.leaf().bars.at(0).end_relief_mm == 0.0);
    CHECK(inSetup(brake, 1.2).setback_mm() == 1.2);
}

TEST_CASE("a bar with another nose radius belongs under a brake entry of its own") {
    const Result<Shop> shop = read(R"({"tooling": "brake", "bars": [
        {"id": "R3", "width": 40, "clamp_depth": 60, "height": 25, "nose_angle_deg": 45, "nose_radius": 3}]})");
    REQUIRE_FALSE(shop.ok());
    REQUIRE(shop.issues().size() == 1);
    CHECK(shop.issues()[0].code == "shop.bar.nose-radius");
    CHECK(shop.issues()[0].place == "/brakes/0/bars/0/nose_radius");
    CHECK(shop.issues()[0].hint.find("brake entry of their own") != std::string::npos);
}

TEST_CASE("issues of shop and tooling file come together, each naming its file, nothing twice") {
    const char* const bad_bars =
        R"({"format": "tinwright-tooling/1", "units": "mm", "kind": "bars", "bars": [{"id": "A", "width": -1}]})";
    const Result<Shop> shop = readShopText(R"({"format": "tinwright-shop/1", "units": "mm", "brakes": [
        {"tooling": "brake", "length": -5}, {"tooling": "brake", "name": "two", "nose_radius": "one"}]})",
                                           "shop.json", test::memory({{"brake", kBrake}, {"bars", bad_bars}}));
    REQUIRE_FALSE(shop.ok());
    INFO(test::textOf(shop.issues()));
    CHECK(test::has(shop.issues(), "shop.range", "/brakes/0/length", "shop.json"));
    CHECK(test::has(shop.issues(), "shop.type", "/brakes/1/nose_radius", "shop.json"));
    CHECK(test::has(shop.issues(), "tooling.range", "/bars/0/width", "bars"));
    CHECK(std::count_if(shop.issues().begin(), shop.issues().end(),
                        [](const Issue& i) { return i.code == "tooling.range"; }) == 1);
}
