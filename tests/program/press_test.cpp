// SPDX-License-Identifier: GPL-3.0-or-later
// Press brakes through the program: replayed, held to the schema, over two brakes.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "../schema/schema_check.h"
#include "checks.h"

using namespace tinwright;
using namespace tinwright::program_test;

namespace {

const std::string kPress = dataFile("press-shop.json");
const std::string kFolderAndPress = dataFile("folder-and-press.json");
const std::string kHat = projectFile("examples/hat-channel/part.json");
const std::string kHousing = projectFile("examples/deep-housing/part.json");

nlohmann::json jsonOf(std::vector<std::string> arguments) {
    arguments.insert(arguments.end(), {"--json", "-"});
    return nlohmann::json::parse(runProgram(arguments).out);
}

}  // namespace

TEST_CASE("a deep housing that a press brake does not make is told what one would need") {
    const nlohmann::json needs = jsonOf({"plan", kHousing, "--shop", kPress})["brakes"][0]["machine_needs"];
    CHECK(needs["found"] == true);
    CHECK(needs["figures"].size() == 2);
    CHECK(needs["force_kn"].get<double>() > 5);
}

TEST_CASE("a plan on a press brake is replayed, and tells V, stop and depth of each fold") {
    const nlohmann::json document = jsonOf({"plan", kHat, "--shop", kPress, "--verify"});
    const nlohmann::json& brake = document["brakes"][0];
    CHECK(brake["vee_mm"] == 10);  // usual for 1.5 mm: six times, and the next that there is
    for (const nlohmann::json& plan : brake["plans"]) {
        if (TINWRIGHT_WITH_VERIFIER) CHECK(plan["verified"] == true);
        for (const nlohmann::json& fold : plan["folds"]) {
            CHECK(fold["depth_mm"].get<double>() > 2);
            CHECK(fold["depth_mm"].get<double>() < 5);  // half the V is as deep as its flanks can be at a right angle
            CHECK(fold.contains("gauge"));
        }
    }
}

TEST_CASE("A part that goes over two brakes is feasible: in the heading, to the shell, in JSON and on the sheet") {
    const std::string shelf = dataFile("shelf.json");
    const Outcome text = runProgram({"plan", shelf, "--shop", kFolderAndPress});
    CHECK(text.code == 0);
    CHECK(text.out.starts_with("FEASIBLE OVER TWO BRAKES: shelf with a deep hook can be folded over"));
    CHECK(has(text.out, "carried over once"));
    CHECK(has(text.out, "press-brake: infeasible"));  // each alone
    CHECK(runProgram({"plan", shelf, "--shop", kFolderAndPress, "--no-remedies"}).code == 0);
    CHECK(runProgram({"plan", shelf, "--shop", kFolderAndPress, "--brake", "press-brake"}).code == 1);
    CHECK(longestLine(text.out) <= 100);
    checkGolden("plan-two-brakes.txt", text.out);
    const nlohmann::json document = jsonOf({"plan", shelf, "--shop", kFolderAndPress, "--verify"});
    const nlohmann::json& split = document["over_two_brakes"];
    REQUIRE(split.is_object());
    CHECK(document["verdict"] == "feasible");
    for (const nlohmann::json& brake : document["brakes"]) CHECK(brake["verdict"] == "infeasible");
    if (TINWRIGHT_WITH_VERIFIER) CHECK(split["verified"] == true);
    CHECK(split["folds"].size() == 3);
    CHECK(split["times_carried"] == 1);
}

TEST_CASE("the bench sheet of a part over two brakes has a card for each fold, on its brake") {
    const ScratchFolder folder;
    const std::string page = folder.file("sheet.html");
    static_cast<void>(runProgram({"plan", dataFile("shelf.json"), "--shop", kFolderAndPress, "--sheet", page}));
    const std::string text = contents(page);
    CHECK(has(text, "this part can be folded over two brakes, on no single one"));
    for (const char* words : {"Over two brakes:", "On press-brake", "Carry it to magnetic-folder", "Fold 1 of 3: edge",
                              "Fold 2 of 3: web", "Fold 3 of 3: leg"}) {
        INFO(words);
        CHECK(has(text, words));
    }
    CHECK(text.find("Carry it to magnetic-folder") > text.find("Fold 2 of 3: web"));
    CHECK(text.find("Carry it to magnetic-folder") < text.find("Fold 3 of 3: leg"));
}

TEST_CASE("a hem is closed on the bench sheet, with a drawing, and in a plan as the schema says") {
    const ScratchFolder folder;
    const std::string tray = projectFile("examples/cooling-tray/part.json");
    const std::string shop = projectFile("examples/cooling-tray/shop.json");
    const std::string page = folder.file("sheet.html");
    const std::string file = folder.file("plan.json");
    CHECK(runProgram({"plan", tray, "--shop", shop, "--sheet", page, "--json", file, "--glb", folder.file("tray.glb"),
                      "--brake", "press-brake-hem"})
              .code == 0);
    const std::string text = contents(page);
    for (const char* words : {"Then close rim_front", "push in 10 mm", "close to 1.6 mm", "closed hem down",
                              "folded to 34° included (146° turned)"}) {
        INFO(words);
        CHECK(has(text, words));
    }
    const nlohmann::json document = nlohmann::json::parse(contents(file));
    CHECK(test::schemaComplaints(document, "plan") == "");
    int closed = 0;
    for (const nlohmann::json& fold : document["brakes"][0]["plans"][0]["folds"])
        closed += fold.contains("closing") ? 1 : 0;
    CHECK(closed == 2);
}

TEST_CASE("documents of press brakes and of two brakes are as the schema of plans says") {
    const ScratchFolder folder;
    for (const auto& [part, shop] :
         {std::pair{kHat, kPress}, {kHousing, kPress}, {dataFile("shelf.json"), kFolderAndPress}}) {
        const std::string file = folder.file("plan.json");
        static_cast<void>(runProgram({"plan", part, "--shop", shop, "--json", file}));
        CHECK(test::schemaComplaints(nlohmann::json::parse(contents(file)), "plan") == "");
    }
}
