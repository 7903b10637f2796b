// SPDX-License-Identifier: GPL-3.0-or-later
// Parts against the brakes of a shop, through the program.
#include <catch2/catch.hpp>

#include <filesystem>

#include <nlohmann/json.hpp>

#include "checks.h"

using namespace tinwright;
using namespace tinwright::program_test;

namespace {

const std::string kShop = dataFile("three-brakes.json");

std::vector<std::string> screen(const std::vector<std::string>& parts, std::vector<std::string> more = {}) {
    std::vector<std::string> arguments{"screen"};
    arguments.insert(arguments.end(), parts.begin(), parts.end());
    arguments.insert(arguments.end(), {"--shop", kShop});
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

const std::vector<std::string> kParts{projectFile("examples/hat-channel/part.json"),
                                      projectFile("examples/deep-housing/part.json"), dataFile("channel.json")};

}  // namespace

TEST_CASE("example: parts against a folder, a finger brake and a press brake") {
    const Outcome text = runProgram(screen(kParts));
    INFO(text.err);
    CHECK(text.code == 0);
    CHECK(longestLine(text.out) <= 100);
    checkGolden("screen-three-brakes.txt", text.out);
}

TEST_CASE("screen says of each part and brake what plan says") {
    const nlohmann::json table = nlohmann::json::parse(runProgram(screen(kParts, {"--json", "-"})).out);
    CHECK(table["format"] == "tinwright-screen/1");
    REQUIRE(table["parts"].size() == kParts.size());
    for (std::size_t i = 0; i < kParts.size(); ++i) {
        const nlohmann::json plan =
            nlohmann::json::parse(runProgram({"plan", kParts[i], "--shop", kShop, "--json", "-", "--no-remedies"}).out);
        const nlohmann::json& part = table["parts"][i];
        CHECK(part["file"] == kParts[i]);
        CHECK(part["verdict"] == plan["verdict"]);
        for (std::size_t k = 0; k < 3; ++k) {
            const nlohmann::json& brake = part["brakes"][k];
            CHECK(brake["name"] == plan["brakes"][k]["name"]);
            CHECK(brake["verdict"] == plan["brakes"][k]["verdict"]);
            CHECK(brake["vee_mm"] == plan["brakes"][k]["vee_mm"]);
            CHECK(brake["vee_mm"].is_null() == (k != 2));
            if (brake["verdict"] == "feasible") CHECK(brake["cost_s"] == plan["brakes"][k]["plans"][0]["cost_s"]);
            CHECK(brake["blocks"].empty() == (brake["verdict"] == "feasible"));
        }
    }
}

TEST_CASE("screen tells the same with any number of threads") {
    const std::string one = runProgram(screen(kParts, {"--json", "-", "--threads", "1"})).out;
    CHECK(one == runProgram(screen(kParts, {"--json", "-", "--threads", "4"})).out);
}

TEST_CASE("a part that no brake makes decides the exit code, and is told what a machine would need") {
    const std::vector<std::string> parts{kParts[0], kParts[1]};
    const Outcome text = runProgram(screen(parts, {"--brake", "finger-brake"}));
    CHECK(text.code == 1);
    CHECK(has(text.out, "A machine that would make it"));
    CHECK(has(text.out, "mm from the nose line back to the beam (here 45)"));
    const nlohmann::json table =
        nlohmann::json::parse(runProgram(screen(parts, {"--brake", "finger-brake", "--json", "-"})).out);
    const nlohmann::json& needs = table["parts"][1]["brakes"][0]["machine_needs"];
    CHECK(needs["found"] == true);
    CHECK(needs["figures"][0]["figure"] == "gap-behind-nose");
    CHECK(table["parts"][0]["brakes"][0]["machine_needs"].is_null());
}

TEST_CASE("what is wrong with each part file is told, and nothing is planned") {
    const ScratchFolder folder;
    const Outcome refused =
        runProgram(screen({kParts[0], folder.file("none.json"), kShop}, {"--json", folder.file("table.json")}));
    checkRefused(refused, "none.json");
    checkRefused(refused, "three-brakes.json");
    CHECK_FALSE(std::filesystem::exists(folder.file("table.json")));
}

TEST_CASE("a part that goes by its geometry, but that the machines do not bear, is marked") {
    const ScratchFolder folder;
    const std::string thick = folder.with("thick.json", kTooThickBracket);
    const Outcome text = runProgram(screen({thick}));
    CHECK(text.code == 4);
    CHECK(has(text.out, "OVERLOADED, "));
    CHECK(has(text.out, "press-brake: OVERLOAD: leg: 6 mm mild-steel in a V of 25"));
    const nlohmann::json table = nlohmann::json::parse(runProgram(screen({thick}, {"--json", "-"})).out);
    for (const nlohmann::json& brake : table["parts"][0]["brakes"]) CHECK_FALSE(brake["overloads"].empty());
}
