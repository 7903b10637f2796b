// SPDX-License-Identifier: GPL-3.0-or-later
// `calibrate`: test strips to the shop file, and from there to the blank.
#include <catch2/catch.hpp>

#include <filesystem>

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

/// The shop of an example for a file in that folder, since tooling is named relative to it.
std::string shopText(const ScratchFolder& folder) {
    const std::filesystem::path here = std::filesystem::path(folder.file("shop.json")).parent_path();
    nlohmann::ordered_json shop = nlohmann::ordered_json::parse(contents(projectFile("examples/hat-channel/shop.json")));
    for (auto& brake : shop["brakes"]) {
        if (brake.contains("tooling")) brake["tooling"] = std::filesystem::relative(projectFile("examples/hat-channel/" + brake["tooling"].get<std::string>()), here).string();
    }
    return shop.dump(2);
}

}  // namespace

TEST_CASE("one strip by options, as the worked figures have it") {
    // Deduction = 51.25 + 51.25 - 100 = 2.5; allowance = 2 (1 + 1.5) - 2.5 = 2.5; k = (2.5 / (pi/2) - 1) / 1.5 = 0.394.
    const Outcome outcome = runProgram({"calibrate", "--flat", "100", "--legs", "51.25", "51.25", "--thickness", "1.5", "--radius", "1", "--material", "mild-steel"});
    INFO(outcome.err);
    CHECK(outcome.code == 0);
    CHECK(has(outcome.out, "0.394"));
    CHECK(has(outcome.out, "2.5"));
}

TEST_CASE("strips go into the shop file, leave the rest of it alone, and make the blank") {
    const ScratchFolder folder;
    const std::string shop = folder.with("shop.json", shopText(folder));
    const std::string strips = folder.with("strips.json", kStrips);
    REQUIRE(runProgram({"calibrate", strips, "--into", shop}).code == 0);
    nlohmann::json written = nlohmann::json::parse(contents(shop));
    REQUIRE(written["measured_bends"].size() == 1);
    CHECK(written["measured_bends"][0]["strips"] == 2);
    const std::string once = contents(shop);
    REQUIRE(runProgram({"calibrate", strips, "--into", shop}).code == 0);
    CHECK(contents(shop) == once);  // replaced, not added
    written.erase("measured_bends");
    CHECK(written == nlohmann::json::parse(shopText(folder)));

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

TEST_CASE("calibrate refuses bad strips and leaves the shop file as it was") {
    const ScratchFolder folder;
    const std::string shop = folder.with("shop.json", shopText(folder));
    checkRefused(runProgram({"calibrate", folder.with("s.json", "{\"format\": \"tinwright-strips/1\"}"), "--into", shop}), "strips");
    checkRefused(runProgram({"calibrate", "--flat", "100"}), "--legs");
    checkRefused(runProgram({"calibrate", folder.file("none.json")}), "none.json");
    CHECK(contents(shop) == shopText(folder));
}
