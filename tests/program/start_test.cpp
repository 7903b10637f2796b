// SPDX-License-Identifier: GPL-3.0-or-later
// Parts started through the program. The recipes in golden/start are renewed as those of the examples.
#include <catch2/catch.hpp>

#include "checks.h"

using namespace tinwright::program_test;

namespace {

using Words = std::vector<std::string>;

struct Start {
    const char* shape;
    Words options;
    const char* brake;  ///< generic one in tooling/ that its part plans on
};

const Start kStarts[] = {
    {"housing", {"--component", "60", "40", "25"}, "magnetic-folder-narrow-bars"},
    {"tray", {"--component", "120", "80", "30"}, "magnetic-folder"},
    {"channel", {"--component", "50", "200", "30"}, "plain-leaf-brake"},
    {"hat", {"--component", "2.5", "8", "0.75", "--units", "in", "--fixings", "3"}, "magnetic-folder"},
    {"bracket", {"--component", "40", "40", "30", "--boss", "22"}, "finger-brake-mm"},
    {"window-face",
     {"--component", "72", "57", "20", "--window", "38", "22", "--window-at", "14", "20"},
     "finger-brake-mm"}};

Outcome start(const std::string& shape, const Words& options, const std::string& file) {
    Words arguments{"start", shape, "-o", file};
    arguments.insert(arguments.end(), options.begin(), options.end());
    return runProgram(arguments);
}

}  // namespace

TEST_CASE("start: the recipe of every shape, and it plans on a generic brake") {
    for (const Start& wish : kStarts) {
        INFO(wish.shape);
        const ScratchFolder scratch;
        const std::string part = scratch.file("part.json");
        const Outcome outcome = start(wish.shape, wish.options, part);
        INFO(outcome.err);
        REQUIRE(outcome.code == 0);
        CHECK(has(outcome.out, "fit gap"));
        checkGolden(std::string("start-") + wish.shape + ".json", contents(part));
        const std::string shop = scratch.with(
            "shop.json",
            R"({"format": "tinwright-shop/1", "units": "mm", "name": "shop", "brakes": [{"tooling": "tooling:)" +
                std::string(wish.brake) + R"(.json"}]})");
        const Outcome plan = runProgram({"plan", part, "--shop", shop, "--plans", "1"});
        INFO(plan.out + plan.err);
        CHECK(plan.code == 0);
    }
}

TEST_CASE("start: with a shop the part has the inside radius that its brake gives, and the recipe says so") {
    const ScratchFolder scratch;
    const std::string part = scratch.file("part.json");
    const std::string shop = scratch.with(
        "shop.json",
        R"({"format": "tinwright-shop/1", "units": "mm", "name": "shop", "brakes": [{"tooling": "tooling:magnetic-folder.json",
            "name": "folder", "nose_radius": 1.6}]})");
    const Words box{"--component", "120", "80", "30", "--shop", shop, "--force"};
    const auto with = [&](const Words& more) {
        Words words = box;
        words.insert(words.end(), more.begin(), more.end());
        const Outcome outcome = start("tray", words, part);
        INFO(outcome.err);
        REQUIRE(outcome.code == 0);
        return outcome.out;
    };
    const std::string told = with({});
    CHECK(has(told, "Its inside radius, 1.6 mm, is what the nose of this brake (folder) gives."));
    CHECK(has(contents(part), "\"inside_radius\": 1.6"));
    CHECK(has(contents(part), "Inside radius 1.6: the nose of this brake (folder)."));
    const Outcome check = runProgram({"check", part, "--shop", shop});
    CHECK_FALSE(has(check.out, "radius.drawn"));
    CHECK_FALSE(has(check.out, "drawn with"));
    const std::string asked = with({"--radius", "3"});
    CHECK(has(asked,
              "Bends get an inside radius of 1.6 mm from the nose of this brake (folder), not the one asked for."));
    CHECK(has(contents(part), "\"inside_radius\": 3"));
    CHECK(has(runProgram({"check", part, "--shop", shop}).out, "drawn with 3 mm"));
}

