// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <limits>
#include <random>

#include <tinwright/io/start/start_part.h>

using namespace tinwright;

namespace {

StartChoice choiceOf(StartShape shape) {
    StartChoice choice;
    choice.shape = shape;
    choice.component_mm = {60, 40, 25};
    if (shape == StartShape::kWindowFace) choice.window = StartWindow{20, 10, {}};
    return choice;
}

void checkRefused(StartShape shape, const std::function<void(StartChoice&)>& spoil, const std::string& code,
                  const std::string& word) {
    StartChoice choice = choiceOf(shape);
    REQUIRE(startPart(choice).ok());
    spoil(choice);
    const Result<std::string> text = startPart(choice);
    INFO(code << " " << word);
    REQUIRE_FALSE(text.ok());
    bool found = false;
    for (const Issue& issue : text.issues()) {
        UNSCOPED_INFO(toText(issue));
        found = found || (issue.code == code && issue.place == word);
    }
    CHECK(found);
}

bool isOpenChosen(StartShape shape, std::mt19937& random) {
    const bool is_box = shape == StartShape::kHousing || shape == StartShape::kTray || shape == StartShape::kWindowFace;
    return is_box && random() % 2 == 0;
}

}  // namespace

TEST_CASE("what a shape does not use is an error that says which shapes do") {
    using enum StartShape;
    checkRefused(
        kTray, [](StartChoice& c) { c.lip_mm = 10; }, "start.unused", "lip");
    checkRefused(
        kTray, [](StartChoice& c) { c.fixings = 1; }, "start.unused", "fixings");
    checkRefused(
        kTray, [](StartChoice& c) { c.fix = {ComponentSide::kLeft}; }, "start.unused", "fix");
    checkRefused(
        kChannel, [](StartChoice& c) { c.open = ComponentSide::kTop; }, "start.unused", "open");
    checkRefused(
        kChannel, [](StartChoice& c) { c.foot_mm = 20; }, "start.unused", "foot");
    checkRefused(
        kHat, [](StartChoice& c) { c.upright_mm = 20; }, "start.unused", "upright");
    checkRefused(
        kBracket, [](StartChoice& c) { c.inside_height_mm = 30; }, "start.unused", "inside-height");
    checkRefused(
        kWindowFace, [](StartChoice& c) { c.tab_width_mm = 20; }, "start.unused", "tab-width");
    StartChoice choice = choiceOf(kTray);
    choice.foot_mm = 20;
    CHECK(startPart(choice).issues().front().expected.find("hat") != std::string::npos);
}

