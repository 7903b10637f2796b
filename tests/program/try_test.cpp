// SPDX-License-Identifier: GPL-3.0-or-later
// One's own order, through the program.
#include <catch2/catch.hpp>

#include "run_program.h"

using namespace tinwright::program_test;

namespace {

Outcome tryOrder(const std::string& part, const std::string& brake, const std::string& order) {
    return runProgram({"try", dataFile(part), "--shop", dataFile("shop.json"), "--brake", brake, "--order", order});
}

}  // namespace

TEST_CASE("an order that works is told fold by fold") {
    const Outcome outcome = tryOrder("channel.json", "magnetic-folder", "back,front");
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 0);
    CHECK(outcome.out.starts_with("THIS ORDER WORKS: channel on magnetic-folder, 2 folds."));
    CHECK(outcome.out.find("Fold 1 of 2: back") < outcome.out.find("Fold 2 of 2: front"));
    CHECK(longestLine(outcome.out) <= 100);
}

TEST_CASE("an order that hits says which fold stops it and what hits") {
    const Outcome outcome = tryOrder("deep-channel.json", "finger-brake", "front,back");
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 1);
    CHECK(outcome.out.starts_with("THIS ORDER DOES NOT WORK: deep channel on finger-brake stops at fold 2 of 2."));
    CHECK(has(outcome.out, "Fold 2 of 2: back cannot be made"));
    CHECK(has(outcome.out, "holding web"));
    CHECK(longestLine(outcome.out) <= 100);
}

TEST_CASE("bends that do not lie on one line cannot be one stroke") {
    const Outcome outcome = tryOrder("channel.json", "magnetic-folder", "front+back");
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 1);
    CHECK(has(outcome.out, "front + back in one stroke: front and back do not lie on one line"));
}

TEST_CASE("Blanks beside the commas of an order are no part of a bend's name") {
    const Outcome outcome = tryOrder("channel.json", "magnetic-folder", " back , front");
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 0);
    const Outcome together = tryOrder("channel.json", "magnetic-folder", "front + back");
    CHECK(together.code == 1);
    CHECK(tryOrder("channel.json", "magnetic-folder", "  ").code == 2);
}

TEST_CASE("without --brake every brake is tried, and one that works is enough") {
    const Outcome outcome =
        runProgram({"try", dataFile("deep-channel.json"), "--shop", dataFile("shop.json"), "--order", "front,back"});
    INFO(outcome.out + outcome.err);
    CHECK(outcome.code == 0);
    CHECK(has(outcome.out, "THIS ORDER DOES NOT WORK: deep channel on finger-brake"));
    CHECK(has(outcome.out, "THIS ORDER WORKS: deep channel on magnetic-folder"));
}