// A joint of two edges is welded without filler where it gapes by no more than a tenth of the sheet: common practice.
TEST_CASE("start: corners to be welded are tight and square, and the part folds with them") {
    const Words component{"--component", "120", "80", "30"};
    for (const char* shape : {"tray", "housing", "window-face"}) {
        INFO(shape);
        const ScratchFolder scratch;
        const std::string part = scratch.file("part.json"), open = scratch.file("open.json");
        Words options = component;
        if (shape == std::string("window-face")) options.insert(options.end(), {"--window", "38", "22"});
        REQUIRE(start(shape, options, open).code == 0);
        CHECK(has(contents(open), "\"left_mitre\": 3.5"));
        Words said_open = options;
        said_open.insert(said_open.end(), {"--corners", "open", "--force"});
        const std::string usual = contents(open);
        REQUIRE(start(shape, said_open, open).code == 0);
        CHECK(contents(open) == usual);

        options.insert(options.end(), {"--corners", "weld"});
        const Outcome outcome = start(shape, options, part);
        INFO(outcome.err);
        REQUIRE(outcome.code == 0);
        CHECK(has(outcome.out, "Corners butt, square, with a gap of 0.15 to be welded"));
        CHECK(has(contents(part), "\"type\": \"butt\""));
        CHECK_FALSE(has(contents(part), "\"open\""));
        CHECK_FALSE(has(contents(part), "mitre"));
        for (const char* brake : {"magnetic-folder", "finger-brake-mm"}) {
            INFO(brake);
            const std::string shop = scratch.with(
                std::string(brake) + ".json",
                R"({"format": "tinwright-shop/1", "units": "mm", "name": "shop", "overbend": {"default_deg": 3},
                    "brakes": [{"tooling": "tooling:)" +
                    std::string(brake) + R"(.json"}]})");
            const Outcome plan = runProgram({"plan", part, "--shop", shop, "--plans", "1"});
            INFO(plan.out + plan.err);
            CHECK(plan.code == 0);
        }
    }
}

TEST_CASE("start: a file that is there stays, unless it is forced") {
    const ScratchFolder scratch;
    const std::string file = scratch.with("part.json", "mine");
    checkRefused(start("tray", {"--component", "60", "40", "25"}, file), "--force");
    CHECK(contents(file) == "mine");
    CHECK(start("tray", {"--component", "60", "40", "25", "--force"}, file).code == 0);
    CHECK(has(contents(file), "tinwright-part/1"));
    CHECK(scratch.entries() == 1);
}

TEST_CASE("start: bad usage says what was found and expected, and writes nothing") {
    const ScratchFolder scratch;
    const std::string file = scratch.file("part.json");
    const auto refused = [&](const std::string& shape, Words options, const std::string& words) {
        options.insert(options.end(), {"--component", "60", "40", "25"});
        checkRefused(start(shape, options, file), words);
    };
    checkRefused(start("tray", {}, file), "--component");
    checkRefused(start("tray", {"--component", "60", "40"}, file), "--component");
    checkRefused(start("tray", {"--component", "60", "40", "wide"}, file), "found \"wide\"");
    refused("box", {}, "window-face");
    refused("tray", {"--lip", "10"},
            "command line: --lip: found it given for a tray, expected it for one of these shapes only: channel");
    refused("tray", {"--thickness", "-1"}, "expected a number from 0 to 20000");
    refused("tray", {"--inside-height", "20"}, "expected at least 25.5 mm");
    refused("tray", {"--window-at", "3", "3"}, "--window W H beside it");
    refused("channel", {"--corners", "weld"}, "--corners: found it given for a channel");
    refused("tray", {"--corners", "loose"}, "--corners");
    refused("tray", {"--boss-at", "3", "3"}, "--boss DIAMETER beside it");
    refused("housing", {"--fix", "left,none"}, "either sides or none");
    refused("housing", {"--fix", "roof"}, "--fix");
    refused("housing", {"--fix", "none", "--screw", "4"}, "--screw");
    refused("window-face", {}, "a window or a boss");
    refused("window-face", {"--window", "60", "20"}, "its left side 0.5 mm from the wall");
    checkRefused(start("tray", {"--component", "60", "40", "25"}, scratch.file("no-folder/part.json")), "no-folder");
    CHECK(scratch.entries() == 0);
}

TEST_CASE("start: help shows every shape and option") {
    const Outcome help = runProgram({"start", "--help"});
    CHECK(help.code == 0);
    for (const Start& wish : kStarts) CHECK(has(help.out, std::string("tinwright start ") + wish.shape));
    for (const char* option :
         {"--component", "--gap",           "--units",     "--open",   "--window", "--boss",     "--fix",
          "--fixings",   "--tab-length",    "--tab-width", "--screw",  "--lip",    "--foot",     "--upright",
          "--corners",   "--inside-height", "--thickness", "--radius", "--k",      "--material", "--force",
          "-o"}) {
        INFO(option);
        CHECK(has(help.out, option));
    }
}
