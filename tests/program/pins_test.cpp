// SPDX-License-Identifier: GPL-3.0-or-later
// What a person settles and picks, through the program: options, complaints, papers.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <set>

#include <nlohmann/json.hpp>

#include "../schema/schema_check.h"
#include "checks.h"

using namespace tinwright;
using namespace tinwright::program_test;
using nlohmann::json;

namespace {

const std::string kPart = dataFile("channel.json");
const std::string kShop = dataFile("shop.json");

Outcome planWith(std::vector<std::string> more, const std::string& part = kPart, const std::string& shop = kShop) {
    std::vector<std::string> arguments{"plan", part, "--shop", shop};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return runProgram(arguments);
}

Outcome tryWith(const std::string& order, std::vector<std::string> more, const std::string& part = kPart) {
    std::vector<std::string> arguments{"try", part, "--shop", kShop, "--order", order};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return runProgram(arguments);
}

json planned(std::vector<std::string> more, const std::string& part = kPart, const std::string& shop = kShop) {
    more.insert(more.end(), {"--json", "-"});
    const Outcome outcome = planWith(more, part, shop);
    INFO(outcome.err << outcome.out);
    REQUIRE((outcome.code == 0 || outcome.code == 1));
    json document = json::parse(outcome.out);
    CHECK(test::schemaComplaints(document, "plan").empty());
    return document;
}

/// How a bend is held in every order of every brake.
std::vector<std::string> heldFor(const json& document, const std::string& bend) {
    std::vector<std::string> held;
    for (const json& brake : document["brakes"]) {
        for (const json& plan : brake["plans"]) {
            for (const json& fold : plan["folds"]) {
                const auto at = std::find(fold["bends"].begin(), fold["bends"].end(), bend);
                if (at != fold["bends"].end())
                    held.push_back(fold["held"][static_cast<std::size_t>(at - fold["bends"].begin())]);
            }
        }
    }
    return held;
}

}  // namespace

TEST_CASE("A hold that is pinned is kept in every order and told with the plan") {
    for (const char* side : {"front", "web"}) {
        const json document = planned({"--hold", std::string("front=") + side});
        const std::vector<std::string> held = heldFor(document, "front");
        CHECK(held.size() > 2);
        for (const std::string& panel : held) CHECK(panel == side);
        CHECK(document["pins"]["holds"] == json{{{"bend", "front"}, {"held", side}}});
    }
    // back lies on the web's side of front's bend.
    for (const std::string& panel : heldFor(planned({"--hold", "front=back"}), "front")) CHECK(panel == "web");
    const Outcome text = planWith({"--hold", "front=front,back=web", "--brake", "finger-brake"});
    CHECK(text.code == 0);
    CHECK(text.out.starts_with("FEASIBLE: channel can be folded on finger-brake as pinned."));
    CHECK(has(text.out, "Pinned      front with front held; back with web held"));
    CHECK(has(text.out, "orders work as pinned"));
    CHECK(longestLine(text.out) <= 100);
}

TEST_CASE("What is pinned to come first or earlier does, and halves the orders of a channel") {
    for (const std::vector<std::string>& pin :
         {std::vector<std::string>{"--first", "back"}, {"--before", "back,front"}, {"--first", "back,front"}}) {
        const json document = planned(pin);
        for (const json& brake : document["brakes"]) {
            CHECK(brake["orders_feasible"] == "1");
            CHECK(brake["orders_total"] == "2");
            for (const json& plan : brake["plans"]) CHECK(plan["folds"][0]["bends"] == json{"back"});
        }
    }
    CHECK(planned({})["brakes"][0]["orders_feasible"] == "2");
}

TEST_CASE("Bars, punches and the V that are pinned are the only ones used") {
    const auto used = [](const json& document) {
        std::set<std::string> ids;
        for (const json& brake : document["brakes"]) {
            for (const json& plan : brake["plans"]) {
                for (const json& fold : plan["folds"]) {
                    for (const json& bar : fold["bars"]) ids.insert(bar["id"]);
                }
            }
        }
        return ids;
    };
    const json free = planned({"--brake", "magnetic-folder"});
    REQUIRE(used(free).contains("B130"));
    CHECK_FALSE(used(planned({"--brake", "magnetic-folder", "--avoid-bar", "B130"})).contains("B130"));
    CHECK(used(planned({"--brake", "magnetic-folder", "--use-bar", "B30,B90"})) == std::set<std::string>{"B30", "B90"});
    const std::string press = dataFile("press-shop.json");
    const json usual = planned({}, kPart, press);
    for (const json& bar : usual["brakes"][0]["plans"][0]["folds"][0]["bars"]) {
        if (bar["row"] != "punch") continue;
        const std::string id = bar["id"];
        for (const std::string& other : used(planned({"--use-punch", id, "--use-vee", "12"}, kPart, press)))
            CHECK((other == id || other.starts_with("V12")));
        break;
    }
    CHECK(planned({"--use-vee", "16"}, kPart, press)["brakes"][0]["vee_mm"] == 16);
}

