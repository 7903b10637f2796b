// SPDX-License-Identifier: GPL-3.0-or-later
// Going on with a part whose folds came out otherwise than drawn, through the program.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "../schema/schema_check.h"
#include "checks.h"
#include "run_program.h"

using namespace tinwright::program_test;
using Arguments = std::vector<std::string>;

namespace {

Outcome onFingers(const std::string& command, Arguments more) {
    Arguments arguments{command, dataFile("channel.json"), "--shop", dataFile("shop.json"), "--brake", "finger-brake"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return runProgram(arguments);
}

/// Without line breaks and indents.
std::string inOneLine(const std::string& text) {
    std::string line;
    for (const char c : text) {
        const bool is_blank = c == ' ' || c == '\n';
        if (!is_blank || (!line.empty() && line.back() != ' ')) line += is_blank ? ' ' : c;
    }
    return line;
}

}  // namespace

// By hand: web 80 outside between legs of 20, sheet 1, inside radius 1, so the setback is 2. A leg of 19.5 has half a
// millimetre less of flat, and the web half a millimetre more: 80.5 outside, 78.5 inside. With the line of the other
// leg half a millimetre nearer to the web that is 80 again, and that leg 20.5.
TEST_CASE("A leg measured half a millimetre short: the plan says what the web becomes and which line puts it right") {
    const Outcome outcome = onFingers("plan", {"--made", "back=19.5"});
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 0);
    const std::string text = inOneLine(outcome.out);
    CHECK(has(text, "already folded: back"));
    CHECK(has(text,
              "back: 19.5 mm measured to edge back.far instead of 20 mm; its bend line lies 0.5 mm towards back "
              "from where it is drawn"));
    CHECK(has(text,
              "web comes out 80.5 mm instead of 80 mm between the outsides of front and back (78.5 instead of 78 "
              "mm inside)"));
    CHECK(has(text,
              "move the bend line of front by 0.5 mm towards web: then web 80 mm as drawn, but front 20.5 instead "
              "of 20 mm; planned with it moved, on finger-brake: front"));
    CHECK(has(text, "no line of a bend that is still flat puts right: back 19.5 instead of 20 mm"));
    CHECK(has(text, "or accept it as it comes out, or remake the part"));
    CHECK(longestLine(outcome.out) <= 100);
}

TEST_CASE("Text, JSON and sheet say the same of a part as made") {
    const ScratchFolder folder;
    const Outcome outcome = onFingers(
        "plan", {"--made", "back=19.5", "--made-angle", "back=91", "--json", "-", "--sheet", folder.file("s.html")});
    INFO(outcome.err);
    REQUIRE(outcome.code == 0);
    const nlohmann::json document = nlohmann::json::parse(outcome.out);
    CHECK(tinwright::test::schemaComplaints(document, "plan").empty());
    const nlohmann::json& made = document.at("as_made");
    CHECK(document["formed"] == nlohmann::json{"back"});
    CHECK(made["measured"][0]["outside_mm"] == 19.5);
    CHECK(made["measured"][0]["angle_deg"] == 91);
    REQUIRE(made["lines"].size() == 1);
    CHECK(made["lines"][0]["bend"] == "front");
    CHECK(made["lines"][0]["brake"] == "finger-brake");
    const std::string text = inOneLine(onFingers("plan", {"--made", "back=19.5", "--made-angle", "back=91"}).out);
    const std::string sheet = inOneLine(contents(folder.file("s.html")));
    for (const char* list : {"words", "cures"}) {
        REQUIRE_FALSE(made[list].empty());
        for (const auto& words : made[list]) {
            INFO(words);
            CHECK(has(text, words.get<std::string>()));
            CHECK(has(sheet, words.get<std::string>()));
        }
    }
    const nlohmann::json drawn = nlohmann::json::parse(onFingers("plan", {"--formed", "back", "--json", "-"}).out);
    CHECK_FALSE(drawn.contains("as_made"));
}

TEST_CASE("Made as drawn is planned as with the bend folded already") {
    const Outcome made = onFingers("plan", {"--made", "back=20", "--made-angle", "back=90", "--json", "-"});
    REQUIRE(made.code == 0);
    nlohmann::json document = nlohmann::json::parse(made.out);
    CHECK(document["as_made"]["sizes"].empty());
    CHECK(document["as_made"]["cures"].empty());
    document.erase("as_made");
    CHECK(document == nlohmann::json::parse(onFingers("plan", {"--formed", "back", "--json", "-"}).out));
}

TEST_CASE("One's own order is tried on the part as made, and again with the line moved that would put it right") {
    const Outcome outcome = onFingers("try", {"--made", "back=19.5", "--order", "front"});
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 0);
    CHECK(outcome.out.starts_with("THIS ORDER WORKS: channel on finger-brake, 1 fold."));
    CHECK(has(inOneLine(outcome.out), "web comes out 80.5 mm instead of 80 mm"));
    CHECK(has(inOneLine(outcome.out), "planned with it moved, on finger-brake: front"));
    checkRefused(onFingers("try", {"--made", "back=19.5", "--order", "back,front"}), "not folded already");
}

