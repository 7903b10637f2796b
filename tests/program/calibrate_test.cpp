// SPDX-License-Identifier: GPL-3.0-or-later
// `calibrate`: test strips to the shop file, and from there to the blank.
#include <catch2/catch.hpp>

#include <cmath>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "checks.h"

using namespace tinwright::program_test;

namespace {

const char* const kStrips = R"({
  "format": "tinwright-strips/1", "units": "mm",
  "strips": [
    {"material": "mild-steel", "thickness": 1.5, "inside_radius": 1, "flat": 100, "legs": [51.2, 51.3]},
    {"material": "mild-steel", "thickness": 1.5, "inside_radius": 1, "flat": 100, "legs": [51.25, 51.25]}
  ]
})";

std::string shopText() { return contents(projectFile("examples/hat-channel/shop.json")); }

}  // namespace

TEST_CASE("one strip by options, as the worked figures have it") {
    // Deduction = 51.25 + 51.25 - 100 = 2.5; allowance = 2 (1 + 1.5) - 2.5 = 2.5; k = (2.5 / (pi/2) - 1) / 1.5 = 0.394.
    const Outcome outcome = runProgram({"calibrate", "--flat", "100", "--legs", "51.25", "51.25", "--thickness", "1.5",
                                        "--radius", "1", "--material", "mild-steel"});
    INFO(outcome.err);
    CHECK(outcome.code == 0);
    CHECK(has(outcome.out, "0.394"));
    CHECK(has(outcome.out, "2.5"));
}

TEST_CASE("strips go into the shop file, leave the rest of it alone, and make the blank") {
    const ScratchFolder folder;
    const std::string shop = folder.with("shop.json", shopText());
    const std::string strips = folder.with("strips.json", kStrips);
    REQUIRE(runProgram({"calibrate", strips, "--into", shop}).code == 0);
    nlohmann::json written = nlohmann::json::parse(contents(shop));
    REQUIRE(written["measured_bends"].size() == 1);
    CHECK(written["measured_bends"][0]["strips"] == 2);
    const std::string once = contents(shop);
    REQUIRE(runProgram({"calibrate", strips, "--into", shop}).code == 0);
    CHECK(contents(shop) == once);  // replaced, not added
    written.erase("measured_bends");
    CHECK(written == nlohmann::json::parse(shopText()));

    nlohmann::json part = nlohmann::json::parse(contents(projectFile("examples/hat-channel/part.json")));
    part["allowance"] = {{"rule", "measured"}};
    const std::string file = folder.with("part.json", part.dump());
    const Outcome planned = runProgram({"plan", file, "--shop", shop, "--plans", "1"});
    INFO(planned.out << planned.err);
    CHECK(planned.code == 0);
    CHECK(has(planned.out, "measured by the shop"));
    checkRefused(runProgram({"blank", file, "-o", folder.file("part.dxf")}), "measured");

    part["sheet"]["thickness"] = 3;  // never past what was measured
    checkRefused(runProgram({"plan", folder.with("thick.json", part.dump()), "--shop", shop}), "measured");
}

TEST_CASE(
    "what is written into the shop file can be read, at the limits of k too; angles that tell nothing are refused") {
    const ScratchFolder folder;
    const auto strip = [&](double k, double angle_deg) {
        const double pi = 3.14159265358979, a = angle_deg * pi / 180, apex = 2 * 3.0 * std::tan(a / 2);  // r = t = 1.5
        const double leg = 0.5 * (100 - a * (1.5 + k * 1.5) + apex);
        return fmt::format(R"({{"format": "tinwright-strips/1", "units": "mm", "strips": [
            {{"material": "mild-steel", "thickness": 1.5, "inside_radius": 1.5, "flat": 100, "angle_deg": {}, "legs": [{:.7f}, {:.7f}]}}]}})",
                           angle_deg, leg, leg);
    };
    for (const double k : {0.00001, 0.4, 0.99999}) {
        for (const double angle_deg : {30.0, 60.0, 90.0}) {
            const std::string shop = folder.with("shop.json", shopText());
            const Outcome written =
                runProgram({"calibrate", folder.with("s.json", strip(k, angle_deg)), "--into", shop});
            INFO(k << " " << angle_deg << " " << written.err);
            CHECK(written.code == 0);
            CHECK(runProgram({"bars", "74", "--shop", shop}).code < 2);  // 2: the shop file is refused
        }
    }
    const std::string shop = folder.with("shop.json", shopText());
    checkRefused(runProgram({"calibrate", folder.with("s.json", strip(0.4, 1)), "--into", shop}), "too little");
    CHECK(contents(shop) == shopText());
}