// The channel's bends are 120 long: a bar of 30 covers none of them.
TEST_CASE("When no order works as pinned, that is what is said, and whether one works without") {
    const Outcome text = planWith({"--use-bar", "B30", "--brake", "magnetic-folder"});
    INFO(text.out);
    CHECK(text.code == 1);
    CHECK(text.out.starts_with("INFEASIBLE AS PINNED: channel cannot be folded on magnetic-folder as pinned"));
    CHECK(has(text.out, "Without\n  the pins an order works on magnetic-folder."));
    CHECK(has(text.out, "magnetic-folder: infeasible as pinned, 0 of 2 orders work as pinned"));
    CHECK(has(text.out, "Unpinned    without the pins an order works"));
    CHECK(has(text.out, "Why not as pinned"));
    const ScratchFolder scratch;
    static_cast<void>(planWith({"--use-bar", "B30", "--brake", "magnetic-folder", "--sheet", scratch.file("s.html")}));
    const std::string sheet = contents(scratch.file("s.html"));
    CHECK(has(sheet, "no order works. Without the pins an order works on magnetic-folder.<"));
    CHECK(has(sheet, "magnetic-folder: infeasible as pinned"));
    CHECK(has(sheet, "Pinned: bar B30 alone."));
    const json document = planned({"--use-bar", "B30", "--brake", "magnetic-folder"});
    CHECK(document["brakes"][0]["without_pins"] == "feasible");
    const Outcome neither = planWith({"--hold", "front=web", "--brake", "finger-brake"}, dataFile("deep-channel.json"));
    INFO(neither.out);
    CHECK(neither.code == 1);
    CHECK(has(neither.out, "Without the pins none works either."));
    CHECK(planned({"--hold", "front=web"})["brakes"][0]["without_pins"].is_null());
}

TEST_CASE("A brake that the pins leave no tools is left out, and that is said") {
    const Outcome text = planWith({"--use-bar", "B130"});
    INFO(text.out);
    CHECK(text.code == 0);
    CHECK(has(text.out, "left out, since the tools pinned leave nothing to fold with: finger-brake"));
    CHECK_FALSE(has(text.out, "finger-brake: "));
}

TEST_CASE("Pins that name what is not there, or contradict one another, are bad input") {
    const auto refused = [](const std::vector<std::string>& pins, const std::string& words) {
        INFO(words);
        checkRefused(planWith(pins), words);
    };
    refused({"--hold", "frnt=web"}, "one of the part's bends: front back (did you mean front?)");
    refused({"--hold", "front=wep"}, "one of the part's panels: web front back (did you mean web?)");
    refused({"--hold", "front"}, "expected BEND=PANEL");
    refused({"--hold", "front=web", "--hold", "front=front"}, "which lie on either side of it");
    refused({"--formed", "front", "--hold", "front=web"}, "only bends that are not folded already (--formed, --made)");
    refused({"--first", "left"}, "one of the part's bends: front back");
    refused({"--first", "front,front"}, "each bend once");
    refused({"--before", "front"}, "two bends or more");
    refused({"--before", "front,back", "--before", "back,front"},
            "\"front\" before \"back\", and \"back\" before \"front\"");
    refused({"--first", "front", "--before", "back,front"}, "earlier than \"back\"");
    refused({"--use-bar", "B31"}, "bars that there are: F25");
    refused({"--avoid-bar", "B31"}, "--avoid-bar");
    refused({"--use-bar", "B30", "--avoid-bar", "B30"}, "nothing left to fold with");
    refused({"--use-vee", "16"}, "a press brake among the brakes asked about");
    refused({"--use-punch", "P1"}, "punches on a brake asked about");
    checkRefused(planWith({"--use-vee", "17"}, kPart, dataFile("press-shop.json")), "one of the Vs that there are: ");
    checkRefused(tryWith("front@wep,back", {}), "one of the part's panels");
    checkRefused(tryWith("front@web,back", {"--hold", "front=front"}), "either side of it");
}