TEST_CASE("A line is not offered when no order works with it moved") {
    // The leg is so long that the other one has to be next to nothing: it cannot be clamped or swung then.
    const Outcome outcome = onFingers("plan", {"--made", "back=37.5", "--json", "-"});
    INFO(outcome.out + outcome.err);
    const nlohmann::json document = nlohmann::json::parse(outcome.out);
    CHECK(document["as_made"]["lines"].empty());
    CHECK(has(document["as_made"]["cures"].dump(), "puts right: web 62.5 instead of 80 mm"));
}

// By hand: sheet 1, drawn with an inside radius of 2, so that a leg of 20 has a flat of 20 - 3. The nose gives a radius
// of 1: the leg comes out at 17 + 2 = 19 mm, which is what its fold card tells to measure.
TEST_CASE("A leg that measures what its fold card tells is as drawn, whatever radius is drawn") {
    const ScratchFolder folder;
    nlohmann::json recipe = nlohmann::json::parse(contents(dataFile("channel.json")));
    recipe["inside_radius"] = 2.0;
    const std::string part = folder.with("part.json", recipe.dump());
    const Outcome card = runProgram(
        {"plan", part, "--shop", dataFile("shop.json"), "--brake", "finger-brake", "--sheet", folder.file("s.html")});
    INFO(card.err);
    REQUIRE(card.code == 0);
    CHECK(has(contents(folder.file("s.html")), "back: 19 ±0.2 mm, from the outside of web to edge back.far"));
    const Outcome made = runProgram(
        {"plan", part, "--shop", dataFile("shop.json"), "--brake", "finger-brake", "--made", "back=19", "--json", "-"});
    INFO(made.out + made.err);
    const nlohmann::json as_made = nlohmann::json::parse(made.out).at("as_made");
    CHECK(as_made["inside_radius_mm"] == 1);
    CHECK(as_made["sizes"].empty());
    CHECK(as_made["measured"][0]["line_moved_mm"] == 0);
    // Vs of a press brake give several radii: then the drawn one is what sizes are read with.
    const Outcome press =
        runProgram({"plan", part, "--shop", dataFile("press-shop.json"), "--made", "back=20", "--json", "-"});
    INFO(press.err);
    const nlohmann::json pressed = nlohmann::json::parse(press.out).at("as_made");
    CHECK(pressed["inside_radius_mm"].is_null());
    CHECK(pressed["sizes"].empty());
    CHECK(has(press.out, "sizes as made are read with the inside radius as drawn"));
    CHECK_FALSE(has(made.out, "sizes as made are read with"));
}

TEST_CASE("Several bends as made, with commas or one option after the other") {
    const Arguments part{"plan", dataFile("channel.json"), "--shop", dataFile("shop.json"), "--json", "-"};
    const auto with = [&](Arguments more) {
        more.insert(more.begin(), part.begin(), part.end());
        return runProgram(more);
    };
    const Outcome commas = with({"--made", "back=19.5, front=20.2"});
    const Outcome apart = with({"--made", "back=19.5", "--made", "front=20.2"});
    CHECK(commas.out == apart.out);
    // Nothing is flat any more: no line can be moved.
    const nlohmann::json document = nlohmann::json::parse(commas.out);
    CHECK(document["as_made"]["measured"].size() == 2);
    CHECK(document["as_made"]["lines"].empty());
}

TEST_CASE("What was measured must be a bend and a number that can be") {
    const ScratchFolder folder;
    const auto refused = [&](const char* option, const char* value, const char* words) {
        INFO(value);
        checkRefused(onFingers("plan", {option, value, "--json", folder.file("plan.json")}), words);
    };
    refused("--made", "bak=20", "did you mean back?");
    refused("--made", "back", "as in left=35.2");
    refused("--made", "back=", "from 0.01 to 20000, in mm");
    refused("--made", "back=20mm", "from 0.01 to 20000, in mm");
    refused("--made", "back=nan", "from 0.01 to 20000, in mm");
    refused("--made", "back=-3", "from 0.01 to 20000, in mm");
    refused("--made", "back=20,back=21", "\"back\" twice");
    refused("--made", "back=1.5", "more than the 2.000 mm that its bends take");
    refused("--made", "back=500", "--made, back: found 500 mm: a strip with no sheet under it");
    refused("--made", "back=500", "as drawn it is 20 mm");
    refused("--made-angle", "back=180", "from 0.1 to 179.9, in degrees");
    refused("--made-angle", "back=0", "from 0.1 to 179.9, in degrees");
    CHECK(folder.entries() == 0);
}