namespace {

/// Strips of 1.5 mm, radius 1, bent square, that are 100 long flat; a leg each is 51.25.
std::string stripsWith(const std::vector<double>& other_legs_mm, const std::string& material = "mild-steel") {
    std::string list;
    for (const double leg : other_legs_mm)
        list += fmt::format(
            R"({}{{"material": "{}", "thickness": 1.5, "inside_radius": 1, "flat": 100, "legs": [51.25, {}]}})",
            list.empty() ? "" : ",", material, leg);
    return R"({"format": "tinwright-strips/1", "units": "mm", "strips": [)" + list + "]}";
}

}  // namespace

// By hand: the deductions are the legs less 100: 2.5, 2.5, 2.55 and, misread, 4.5.
TEST_CASE("The shop file gets what most strips agree on, whatever one that was misread says") {
    const ScratchFolder folder;
    const std::string shop = folder.with("shop.json", shopText());
    const std::string strips = folder.with("strips.json", stripsWith({51.25, 53.25, 51.25, 51.3}));
    const Outcome outcome = runProgram({"calibrate", strips, "--into", shop});
    INFO(outcome.err);
    REQUIRE(outcome.code == 0);
    CHECK(has(outcome.out, "leaves strip 2 aside"));
    const nlohmann::json written = nlohmann::json::parse(contents(shop))["measured_bends"][0];
    CHECK(written["deduction"].get<double>() == Approx(2.525).margin(1e-3));
    CHECK(written["spread"].get<double>() == Approx(2).margin(1e-3));

    nlohmann::json part = nlohmann::json::parse(contents(projectFile("examples/hat-channel/part.json")));
    part["allowance"] = {{"rule", "measured"}};
    part["inside_radius"] = 1;
    const Outcome blank =
        runProgram({"blank", folder.with("part.json", part.dump()), "--shop", shop, "-o", folder.file("part.dxf")});
    INFO(blank.err);
    CHECK(blank.code == 0);
    CHECK(has(blank.out, "deductions up to 2.00 mm apart"));
}

TEST_CASE("Strips of which too few agree are not written until that is asked for") {
    const ScratchFolder folder;
    const std::string shop = folder.with("shop.json", shopText());
    const std::string strips = folder.with("strips.json", stripsWith({51.25, 52.25}));
    checkRefused(runProgram({"calibrate", strips, "--into", shop}), "--accept-spread");
    CHECK(contents(shop) == shopText());
    CHECK(runProgram({"calibrate", strips}).code == 0);  // told, with the warning
    REQUIRE(runProgram({"calibrate", strips, "--into", shop, "--accept-spread"}).code == 0);
    CHECK(nlohmann::json::parse(contents(shop))["measured_bends"][0]["deduction"].get<double>() ==
          Approx(3).margin(1e-3));
}

TEST_CASE("A material that no part is made of is refused with those there are") {
    const ScratchFolder folder;
    const std::string shop = folder.with("shop.json", shopText());
    const std::string strips = folder.with("strips.json", stripsWith({51.25}, "mild-stel"));
    const Outcome outcome = runProgram({"calibrate", strips, "--into", shop});
    checkRefused(outcome, "/strips/0/material");
    CHECK(has(outcome.err, "dc01, "));
    CHECK(has(outcome.err, "mild-steel"));
    CHECK(contents(shop) == shopText());
    checkRefused(runProgram({"calibrate", "--flat", "100", "--legs", "51.25", "51.25", "--thickness", "1.5", "--radius",
                             "1", "--material", "unobtainium"}),
                 "--material");
    // A metal that no table has is first named in the shop file.
    nlohmann::json with_copper = nlohmann::json::parse(shopText());
    with_copper["overbend"] = {{"default_deg", 2}, {"by_material_deg", {{"cu-dhp", 1}}}};
    const std::string copper_shop = folder.with("copper.json", with_copper.dump());
    CHECK(
        runProgram({"calibrate", folder.with("cu.json", stripsWith({51.25}, "cu-dhp")), "--into", copper_shop}).code ==
        0);
}

TEST_CASE("calibrate changes nothing when one of its files is refused") {
    const ScratchFolder folder;
    const std::string shop = folder.with("shop.json", shopText());
    const std::string strips = folder.with("strips.json", kStrips);
    CHECK(runProgram({"calibrate", strips, "--into", shop, "--json", strips}).code == 2);
    CHECK(runProgram({"calibrate", strips, "--into", shop, "--json", folder.file("no/where.json")}).code == 2);
    CHECK(contents(shop) == shopText());
    checkRefused(runProgram({"calibrate", strips, "--measuring-error", "0.1"}), "measuring_error");
}

TEST_CASE("calibrate refuses bad strips and leaves the shop file as it was") {
    const ScratchFolder folder;
    const std::string shop = folder.with("shop.json", shopText());
    checkRefused(
        runProgram({"calibrate", folder.with("s.json", "{\"format\": \"tinwright-strips/1\"}"), "--into", shop}),
        "strips");
    checkRefused(runProgram({"calibrate", "--flat", "100"}), "--legs");
    checkRefused(runProgram({"calibrate", folder.file("none.json")}), "none.json");
    CHECK(contents(shop) == shopText());
}
