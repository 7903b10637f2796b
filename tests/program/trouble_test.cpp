// SPDX-License-Identifier: GPL-3.0-or-later
// One verdict everywhere: what is spoilt is said first, in the same words, with the same exit code.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "checks.h"

using namespace tinwright::program_test;

namespace {

const std::string kPart = projectFile("examples/pump-cover/part-slotted.json");
const std::string kClean = projectFile("examples/pump-cover/part.json");
const std::string kShop = projectFile("examples/pump-cover/shop.json");

/// On one line, so that words are found wherever lines break.
std::string unwrapped(const std::string& text) {
    std::string line;
    for (const char c : text) {
        const bool is_blank = c == ' ' || c == '\n';
        if (!is_blank || line.empty() || line.back() != ' ') line += is_blank ? ' ' : c;
    }
    return line;
}

constexpr const char* kSpoilt =
    "every order spoils something: display_window: face folds at display_window, 6.3 mm from bend side_front, when it "
    "is swung";

}  // namespace

TEST_CASE("trouble: text, JSON, sheet, screen, suit and exit code say one verdict") {
    const ScratchFolder scratch;
    const Outcome text = runProgram({"plan", kPart, "--shop", kShop, "--sheet", scratch.file("sheet.html")});
    CHECK(text.code == 4);
    CHECK(unwrapped(text.out).rfind("FEASIBLE WITH TROUBLE: ", 0) == 0);
    CHECK(has(unwrapped(text.out), kSpoilt));
    CHECK(has(unwrapped(contents(scratch.file("sheet.html"))), kSpoilt));
    const Outcome json = runProgram({"plan", kPart, "--shop", kShop, "--json", "-"});
    CHECK(json.code == 4);
    const auto plan = nlohmann::json::parse(json.out);
    CHECK(plan["verdict"] == "feasible with trouble");
    CHECK(plan["brakes"][0]["plans"][0]["spoils"][0]["id"] == "web.folds");
    CHECK(runProgram({"screen", kPart, "--shop", kShop}).code == 4);
    CHECK(has(runProgram({"screen", kPart, "--shop", kShop}).out, "TROUBLE, "));
    const Outcome suit = runProgram({"suit", kPart, "--shop", kShop});
    CHECK(suit.code == 4);
    CHECK(has(suit.out, "goes with trouble"));
    CHECK(runProgram({"check", kPart, "--shop", kShop}).code == 1);
}

TEST_CASE("trouble: a person's own order is told what it spoils, and where") {
    const std::string order = "tab_left,tab_right,side_left,side_right,side_front,side_back";
    const Outcome slotted = runProgram({"try", kPart, "--shop", kShop, "--order", order});
    CHECK(slotted.code == 4);
    CHECK(has(slotted.out, "THIS ORDER WORKS WITH TROUBLE: "));
    CHECK(has(unwrapped(slotted.out), "Trouble FAULT: face folds at display_window"));
    const Outcome clean = runProgram({"try", kClean, "--shop", kShop, "--order", order});
    CHECK(clean.code == 0);
    CHECK_FALSE(has(clean.out, "Trouble"));
}

TEST_CASE("trouble: over the rating of brake or tools is never plainly feasible") {
    const ScratchFolder folder;
    const std::string thick = folder.with("thick.json", kTooThickBracket);
    for (const char* brake : {"magnetic-folder", "press-brake"}) {
        const std::string shop = folder.with(
            "shop.json", R"({"format":"tinwright-shop/1","units":"mm","name":"shop","brakes":[{"tooling":"tooling:)" +
                             std::string(brake) + R"(.json"}]})");
        const Outcome plan = runProgram({"plan", thick, "--shop", shop});
        INFO(plan.out);
        CHECK(plan.code == 4);
        CHECK(runProgram({"try", thick, "--shop", shop, "--order", "leg"}).code == 4);
        CHECK(runProgram({"check", thick, "--shop", shop}).code == 1);
    }
}
