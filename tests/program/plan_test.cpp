// SPDX-License-Identifier: GPL-3.0-or-later
// From a part and a shop to a plan, through the program.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "../schema/schema_check.h"
#include "run_program.h"

using namespace tinwright;
using namespace tinwright::program_test;

namespace {

const std::string kShop = dataFile("shop.json");

Outcome plan(const std::string& part, std::vector<std::string> more = {}) {
    std::vector<std::string> arguments{"plan", dataFile(part), "--shop", kShop};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return runProgram(arguments);
}

}  // namespace

TEST_CASE("a channel is planned on every brake: exit code 0, verdict first") {
    const Outcome outcome = plan("channel.json");
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 0);
    CHECK(outcome.out.starts_with("FEASIBLE: channel"));
    CHECK(has(outcome.out, "finger-brake"));
    CHECK(has(outcome.out, "magnetic-folder"));
    CHECK(longestLine(outcome.out) <= 100);
    CHECK(outcome.err.empty());
}

// Practice of the trade: legs much longer than the web meet what stands over the bar of a finger brake, either leg
// first, and clear a magnetic folder, which has nothing there (common practice).
TEST_CASE("a deep channel does not go on the finger brake: exit code 1 and the reason") {
    const Outcome outcome = plan("deep-channel.json", {"--brake", "finger-brake"});
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 1);
    CHECK(outcome.out.starts_with("INFEASIBLE: deep channel"));
    CHECK(has(outcome.out, "Why not"));
    CHECK(has(outcome.out, "Looked at"));
    CHECK(longestLine(outcome.out) <= 100);
}

TEST_CASE("one brake that works makes the whole feasible") {
    const Outcome outcome = plan("deep-channel.json");
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 0);
    CHECK(has(outcome.out, "finger-brake: infeasible"));
    CHECK(has(outcome.out, "magnetic-folder: feasible"));
}

TEST_CASE("JSON on standard output takes the place of the text and holds to the schema") {
    for (const char* part : {"channel.json", "deep-channel.json"}) {
        const Outcome outcome = plan(part, {"--json", "-"});
        INFO(outcome.err);
        REQUIRE(outcome.code == 0);
        const nlohmann::json document = nlohmann::json::parse(outcome.out);
        CHECK(test::schemaComplaints(document, "plan").empty());
        CHECK(document["verdict"] == "feasible");
        CHECK(document["brakes"].size() == 2);
    }
}

TEST_CASE("JSON in a file is the same, whole, and alone in its folder; the text is still printed") {
    const ScratchFolder scratch;
    const std::string file = scratch.with("plan.json", "what stood there before");
    const Outcome outcome = plan("channel.json", {"--json", file});
    CHECK(outcome.code == 0);
    CHECK(outcome.out.starts_with("FEASIBLE"));
    CHECK(contents(file) == plan("channel.json", {"--json", "-"}).out);
    CHECK(scratch.entries() == 1);
}

TEST_CASE("an output that cannot be written is exit code 2, and leaves nothing behind") {
    const ScratchFolder scratch;
    for (const std::string& file : {scratch.file("no/such/folder.json"), scratch.file(""), std::string("/dev/full")}) {
        const Outcome outcome = plan("channel.json", {"--json", file});
        INFO(file);
        CHECK(outcome.code == 2);
        CHECK(outcome.out.empty());
        CHECK(has(outcome.err, file));
    }
    CHECK(scratch.entries() == 0);
}

TEST_CASE("the part is never overwritten by the plan") {
    const ScratchFolder scratch;
    const std::string part = scratch.with("part.json", contents(dataFile("channel.json")));
    const Outcome outcome = runProgram({"plan", part, "--shop", kShop, "--json", part});
    CHECK(outcome.code == 2);
    CHECK(contents(part) == contents(dataFile("channel.json")));
}

TEST_CASE("the bytes do not depend on the number of threads or on the run") {
    const std::string once = plan("deep-channel.json", {"--json", "-", "--threads", "1"}).out;
    CHECK_FALSE(once.empty());
    CHECK(plan("deep-channel.json", {"--json", "-", "--threads", "2"}).out == once);
    CHECK(plan("deep-channel.json", {"--json", "-", "--threads", "4"}).out == once);
    CHECK(plan("deep-channel.json", {"--threads", "2"}).out == plan("deep-channel.json").out);
}