TEST_CASE("numbers out of range, and sizes that do not go together") {
    using enum StartShape;
    const double nan = std::numeric_limits<double>::quiet_NaN(), infinity = std::numeric_limits<double>::infinity();
    for (const double bad : {0.0, -1.0, 1e6, nan, infinity}) {
        checkRefused(
            kTray, [&](StartChoice& c) { c.component_mm[1] = bad; }, "start.range", "component");
        checkRefused(
            kHat, [&](StartChoice& c) { c.foot_mm = bad; }, "start.range", "foot");
        checkRefused(
            kTray, [&](StartChoice& c) { c.thickness_mm = bad; }, "start.range", "thickness");
    }
    checkRefused(
        kTray, [](StartChoice& c) { c.gap_mm[0] = -0.1; }, "start.range", "gap");
    checkRefused(
        kTray, [](StartChoice& c) { c.inside_height_mm = 20; }, "start.room", "inside-height");
    checkRefused(
        kTray, [](StartChoice& c) { c.component_mm[2] = 500; }, "start.room", "component");
    checkRefused(
        kTray, [](StartChoice& c) { c.inside_radius_mm = 40; }, "start.room", "component");
    checkRefused(
        kHousing, [](StartChoice& c) { c.fixings = 6; }, "start.room", "fix");
    checkRefused(
        kHousing, [](StartChoice& c) { c.tab_length_mm = 6; }, "start.room", "tab-length");
    checkRefused(
        kHousing, [](StartChoice& c) { c.tab_width_mm = 6; }, "start.room", "tab-width");
    checkRefused(
        kHousing, [](StartChoice& c) { c.fix = {ComponentSide::kBottom}; }, "start.fix", "fix");
    checkRefused(
        kHousing,
        [](StartChoice& c) {
            c.fix = {ComponentSide::kLeft, ComponentSide::kLeft};
        },
        "start.fix", "fix");
    checkRefused(
        kChannel, [](StartChoice& c) { c.lip_mm = 30; }, "start.room", "lip");
    checkRefused(
        kHat, [](StartChoice& c) { c.foot_mm = 5; }, "start.room", "foot");
    checkRefused(
        kBracket, [](StartChoice& c) { c.upright_mm = 6; }, "start.room", "upright");
    checkRefused(
        kWindowFace, [](StartChoice& c) { c.window.reset(); }, "start.missing", "window");
    checkRefused(
        kWindowFace,
        [](StartChoice& c) {
            c.window = StartWindow{60, 10, {}};
        },
        "start.room", "window");
    checkRefused(
        kWindowFace,
        [](StartChoice& c) {
            c.boss = StartBoss{8, {}};
        },
        "start.room", "boss");
    checkRefused(
        kTray, [](StartChoice& c) { c.material = "no such name!"; }, "recipe.name", "material");
    checkRefused(
        kTray, [](StartChoice& c) { c.material = "st\xff"; }, "start.text", "material");
    checkRefused(
        kTray, [](StartChoice& c) { c.name = "\xc3"; }, "start.text", "name");
    checkRefused(
        kTray, [](StartChoice& c) { c.name = std::string(5000, 'n'); }, "recipe.range", "name");
}

TEST_CASE("whatever is chosen, a recipe comes out or every issue names a word of the choice") {
    const unsigned seed = 4711;
    std::mt19937 random(seed);
    const auto length = [&] { return std::pow(10.0, std::uniform_real_distribution<double>(-1, 3)(random)); };
    const auto sometimes = [&](std::optional<double>& value) {
        if (random() % 4 == 0) value = length();
    };
    int started = 0;
    for (int i = 0; i < 3000; ++i) {
        StartChoice choice;
        choice.shape = static_cast<StartShape>(random() % 6);
        choice.inches = random() % 2 == 0;
        for (double& size : choice.component_mm) size = length();
        for (double& gap : choice.gap_mm) gap = 0.01 * length();
        if (random() % 4 == 0) choice.thickness_mm = std::min(25.0, 0.1 * length());
        if (random() % 4 == 0) choice.inside_radius_mm = 0.1 * length();
        if (isOpenChosen(choice.shape, random)) choice.open = static_cast<ComponentSide>(random() % 6);
        if (choice.shape == StartShape::kHat) sometimes(choice.foot_mm);
        if (choice.shape == StartShape::kChannel) sometimes(choice.lip_mm);
        if (choice.shape == StartShape::kBracket)
            sometimes(choice.upright_mm);
        else
            sometimes(choice.inside_height_mm);
        if (choice.shape == StartShape::kHousing) {
            sometimes(choice.tab_length_mm);
            sometimes(choice.tab_width_mm);
            sometimes(choice.screw_mm);
            if (random() % 3 == 0) choice.fixings = 1 + static_cast<int>(random() % 5);
        }
        if (choice.shape == StartShape::kWindowFace || random() % 3 == 0)
            choice.window = StartWindow{length(), length(), {}};
        if (random() % 3 == 0) choice.boss = StartBoss{length(), FacePoint{length(), length()}};
        const Result<std::string> text = startPart(choice);
        started += text.ok() ? 1 : 0;
        for (const Issue& issue : text.issues()) {
            INFO("seed " << seed << " case " << i << " " << toText(choice.shape) << ": " << toText(issue));
            CHECK(issue.place.find('/') == std::string::npos);
        }
    }
    CHECK(started > 300);
}
