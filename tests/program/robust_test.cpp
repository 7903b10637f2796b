// SPDX-License-Identifier: GPL-3.0-or-later
// Plans over the shop's tolerances, through the program.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "../schema/schema_check.h"
#include "checks.h"
#include "run_program.h"

using namespace tinwright;
using namespace tinwright::program_test;
using nlohmann::json;

namespace {

struct Planned {
    int code = -1;
    json document;
    [[nodiscard]] const json& brake(const std::string& name) const {
        for (const json& one : document["brakes"]) {
            if (one["name"] == name) return one;
        }
        throw std::runtime_error("no brake " + name);
    }
};

Planned planned(const std::string& part, const std::string& shop, std::vector<std::string> more = {}) {
    std::vector<std::string> arguments{"plan", part, "--shop", shop, "--json", "-"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const Outcome outcome = runProgram(arguments);
    INFO(outcome.err);
    REQUIRE(outcome.code >= 0);
    REQUIRE(outcome.code != 2);
    Planned result{outcome.code, json::parse(outcome.out)};
    CHECK(test::schemaComplaints(result.document, "plan").empty());
    return result;
}

std::string shopWith(const ScratchFolder& folder, const std::string& tolerances) {
    return folder.with("shop.json", R"({"format": "tinwright-shop/1", "units": "mm", "name": "two brakes",
        "brakes": [{"tooling": "tooling:finger-brake-mm.json"}, {"tooling": "tooling:magnetic-folder.json"}], "tolerances": )" +
                                        tolerances + "}");
}

bool allHold(const json& plan) {
    for (const json& fold : plan["folds"]) {
        if (!fold["tolerances"]["holds"].get<bool>()) return false;
    }
    return true;
}

const std::string kPod = projectFile("examples/roaster-pod/part-suited.json");
const std::string kPodShop = projectFile("examples/roaster-pod/shop.json");

}  // namespace

TEST_CASE("robust: every fold of every plan holds, no order more counts, and an independent replay agrees") {
    const Planned any = planned(kPod, kPodShop);
    const Planned robust = planned(kPod, kPodShop, {"--robust", "--verify"});
    CHECK(any.code == 0);
    CHECK(robust.code == 0);
    CHECK(any.document["tolerances"] == robust.document["tolerances"]);
    const json& before = any.document["brakes"][0];
    const json& after = robust.document["brakes"][0];
    CHECK_FALSE(before["only_holding"].get<bool>());
    CHECK(after["only_holding"].get<bool>());
    CHECK(after["orders_total"] == before["orders_total"]);
    CHECK(std::stol(after["orders_feasible"].get<std::string>()) <=
          std::stol(before["orders_feasible"].get<std::string>()));
    // The example is about something: an order that goes as drawn is left out.
    CHECK(std::any_of(before["plans"].begin(), before["plans"].end(), [](const json& plan) { return !allHold(plan); }));
    REQUIRE(after["plans"].size() == 3);
    for (const json& plan : after["plans"]) {
        CHECK(allHold(plan));
        CHECK(plan["verified"].get<bool>());
        CHECK(plan["cost_s"].get<double>() >= before["plans"][0]["cost_s"].get<double>());
    }
}

TEST_CASE("robust: what goes as drawn but is not shown to hold is undecided, exit code 3, and both are said") {
    const ScratchFolder folder;
    const std::string shop = shopWith(folder, R"({"bend_angle_deg": 10, "cutting": 3, "bend_line": 3})");
    const Planned any = planned(dataFile("deep-channel.json"), shop);
    REQUIRE(any.code == 0);
    const Planned robust = planned(dataFile("deep-channel.json"), shop, {"--robust"});
    CHECK(robust.code == 3);
    CHECK(robust.document["verdict"] == "undecided");
    const json& brake = robust.brake("magnetic-folder");
    CHECK(brake["verdict"] == "undecided");
    CHECK(brake["plans"].empty());
    REQUIRE_FALSE(brake["reasons"].empty());
    CHECK(brake["reasons"][0]["code"] == "not-held");
    CHECK(has(brake["model"].get<std::string>(), "within the shop's tolerances"));  // what the "no" is relative to
    CHECK(robust.brake("finger-brake")["verdict"] == "infeasible");
    const Outcome text =
        runProgram({"plan", dataFile("deep-channel.json"), "--shop", shop, "--robust", "--brake", "magnetic-folder"});
    CHECK(text.code == 3);
    CHECK(text.out.starts_with("UNDECIDED: "));
    CHECK(has(text.out, "not shown to hold over the tolerances"));
    CHECK(has(text.out, "as drawn the part goes"));
    CHECK(longestLine(text.out) <= 100);
}

TEST_CASE("robust: what does not go as drawn stays infeasible, for the same reasons") {
    const std::vector<std::string> finger{"--brake", "finger-brake"};
    const Planned any = planned(dataFile("deep-channel.json"), dataFile("shop.json"), finger);
    const Planned robust =
        planned(dataFile("deep-channel.json"), dataFile("shop.json"), {"--brake", "finger-brake", "--robust"});
    CHECK(any.code == 1);
    CHECK(robust.code == 1);
    CHECK(robust.document["brakes"][0]["reasons"] == any.document["brakes"][0]["reasons"]);
}

TEST_CASE("robust: with tolerances of nothing every order that works holds") {
    const ScratchFolder folder;
    const std::string shop = shopWith(folder, R"({"thickness": 0, "cutting": 0, "bend_line": 0, "bend_angle_deg": 0})");
    for (const char* part :
         {"tests/program/data/channel.json", "examples/hat-channel/part.json", "examples/tray-lips/part.json"}) {
        const Planned any = planned(projectFile(part), shop);
        const Planned robust = planned(projectFile(part), shop, {"--robust"});
        INFO(part);
        for (const char* brake : {"finger-brake", "magnetic-folder"}) {
            CHECK(robust.brake(brake)["verdict"] == any.brake(brake)["verdict"]);
            CHECK(robust.brake(brake)["orders_feasible"] == any.brake(brake)["orders_feasible"]);
            CHECK(robust.brake(brake)["plans"] == any.brake(brake)["plans"]);
        }
    }
}

TEST_CASE("tolerances of a shop: units, ranges and names are checked") {
    const ScratchFolder folder;
    const Outcome outcome = runProgram({"plan", dataFile("channel.json"), "--shop",
                                        shopWith(folder, R"({"thickness": -0.1, "bend_angle_deg": 11, "kerf": 1})")});
    checkRefused(outcome, "/tolerances/thickness");
    checkRefused(outcome, "/tolerances/bend_angle_deg");
    checkRefused(outcome, "kerf");
}

TEST_CASE("robust: the same bytes for any number of threads") {
    const auto run = [](const char* threads) {
        return runProgram({"plan", dataFile("channel.json"), "--shop", dataFile("shop.json"), "--robust", "--json", "-",
                           "--threads", threads})
            .out;
    };
    CHECK(run("1") == run("2"));
}