TEST_CASE("with bends already formed only the rest is planned") {
    const Outcome outcome = plan("channel.json", {"--formed", "front", "--brake", "magnetic-folder", "--json", "-"});
    INFO(outcome.err);
    REQUIRE(outcome.code == 0);
    const nlohmann::json document = nlohmann::json::parse(outcome.out);
    CHECK(document["formed"] == nlohmann::json{"front"});
    const nlohmann::json& folds = document["brakes"][0]["plans"][0]["folds"];
    REQUIRE(folds.size() == 1);
    CHECK(folds[0]["bends"] == nlohmann::json{"back"});
}

TEST_CASE("no more plans than asked for, ranked by cost among those that are not tight") {
    const Outcome outcome = plan("channel.json", {"--plans", "2", "--brake", "magnetic-folder", "--json", "-"});
    const nlohmann::json document = nlohmann::json::parse(outcome.out);
    const nlohmann::json& plans = document["brakes"][0]["plans"];
    REQUIRE(plans.size() == 2);
    CHECK(plans[0]["rank"] == 1);
    CHECK(plans[1]["rank"] == 2);
    CHECK((plans[1]["tight"] == true || plans[0]["cost_s"] <= plans[1]["cost_s"]));
}

TEST_CASE("with --verify every plan is replayed, or it is said that this build cannot") {
    const Outcome outcome = plan("channel.json", {"--verify", "--json", "-"});
    INFO(outcome.out + outcome.err);
    REQUIRE(outcome.code == 0);
    for (const nlohmann::json& brake : nlohmann::json::parse(outcome.out)["brakes"]) {
        for (const nlohmann::json& plan : brake["plans"]) {
            if (TINWRIGHT_WITH_VERIFIER) CHECK(plan["verified"] == true);
            if (!TINWRIGHT_WITH_VERIFIER) CHECK(plan["verified"].is_null());
        }
    }
    if (!TINWRIGHT_WITH_VERIFIER) CHECK(has(outcome.err, "no verifier"));
}

TEST_CASE("the log goes to standard error and only when asked for") {
    const Outcome quiet = plan("channel.json");
    const Outcome chatty = plan("channel.json", {"--log", "info"});
    CHECK(quiet.err.empty());
    CHECK(has(chatty.err, "tinwright info: "));
    CHECK(chatty.out == quiet.out);
}

TEST_CASE("a search that the time limit ends before it knows is undecided: exit code 3, and said") {
    const Outcome outcome =
        runProgram({"plan", dataFile("enclosure.json"), "--shop", projectFile("examples/roaster-pod/shop.json"),
                    "--time-limit", "0.001", "--json", "-"});
    CHECK(outcome.code == 3);
    const nlohmann::json document = nlohmann::json::parse(outcome.out);
    CHECK(document["verdict"] == "undecided");
    CHECK(document["brakes"][0]["orders_feasible"].is_null());
    CHECK(document["brakes"][0]["plans"].empty());
    CHECK(document["brakes"][0]["notes"].dump().find("time limit") != std::string::npos);
    CHECK(test::schemaComplaints(document, "plan").empty());
}

TEST_CASE("what would lift it is planned and told for an infeasible part, unless it is not wanted") {
    const std::string pod = projectFile("examples/roaster-pod/part.json");
    const std::string shop = projectFile("examples/roaster-pod/shop.json");
    const Outcome text = runProgram({"plan", pod, "--shop", shop});
    INFO(text.out + text.err);
    CHECK(text.code == 1);
    CHECK(has(text.out, "What would lift it, each planned again"));
    CHECK(has(text.out, "inside_width 74 -> 72.1 mm"));
    CHECK(longestLine(text.out) <= 100);

    const Outcome machine = runProgram({"plan", pod, "--shop", shop, "--json", "-"});
    const nlohmann::json document = nlohmann::json::parse(machine.out);
    CHECK(test::schemaComplaints(document, "plan").empty());
    std::vector<std::string> kinds;
    for (const nlohmann::json& remedy : document["brakes"][0]["remedies"]["list"]) {
        CHECK(remedy["result"]["verdict"] == "feasible");
        kinds.push_back(remedy["kind"]);
    }
    for (const char* kind : {"dimension", "bar", "welded-bend"})
        CHECK(std::find(kinds.begin(), kinds.end(), kind) != kinds.end());

    const Outcome without = runProgram({"plan", pod, "--shop", shop, "--no-remedies"});
    CHECK(without.code == 1);
    CHECK_FALSE(has(without.out, "What would lift it"));
    const Outcome none = runProgram({"plan", pod, "--shop", shop, "--no-remedies", "--json", "-"});
    CHECK(nlohmann::json::parse(none.out)["brakes"][0]["remedies"].is_null());
}