TEST_CASE("The order that is picked is shown in text, sheet, drawings, 3-D file and JSON, and as many are ranked") {
    const ScratchFolder scratch;
    const auto papers = [&](const std::string& rank) {
        return std::vector<std::string>{"--brake", "finger-brake",
                                        "--plans", "1",
                                        "--pick",  rank,
                                        "--sheet", scratch.file(rank + ".html"),
                                        "--svg",   scratch.file(rank),
                                        "--glb",   scratch.file(rank + ".glb"),
                                        "--json",  scratch.file(rank + ".json")};
    };
    const Outcome best = planWith(papers("1"));
    const Outcome third = planWith(papers("3"));
    INFO(third.err << third.out);
    REQUIRE(best.code == 0);
    REQUIRE(third.code == 0);
    CHECK(has(third.out, "Order 3 of 3: "));
    CHECK(has(third.out, "than the best"));
    CHECK(has(third.out, "Other orders\n  1. "));
    CHECK(has(contents(scratch.file("3.html")), "Order 3 of 3: "));
    const json document = json::parse(contents(scratch.file("3.json")));
    CHECK(test::schemaComplaints(document, "plan").empty());
    CHECK(document["brakes"][0]["shown"] == 3);
    CHECK(document["brakes"][0]["plans"].size() == 3);
    CHECK(contents(scratch.file("1.glb")) != contents(scratch.file("3.glb")));
    CHECK(std::filesystem::exists(scratch.file("3") + "/blank.svg"));
    // The cards hold as the third order does.
    const json& folds = document["brakes"][0]["plans"][2]["folds"];
    const std::string held = folds[0]["held"][0];
    CHECK(has(third.out, "Hold        " + held + " under the bars"));
    CHECK(has(contents(scratch.file("3.html")), held + " under the bars"));
    // The first is the best as it is without.
    CHECK(has(best.out, "Order 1 of 1: front, back"));
}

TEST_CASE("An order that is not there cannot be picked: it is said how many there are, and nothing is written") {
    const ScratchFolder scratch;
    const Outcome outcome =
        planWith({"--pick", "9", "--sheet", scratch.file("s.html"), "--json", scratch.file("p.json")});
    checkRefused(outcome, "--pick");
    CHECK(has(outcome.err, "4 orders on finger-brake"));
    CHECK(has(outcome.err, "--brake NAME picks on one of them"));
    CHECK(scratch.entries() == 0);
}

TEST_CASE("try holds what stands after the @, and papers are of that order") {
    const ScratchFolder scratch;
    const Outcome outcome =
        tryWith("front@front,back@web",
                {"--brake", "finger-brake", "--sheet", scratch.file("s.html"), "--svg", scratch.file("svg"), "--glb",
                 scratch.file("a.glb"), "--json", scratch.file("p.json")});
    INFO(outcome.err << outcome.out);
    REQUIRE(outcome.code == 0);
    CHECK(outcome.out.starts_with("THIS ORDER WORKS"));
    CHECK(has(outcome.out, "Hold        front under the bars"));
    CHECK(has(outcome.out, "Hold        web under the bars"));
    const json document = json::parse(contents(scratch.file("p.json")));
    CHECK(test::schemaComplaints(document, "plan").empty());
    CHECK(document["own_order"] == true);
    REQUIRE(document["brakes"].size() == 1);
    REQUIRE(document["brakes"][0]["plans"].size() == 1);
    CHECK(heldFor(document, "front") == std::vector<std::string>{"front"});
    CHECK(heldFor(document, "back") == std::vector<std::string>{"web"});
    CHECK(document["brakes"][0]["search"]["least_s"].is_null());
    CHECK(has(contents(scratch.file("s.html")), "Your order: front, back"));
    CHECK(contents(scratch.file("a.glb")).starts_with("glTF"));
    CHECK(std::filesystem::exists(scratch.file("svg") + "/fold-01-bars.svg"));
}

TEST_CASE("An order that stops leaves no paper; it is told where it stops, with the exit code as ever") {
    const ScratchFolder scratch;
    const std::string part = dataFile("deep-channel.json");
    const Outcome outcome =
        tryWith("front,back",
                {"--brake", "finger-brake", "--sheet", scratch.file("s.html"), "--glb", scratch.file("a.glb")}, part);
    INFO(outcome.err << outcome.out);
    CHECK(outcome.code == 1);
    CHECK(has(outcome.out, "stops at fold 2 of 2"));
    CHECK(has(outcome.err, "the order stops at fold 2 of 2 on finger-brake: nothing is written"));
    CHECK(scratch.entries() == 0);
    // On the brake on which it goes it is drawn all the same.
    const Outcome both = tryWith("front,back", {"--json", "-"}, part);
    CHECK(both.code == 0);
    const json document = json::parse(both.out);
    REQUIRE(document["brakes"].size() == 1);
    CHECK(document["brakes"][0]["name"] == "magnetic-folder");
    // What stays flat is said.
    const Outcome partial = tryWith("front", {"--sheet", scratch.file("half.html")});
    CHECK(partial.code == 0);
    CHECK(has(contents(scratch.file("half.html")), "still flat after the last fold: back"));
}
