// SPDX-License-Identifier: GPL-3.0-or-later
// Dimensions that suit the bars, through the program: suggestions, the part that is written, and what is refused.
#include <catch2/catch.hpp>

#include <filesystem>
#include <map>

#include <nlohmann/json.hpp>

#include "run_program.h"

using namespace tinwright;
using namespace tinwright::program_test;

namespace {

const std::string kPod = projectFile("examples/roaster-pod/part.json");
const std::string kPodShop = projectFile("examples/roaster-pod/shop.json");

Outcome suitPod(std::vector<std::string> more = {}) {
    std::vector<std::string> arguments{"suit", kPod, "--shop", kPodShop};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return runProgram(arguments);
}

}  // namespace

TEST_CASE("the pod as drawn goes nowhere; suit offers what cures it, and what it writes plans") {
    const ScratchFolder folder;
    CHECK(runProgram({"plan", kPod, "--shop", kPodShop}).code == 1);
    const Outcome offered = suitPod({"--json", "-"});
    CHECK(offered.code == 0);
    const nlohmann::json document = nlohmann::json::parse(offered.out);
    const nlohmann::json& brake = document["brakes"][0];
    CHECK(brake["as_drawn"]["verdict"] == "infeasible");
    REQUIRE(brake["suggestions"].size() >= 2);
    for (const nlohmann::json& suggestion : brake["suggestions"]) {
        CHECK(suggestion["dimension"] == "inside_width");  // the depth is locked
        CHECK(suggestion["changes"].size() == 1);          // and nothing follows the width
        CHECK(suggestion["result"]["verdict"] == "feasible");
    }
    const std::string file = folder.file("pod.json");
    const Outcome taken = suitPod({"--take", "1", "-o", file});
    CHECK(taken.code == 0);
    CHECK(has(taken.out, "Written to " + file));
    CHECK(runProgram({"plan", file, "--shop", kPodShop}).code == 0);
    nlohmann::json before = nlohmann::json::parse(contents(kPod));
    const nlohmann::json after = nlohmann::json::parse(contents(file));
    before["base"]["width"]["value"] = brake["suggestions"][0]["to_mm"];
    CHECK(after["base"]["width"]["value"].get<double>() == before["base"]["width"]["value"].get<double>());
    before["base"]["width"]["value"] = after["base"]["width"]["value"];
    CHECK(before == after);  // no suggestion changes more than it says
}

TEST_CASE("a drawing is stretched between two bends, and what is written plans") {
    const ScratchFolder folder;
    const std::string drawing = folder.file("pod.dxf");
    const std::string bends = folder.file("pod.bends.json");
    REQUIRE(runProgram({"blank", kPod, "-o", drawing, "--bends-out", bends}).code == 0);
    const std::string file = folder.file("pod-suited.dxf");
    const Outcome taken =
        runProgram({"suit", drawing, "--shop", kPodShop, "--only", "side_right..side_left", "--take", "1", "-o", file});
    CAPTURE(taken.err);
    CHECK(taken.code == 0);
    CHECK(runProgram({"plan", file, "--shop", kPodShop}).code == 0);
    CHECK(std::filesystem::exists(folder.file("pod-suited.bends.json")));
}

TEST_CASE("with the width kept too, suit says that nothing helps, what is nearest, and which bar would") {
    const Outcome kept = suitPod({"--only", "tab_length"});
    CHECK(kept.code == 1);
    CHECK(has(kept.out, "nothing within the limits of change makes it go"));
    CHECK(has(kept.out, "A bar"));
}

TEST_CASE(
    "a flange too short for the clamp and a window that takes the land: suit changes what is in the way, not the "
    "bars") {
    const Outcome outcome = runProgram({"suit", dataFile("window-by-bend.json"), "--shop", kPodShop, "--json", "-"});
    CHECK(outcome.code == 0);
    const nlohmann::json document = nlohmann::json::parse(outcome.out);
    std::map<std::string, double> offered;
    for (const nlohmann::json& suggestion : document["brakes"][0]["suggestions"]) {
        offered.emplace(suggestion["dimension"], suggestion["to_mm"]);
    }
    REQUIRE(offered.size() == 2);
    // Limits of the shop: 6 mm of land behind the nose line, which stands a nose radius (1 mm) within the bend's strip.
    CHECK(offered.at("window_from_bend") == Approx(6.0));
    CHECK(offered.at("leg") > 5);
    CHECK(offered.at("leg") < 9);
}

