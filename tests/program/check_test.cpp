// SPDX-License-Identifier: GPL-3.0-or-later
// `check` and `explain` through the program.
#include <catch2/catch.hpp>

#include <set>

#include <nlohmann/json.hpp>

#include "../schema/schema_check.h"
#include "checks.h"

using namespace tinwright;
using namespace tinwright::program_test;

namespace {

/// Text and JSON of one part; returns the JSON.
nlohmann::json checkPart(const std::string& name, const std::vector<std::string>& part_and_shop, int code) {
    std::vector<std::string> arguments{"check"};
    arguments.insert(arguments.end(), part_and_shop.begin(), part_and_shop.end());
    const Outcome text = runProgram(arguments);
    INFO(text.err);
    CHECK(text.code == code);
    CHECK(longestLine(text.out) <= 100);
    checkGolden("check-" + name + ".txt", text.out);
    arguments.insert(arguments.end(), {"--json", "-"});
    const Outcome json = runProgram(arguments);
    CHECK(json.code == code);
    return nlohmann::json::parse(json.out.substr(0, json.out.find("\n}\n") + 2));
}

std::vector<std::string> example(const std::string& folder, const std::string& part) {
    return {projectFile("examples/" + folder + "/" + part), "--shop", projectFile("examples/" + folder + "/shop.json")};
}

std::set<std::string> idsOf(const nlohmann::json& document) {
    std::set<std::string> ids;
    for (const nlohmann::json& finding : document["findings"]) ids.insert(finding["id"].get<std::string>());
    return ids;
}

}  // namespace

TEST_CASE("example: check of the pod, its small holes drilled") {
    const nlohmann::json document = checkPart("roaster-pod", example("roaster-pod", "part-suited.json"), 0);
    CHECK(document["format"] == "tinwright-check/1");
    CHECK(idsOf(document).contains("cut.hole"));
}
TEST_CASE("example: check of a hat channel") { checkPart("hat-channel", example("hat-channel", "part.json"), 0); }
TEST_CASE("example: check of a tray with lips") { checkPart("tray-lips", example("tray-lips", "part.json"), 0); }
TEST_CASE("example: check of a deep housing") { checkPart("deep-housing", example("deep-housing", "part.json"), 0); }

TEST_CASE("example: check of a window beside a bend, without a shop") {
    CHECK(idsOf(checkPart("window-by-bend", {dataFile("window-by-bend.json")}, 0)).contains("web.land"));
}

TEST_CASE("example: check of an angle that folds at its windows whichever side is swung") {
    const nlohmann::json document = checkPart("two-windows", {dataFile("two-windows.json")}, 1);
    CHECK(idsOf(document).contains("web.folds"));
    for (const nlohmann::json& finding : document["findings"]) {
        if (finding["id"] != "web.folds") continue;
        CHECK(finding["gravity"] == "fault");
        CHECK(finding["section"].size() == 2);
        CHECK_FALSE(finding["remedies"].empty());
    }
}

TEST_CASE("check holds to its schema") {
    for (const auto& part : {example("roaster-pod", "part-suited.json"),
                             example("deep-housing", "part.json"),
                             {dataFile("two-windows.json")}}) {
        const ScratchFolder folder;
        const std::string file = folder.file("check.json");
        std::vector<std::string> arguments{"check", "--json", file};
        arguments.insert(arguments.end(), part.begin(), part.end());
        CHECK(runProgram(arguments).code < 2);
        CHECK(test::schemaComplaints(nlohmann::json::parse(contents(file)), "check") == "");
    }
}

TEST_CASE("explain tells every rule, and refuses what is none") {
    const Outcome all = runProgram({"explain"});
    CHECK(all.code == 0);
    for (const char* id : {"web.folds", "hold.pack", "radius.small", "cut.hole", "force.rating"}) {
        CHECK(has(all.out, id));
        const Outcome one = runProgram({"explain", id});
        CHECK(one.code == 0);
        CHECK(has(one.out, "Formula"));
        CHECK(has(one.out, "Source"));
        CHECK(longestLine(one.out) <= 100);
    }
    checkRefused(runProgram({"explain", "web.fold"}), "web.folds");
}

TEST_CASE("check refuses bad input") {
    const ScratchFolder folder;
    checkRefused(runProgram({"check", folder.with("part.json", "{")}), "part.json");
    checkRefused(runProgram({"check", dataFile("channel.json"), "--shop", folder.with("shop.json", "[]")}),
                 "shop.json");
    checkRefused(runProgram({"check", dataFile("channel.json"), "--brake", "any"}), "--shop");
}

TEST_CASE("check knows the shop's measured bends, as plan does") {
    const ScratchFolder folder;
    nlohmann::json part = nlohmann::json::parse(contents(projectFile("examples/hat-channel/part.json")));
    part["allowance"] = {{"rule", "measured"}};
    nlohmann::json shop = nlohmann::json::parse(contents(projectFile("tests/program/data/shop.json")));
    shop["measured_bends"] = {
        {{"material", "dc01"}, {"thickness", 1.5}, {"inside_radius", 1}, {"angle_deg", 90}, {"k", 0.4}}};
    const std::string file = folder.with("part.json", part.dump());
    const Outcome checked = runProgram({"check", file, "--shop", folder.with("shop.json", shop.dump())});
    INFO(checked.err);
    CHECK(checked.code == 0);
    checkRefused(runProgram({"check", file}), "measured");
}
