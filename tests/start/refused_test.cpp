// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <limits>

#include <tinwright/io/start_part.h>

using namespace tinwright;

namespace {

StartChoice choiceOf(StartShape shape) {
    StartChoice choice;
    choice.shape = shape;
    choice.component_mm = {60, 40, 25};
    if (shape == StartShape::kWindowFace) choice.window = StartWindow{20, 10, {}};
    return choice;
}

void checkRefused(StartShape shape, const std::function<void(StartChoice&)>& spoil, const std::string& code, const std::string& word) {
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

}  // namespace

TEST_CASE("what a shape does not use is an error that says which shapes do") {
    using enum StartShape;
    checkRefused(kTray, [](StartChoice& c) { c.lip_mm = 10; }, "start.unused", "lip");
    checkRefused(kTray, [](StartChoice& c) { c.fixings = 1; }, "start.unused", "fixings");
    checkRefused(kTray, [](StartChoice& c) { c.fix = {ComponentSide::kLeft}; }, "start.unused", "fix");
    checkRefused(kChannel, [](StartChoice& c) { c.open = ComponentSide::kTop; }, "start.unused", "open");
    checkRefused(kChannel, [](StartChoice& c) { c.foot_mm = 20; }, "start.unused", "foot");
    checkRefused(kHat, [](StartChoice& c) { c.upright_mm = 20; }, "start.unused", "upright");
    checkRefused(kBracket, [](StartChoice& c) { c.inside_height_mm = 30; }, "start.unused", "inside-height");
    checkRefused(kWindowFace, [](StartChoice& c) { c.tab_width_mm = 20; }, "start.unused", "tab-width");
    StartChoice choice = choiceOf(kTray);
    choice.foot_mm = 20;
    CHECK(startPart(choice).issues().front().expected.find("hat") != std::string::npos);
}

TEST_CASE("numbers out of range, and sizes that do not go together") {
    using enum StartShape;
    const double nan = std::numeric_limits<double>::quiet_NaN(), infinity = std::numeric_limits<double>::infinity();
    for (const double bad : {0.0, -1.0, 1e6, nan, infinity}) {
        checkRefused(kTray, [&](StartChoice& c) { c.component_mm[1] = bad; }, "start.range", "component");
        checkRefused(kHat, [&](StartChoice& c) { c.foot_mm = bad; }, "start.range", "foot");
        checkRefused(kTray, [&](StartChoice& c) { c.thickness_mm = bad; }, "start.range", "thickness");
    }
    checkRefused(kTray, [](StartChoice& c) { c.gap_mm[0] = -0.1; }, "start.range", "gap");
    checkRefused(kTray, [](StartChoice& c) { c.inside_height_mm = 20; }, "start.room", "inside-height");
    checkRefused(kTray, [](StartChoice& c) { c.component_mm[2] = 500; }, "start.room", "component");
    checkRefused(kTray, [](StartChoice& c) { c.inside_radius_mm = 40; }, "start.room", "component");
    checkRefused(kHousing, [](StartChoice& c) { c.fixings = 6; }, "start.room", "fix");
    checkRefused(kHousing, [](StartChoice& c) { c.tab_length_mm = 6; }, "start.room", "tab-length");
    checkRefused(kHousing, [](StartChoice& c) { c.tab_width_mm = 6; }, "start.room", "tab-width");
    checkRefused(kHousing, [](StartChoice& c) { c.fix = {ComponentSide::kBottom}; }, "start.fix", "fix");
    checkRefused(kHousing, [](StartChoice& c) { c.fix = {ComponentSide::kLeft, ComponentSide::kLeft}; }, "start.fix", "fix");
    checkRefused(kChannel, [](StartChoice& c) { c.lip_mm = 30; }, "start.room", "lip");
    checkRefused(kHat, [](StartChoice& c) { c.foot_mm = 5; }, "start.room", "foot");
    checkRefused(kBracket, [](StartChoice& c) { c.upright_mm = 6; }, "start.room", "upright");
    checkRefused(kWindowFace, [](StartChoice& c) { c.window.reset(); }, "start.missing", "window");
    checkRefused(kWindowFace, [](StartChoice& c) { c.window = StartWindow{60, 10, {}}; }, "start.room", "window");
    checkRefused(kWindowFace, [](StartChoice& c) { c.boss = StartBoss{8, {}}; }, "start.room", "boss");
    checkRefused(kTray, [](StartChoice& c) { c.material = "no such name!"; }, "recipe.name", "material");
}