// The ends of front and back stand before the leaf that swings left and right, as long as the machine: to its set angle
// of 93 degrees they must lean in by more than 3.
TEST_CASE("where overbend alone makes a contact the figure is told with which the corner goes") {
    const ScratchFolder scratch;
    const std::string part = scratch.file("part.json");
    REQUIRE(runProgram({"start", "tray", "--component", "120", "80", "30", "--corners", "weld", "-o", part}).code == 0);
    nlohmann::json tray = nlohmann::json::parse(contents(part));
    const char* over[] = {"wall_front", "wall_back", "wall_back", "wall_front"};
    for (std::size_t i = 0; i < 4; ++i) {
        tray["corners"][i]["type"] = "overlap";
        tray["corners"][i]["over"] = over[i];
    }
    const std::string lapped = scratch.with("lapped.json", tray.dump());
    const std::string shop = scratch.with(
        "shop.json", R"({"format": "tinwright-shop/1", "units": "mm", "name": "shop", "overbend": {"default_deg": 3},
                         "brakes": [{"tooling": "tooling:magnetic-folder.json"}]})");
    const Outcome told = runProgram({"plan", lapped, "--shop", shop, "--json", "-"});
    INFO(told.out + told.err);
    REQUIRE(told.code == 1);
    const nlohmann::json document = nlohmann::json::parse(told.out);
    CHECK(test::schemaComplaints(document, "plan").empty());
    const nlohmann::json& brake = document.at("brakes").at(0);
    double slant_deg = 0;
    for (const nlohmann::json& remedy : brake.at("remedies").at("list")) {
        if (remedy.at("kind") != "open-corners" || remedy.at("corners").at(0).at("slant_deg") == 0) continue;
        for (const nlohmann::json& corner : remedy.at("corners")) slant_deg = corner.at("slant_deg").get<double>();
    }
    CHECK(slant_deg > 2.5);
    CHECK(slant_deg <= 4);
    CHECK_FALSE(has(told.out, "open the corner a little"));
    const std::string reasons = brake.at("reasons").dump();
    CHECK(has(reasons, "overbend alone makes the contact: "));
    CHECK(has(reasons, fmt::format("a slant of {:.1f}° at the end of wall_front", slant_deg)));
}

TEST_CASE("a brake that does not do is told of the one that does") {
    const Outcome outcome = plan("deep-channel.json", {"--json", "-"});
    const nlohmann::json document = nlohmann::json::parse(outcome.out);
    for (const nlohmann::json& brake : document["brakes"]) {
        if (brake["verdict"] == "feasible") continue;
        REQUIRE(brake["remedies"]["list"].size() == 1);
        CHECK(brake["remedies"]["list"][0]["kind"] == "other-brake");
        CHECK(brake["remedies"]["list"][0]["brake"] == "magnetic-folder");
    }
}

// The drawing of a blank has no names for its dimensions: what is stretched is told by the bends at both ends.
TEST_CASE("remedies of a drawing are stretches between two bends") {
    const ScratchFolder scratch;
    const std::string drawing = scratch.file("pod.dxf");
    const std::string shop = projectFile("examples/roaster-pod/shop.json");
    REQUIRE(runProgram({"blank", projectFile("examples/roaster-pod/part.json"), "-o", drawing, "--bends-out",
                        scratch.file("pod.bends.json")})
                .code == 0);
    const Outcome outcome = runProgram({"plan", drawing, "--shop", shop});
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 1);
    CHECK(has(outcome.out, "side_front..side_back 59.6 -> "));
}

TEST_CASE("a press brake without a punch that covers a bend: one is offered, and never a die") {
    const ScratchFolder scratch;
    const std::string shop = scratch.with(
        "shop.json", R"({"format": "tinwright-shop/1", "units": "mm", "brakes": [{"tooling": "tooling:press-brake.json",
        "each_punch": {"height": 105, "tip_radius": 0.8, "tip_angle_deg": 85, "body_width": 24,
                       "throat": {"depth": 30, "from": 12, "to": 85, "deepest_from": 45, "deepest_to": 65, "neck": 20}},
        "punches": [{"id": "G100", "width": 100}]}]})");
    const Outcome outcome = runProgram({"plan", projectFile("examples/hat-channel/part.json"), "--shop", shop});
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 1);
    CHECK(has(outcome.out,
              "foot_back, whichever side is at the back: no combination of the punches covers 200.0 mm of bend"));
    CHECK(has(outcome.out, "a punch 200 mm wide with the section of G100, bought or cut from a longer one: goes"));
    CHECK_FALSE(has(outcome.out, "section of V"));
}