TEST_CASE("suit of a part without names says that nothing may change") {
    CHECK(has(runProgram({"suit", dataFile("enclosure.json"), "--shop", kPodShop, "--time-limit", "0.001"}).out,
              "no dimension may change"));
}

TEST_CASE("suit says what it cannot change and what belongs together") {
    const ScratchFolder folder;
    const Outcome locked = suitPod({"--only", "inside_depth"});
    CHECK(locked.code == 2);
    CHECK(has(locked.err, "which is locked"));
    const Outcome unknown = suitPod({"--keep", "inside_widht"});
    CHECK(unknown.code == 2);
    CHECK(has(unknown.err, "did you mean \"inside_width\"?"));
    CHECK(suitPod({"--take", "1"}).code == 2);
    CHECK(suitPod({"-o", folder.file("nothing.json")}).code == 2);
    const Outcome far = suitPod({"--take", "99", "-o", folder.file("nothing.json")});
    CHECK(far.code == 2);
    CHECK(has(far.err, "a number from 1 to"));
    CHECK_FALSE(std::filesystem::exists(folder.file("nothing.json")));
}

TEST_CASE("bars under an inside width: none, tightly, well; by millimetres or inches") {
    const Outcome none = runProgram({"bars", "74", "--shop", kPodShop});
    CHECK(none.code == 1);
    CHECK(has(none.out, "no string of the bars"));
    CHECK(has(none.out, "78.0 to 91.0 mm: B30 + B45"));
    const Outcome some = runProgram({"bars", "3.15in", "--shop", kPodShop, "--json", "-"});
    CHECK(some.code == 0);
    const nlohmann::json document = nlohmann::json::parse(some.out);
    CHECK(document["format"] == "tinwright-bars/1");
    CHECK(document["brakes"][0]["inside_width_mm"].get<double>() == Approx(80.01));
    CHECK(document["brakes"][0]["strings"][0]["bars"] == "B30 + B45");
    CHECK(document["brakes"][0]["strings"][0]["comfortable"] == true);
}

TEST_CASE("bars in one V of a press brake, and a V that it does not have") {
    const std::string shop = dataFile("press-shop.json");
    const Outcome one = runProgram({"bars", "74", "--shop", shop, "--vee", "10", "--json", "-"});
    CHECK(one.code == 0);
    const nlohmann::json document = nlohmann::json::parse(one.out);
    REQUIRE(document["brakes"].size() == 1);
    CHECK(document["brakes"][0]["vee_mm"] == 10);
    CHECK(document["brakes"][0]["strings"][0]["end_room_mm"].get<double>() == Approx(1.6));  // 0.16 V
    const Outcome none = runProgram({"bars", "74", "--shop", shop, "--vee", "11"});
    CHECK(none.code == 2);
    CHECK(has(none.err, "--vee"));
    CHECK(has(none.err, "6, 8, 10"));
    CHECK(runProgram({"bars", "74", "--shop", kPodShop, "--vee", "10"}).code == 2);
}

TEST_CASE("bars refuses what is no width") {
    for (const std::string width : {"", "wide", "74ft", "-3", "0", "1e9", "74 mm"}) {
        CAPTURE(width);
        const Outcome outcome = runProgram({"bars", width, "--shop", kPodShop});
        CHECK(outcome.code == 2);
        CHECK_FALSE(outcome.err.empty());
    }
}

TEST_CASE("start suits the bars of a shop by widening the fit gap, never by narrowing it") {
    const ScratchFolder folder;
    const std::string file = folder.file("housing.json");
    const std::vector<std::string> housing{"start", "housing", "--component", "73", "58",
                                           "30",    "--fix",   "left,right",  "-o", file};
    CHECK(runProgram(housing).code == 0);
    CHECK(runProgram({"plan", file, "--shop", kPodShop}).code == 1);
    std::vector<std::string> for_shop = housing;
    for_shop.insert(for_shop.end(), {"--shop", kPodShop, "--force"});
    const Outcome suited = runProgram(for_shop);
    CHECK(suited.code == 0);
    CHECK(has(suited.out, "gap in width is"));
    CHECK(runProgram({"plan", file, "--shop", kPodShop}).code == 0);
    const nlohmann::json recipe = nlohmann::json::parse(contents(file));
    CHECK(recipe["base"]["width"]["value"].get<double>() > 74);
    CHECK(recipe["base"]["width"]["locked"] == true);
    CHECK(recipe["base"]["depth"]["value"].get<double>() == 59);
}
