// SPDX-License-Identifier: GPL-3.0-or-later
// Plans for parts with hems, replayed by the independent verifier; and the same plans with one thing changed, which the
// replay must find.
#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <random>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/part/developing/develop.h>
#include <tinwright/verify/replay/verify.h>

#include "../one_vee.h"
#include "plan_support.h"

namespace tinwright::test {

namespace {

using Catch::Matchers::Contains;

const char* const kSides[] = {"front", "right", "back", "left"};

// "M": magnetic folder, "B": finger brake, "P": press brake with hemming dies, in the first V for the part.
struct Shops {
    Shop shop;
    std::size_t brake;
};

Shops shopWith(const std::string& name, const Part& part) {
    static const Shop read = [] {
        const Result<Shop> result = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/hems.json");
        INFO((result ? std::string() : toText(result.issues().front())));
        REQUIRE(result);
        return result.value();
    }();
    Shops shops{read, brakeNamed(read, name)};
    Brake& brake = shops.shop.brakes[shops.brake];
    if (!brake.isPress()) return shops;
    brake = test::onlyVee(brake, *test::inUse(part, brake).vee());
    return shops;
}

std::string recipeOf(const std::string& name, double thickness_mm, double width_mm, double depth_mm,
                     const std::string& flanges, const std::string& corners = "") {
    return fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"{}","sheet":{{"material":"mild-steel","thickness":{}}},)"
        R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1,"measured":"outside",)"
        R"("base":{{"name":"web","width":{},"depth":{}}},"flanges":[{}],"corners":[{}]}})",
        name, thickness_mm, width_mm, depth_mm, flanges, corners);
}

Part sheetOf(const std::string& name, double thickness_mm, double width_mm, double depth_mm, const std::string& flanges,
             const std::string& corners = "") {
    return partFrom(recipeOf(name, thickness_mm, width_mm, depth_mm, flanges, corners));
}

std::string flange(const std::string& name, const std::string& on, double length_mm, const std::string& more = "") {
    return fmt::format(R"({{"name":"{}","on":"{}","length":{}{}}})", name, on, length_mm, more);
}

std::string hem(const std::string& name, const std::string& on, double length_mm, double gap_mm, bool up = true,
                double inset_mm = 2) {
    return flange(name, on, length_mm,
                  fmt::format(R"(,"hem":{{"gap":{}}},"direction":"{}","from_left":{},"from_right":{})", gap_mm,
                              up ? "up" : "down", inset_mm, inset_mm));
}

// Four walls, their rims hemmed inwards or outwards.
Part tray(double thickness_mm, double width_mm, double depth_mm, double height_mm, double gap_mm, bool inwards,
          double return_mm) {
    std::string flanges;
    std::string corners;
    for (int i = 0; i < 4; ++i) {
        const std::string wall = fmt::format("wall_{}", kSides[i]);
        flanges += (i > 0 ? "," : "") + flange(wall, fmt::format("web.{}", kSides[i]), height_mm);
        corners += fmt::format(R"({}{{"between":["wall_{}","wall_{}"],"type":"open","gap":1}})", i > 0 ? "," : "",
                               kSides[i], kSides[(i + 1) % 4]);
    }
    for (const char* side : kSides)
        flanges +=
            "," + hem(fmt::format("rim_{}", side), fmt::format("wall_{}.far", side), return_mm, gap_mm, inwards, 4);
    return sheetOf("tray", thickness_mm, width_mm, depth_mm, flanges, corners);
}

std::string replayed(const Part& part, const Shops& on, const Plan& plan) {
    std::string text;
    for (const ReplayFinding& finding : verifyPlan(part, on.shop, test::inUse(part, on.shop.brakes[on.brake]), plan, 0))
        text += fmt::format("{}: {}\n", finding.fold, finding.words);
    return text;
}

Plan firstPlan(const Part& part, const Shops& on) {
    const BrakeResult result = planVerified(part, on.shop, on.brake, 1);
    INFO(codesOf(result.reasons));
    REQUIRE(!result.plans.empty());
    return result.plans.front();
}

FoldStep& hemStep(Plan& plan) {
    const auto found = std::find_if(plan.folds.begin(), plan.folds.end(),
                                    [](const FoldStep& step) { return step.closing.has_value(); });
    REQUIRE(found != plan.folds.end());
    return *found;
}

// With rims inwards and outwards, tight and with a gap: partWith(inwards, gap_mm).
void checkRims(const char* shop, std::size_t plans, const std::function<Part(bool, double)>& partWith) {
    for (const bool inwards : {true, false}) {
        for (const double gap_mm : {0.0, 0.8}) {
            CAPTURE(inwards, gap_mm);
            const Part part = partWith(inwards, gap_mm);
            const Shops on = shopWith(shop, part);
            const BrakeResult result = planVerified(part, on.shop, on.brake, plans);
            INFO(codesOf(result.reasons));
            CHECK(result.verdict == Verdict::kFeasible);
        }
    }
}

}  // namespace

TEST_CASE("a tray with hemmed rims holds in the independent replay") {
    checkRims("M", 1, [](bool inwards, double gap_mm) { return tray(0.8, 300, 200, 40, gap_mm, inwards, 8); });
}

// Between the end frames of a finger brake no side may hang past: two rims alone.
TEST_CASE("a channel with hemmed rims holds in the independent replay on a finger brake") {
    checkRims("B", 3, [](bool inwards, double gap_mm) {
        return sheetOf("channel", 1, 300, 120,
                       flange("front", "web.front", 40) + "," + flange("back", "web.back", 40) + "," +
                           hem("rim_front", "front.far", 9, gap_mm, inwards) + "," +
                           hem("rim_back", "back.far", 9, gap_mm, inwards));
    });
}

TEST_CASE("an angle with a hemmed rim holds in the independent replay in a die's jaw") {
    checkRims("P", 3, [](bool inwards, double gap_mm) {
        return sheetOf("angle", 1, 300, 180,
                       flange("front", "web.front", 40) + "," + hem("rim", "front.far", 10, gap_mm, inwards, 0));
    });
}

// ---- the same plans, falsified ----

namespace {

// A sheet with a hemmed edge, alone or between walls.
Part hemmed(const std::string& more = "") {
    return sheetOf("hemmed", 0.8, 200, 120, hem("rim", "web.front", 10, 0, true, 0) + more);
}

// What the replay says of the first step that closes hems when it is changed.
std::string whenChanged(const Part& part, const Shops& on, const std::function<void(FoldStep&)>& change) {
    Plan plan = firstPlan(part, on);
    change(hemStep(plan));
    return replayed(part, on, plan);
}

}  // namespace

TEST_CASE("what is told wrongly of a closing is found") {
    for (const char* name : {"M", "B", "P"}) {
        CAPTURE(name);
        const Shops on = shopWith(name, hemmed());
        const auto changed = [&](const std::function<void(HemClosing&)>& change) {
            return whenChanged(hemmed(), on, [&](FoldStep& step) { change(*step.closing); });
        };
        CHECK(changed([](HemClosing&) {}) == "");
        CHECK_THAT(whenChanged(hemmed(), on, [](FoldStep& step) { step.closing.reset(); }),
                   Contains("rim: the hem is never closed"));
        CHECK_THAT(changed([](HemClosing& told) { told.part_x_mm += 170; }), Contains("closing: bend rim is open for"));
        CHECK_THAT(changed([](HemClosing& told) { told.part_x_mm -= 170; }), Contains("closing: bend rim is open for"));
        CHECK_THAT(changed([](HemClosing& told) { told.inserted_mm -= 0.5; }),
                   Contains("closing: how far it is pushed in is 11.000 mm, the step says 10.500 mm"));
        CHECK_THAT(changed([](HemClosing& told) { told.inserted_mm += 200; }), Contains("closing: the hem goes 211"));
        CHECK_THAT(changed([](HemClosing& told) { told.front_mm -= 1; }),
                   Contains("closing: where the flats begin at "));
        CHECK_THAT(changed([](HemClosing& told) { told.stands_mm -= 1; }),
                   Contains("closing: how high the return stands is "));
        CHECK_THAT(changed([](HemClosing& told) { told.height_mm += 0.1; }),
                   Contains("the height of the closed hem is 1.600 mm, the step says 1.700 mm"));
        CHECK_THAT(changed([](HemClosing& told) { told.turned = !told.turned; }), Contains("closing: the part "));
        if (kindOf(on.shop.brakes[on.brake]) != MachineKind::kLooseBarFolder) {
            CHECK_THAT(changed([](HemClosing& told) { told.lifted_out = true; }),
                       Contains("the part is lifted out, and what is over it stays there"));
        }
    }
}

TEST_CASE("a closing without a hem is found, and a hem told to be folded as an ordinary bend") {
    const Part part = hemmed("," + flange("back", "web.back", 20));
    const Shops on = shopWith("B", part);
    Plan plan = firstPlan(part, on);
    const HemClosing closing = *hemStep(plan).closing;
    for (FoldStep& step : plan.folds) {
        if (!step.closing) step.closing = closing;
    }
    CHECK_THAT(replayed(part, on, plan), Contains("something is to be closed that is no hem"));
    CHECK_THAT(whenChanged(part, on, [](FoldStep& step) { step.angle = Angle::degrees(120); }),
               Contains("bend rim is to be folded to"));
}

TEST_CASE(
    "sheet that is too thick for the flats, a jaw that opens too little and a ram that does not come down are found") {
    Shops on = shopWith("P", hemmed());
    const Plan plan = firstPlan(hemmed(), on);
    const auto with = [&](const std::function<void(Brake&)>& change) {
        Shops other = on;
        change(other.shop.brakes[other.brake]);
        return replayed(hemmed(), other, plan);
    };
    const auto withJaws = [&](const std::function<void(Jaw&)>& change) {
        return with([&](Brake& brake) {
            for (Die& die : brake.press().dies) {
                if (die.jaw) change(*die.jaw);
            }
        });
    };
    CHECK_THAT(withJaws([](Jaw& jaw) { jaw.hem_thickness_mm = 0.7; }), Contains("closes hems in sheet up to 0.7"));
    CHECK_THAT(withJaws([](Jaw& jaw) { jaw.opening_mm = 4; }),
               Contains("the flats open to 4.000 mm") &&
                   Contains("closing: way in, told backwards: panel rim meets upper half of die "));
    CHECK_THAT(withJaws([](Jaw& jaw) { jaw.depth_mm = 11; }), Contains("between flats of VH"));
    CHECK_THAT(with([](Brake& brake) {
                   for (Die& die : brake.press().dies) die.jaw.reset();
               }),
               Contains("no die of this brake has a jaw"));
    CHECK_THAT(with([](Brake& brake) { brake.press().stroke_mm = 20; }),
               Contains("closing: the seats are to come as near as"));
    Shops thin = shopWith("B", hemmed());
    const Plan on_beam = firstPlan(hemmed(), thin);
    thin.shop.brakes[thin.brake].leaf().hem_thickness_mm = 0.7;
    CHECK_THAT(replayed(hemmed(), thin, on_beam), Contains("closes hems in sheet up to 0.7"));
    thin = shopWith("B", hemmed());
    thin.shop.brakes[thin.brake].leaf().opening_mm = 6;
    CHECK_THAT(replayed(hemmed(), thin, on_beam), Contains("closing: the return stands "));
}

TEST_CASE("a wall in the way of the beam is found, and walls in the way of a pushed-in part") {
    // The wall opposite the hem stands in front of the machine: under a beam that hangs further forward it is met.
    const Part part =
        sheetOf("deep", 0.8, 200, 60, hem("rim", "web.front", 8, 0) + "," + flange("back", "web.back", 50));
    const Shops on = shopWith("B", part);
    Plan plan = firstPlan(part, on);
    const FoldStep step = hemStep(plan);
    plan.folds = {step};
    Shops forward = on;
    forward.shop.brakes[forward.brake].leaf().beam->front_y_mm = -60;
    forward.shop.brakes[forward.brake].leaf().beam->height_mm = 30;
    const BendMask wall = bit(bendNamed(part, "back"));
    const auto words = [&](const Shops& shops) {
        std::string text;
        for (const ReplayFinding& finding :
             verifyPlan(part, shops.shop, test::inUse(part, shops.shop.brakes[shops.brake]), plan, wall))
            text += finding.words + "\n";
        return text;
    };
    CHECK_THAT(words(forward), Contains("closing: beam meets panel back"));
    CHECK_THAT(words(on), !Contains("closing: beam meets"));
}

// A wall beside the hem with a lip over its return: planned with the hem first, replayed with wall and lip standing.
TEST_CASE("a flange that the return meets on its way is found") {
    const Part part = sheetOf("lipped", 0.8, 200, 80,
                              hem("rim", "web.front", 12, 1.5, true, 0) + "," + flange("left", "web.left", 10) + "," +
                                  flange("lip", "left.far", 20));
    const Shops on = shopWith("M", part);
    const BendMask walls = bit(bendNamed(part, "left")) | bit(bendNamed(part, "lip"));
    const Part alone = sheetOf("lipped", 0.8, 200, 80, hem("rim", "web.front", 12, 1.5, true, 0));
    Plan plan = firstPlan(alone, on);
    std::string text;
    for (const ReplayFinding& finding :
         verifyPlan(part, on.shop, test::inUse(part, on.shop.brakes[on.brake]), plan, walls))
        text += finding.words + "\n";
    CHECK_THAT(text, Contains("closing: panel rim meets panel lip at"));
}

namespace {

// Hems of any depth that suits the brake on the edges of a sheet and on what is folded from it, walls and lips beside
// them.
class RandomHems {
public:
    RandomHems(std::mt19937& random, bool in_jaw) : random_(random), in_jaw_(in_jaw) {}

    // One that can exist.
    Part part() {
        while (true) {
            const Result<Recipe> recipe = readRecipe(drawn(), "random recipe");
            REQUIRE(recipe);
            if (const Result<Part> part = develop(recipe.value())) return part.value();
        }
    }

private:
    std::string drawn() {
        const double thickness_mm = likely(0.5) ? 0.6 : 0.8;
        std::string flanges = hem("rim", "web.front", depth(), gap(), likely(0.7), in_jaw_ ? 0 : whole(0, 3));
        for (const char* side : {"left", "right", "back"}) {
            if (likely(0.5))
                flanges += "," + (likely(0.4) ? hem(side, fmt::format("web.{}", side), depth(), gap(), likely(0.7),
                                                    whole(3, 20))
                                              : wall(side));
        }
        const double width_mm = whole(60, 300);
        return recipeOf("random", thickness_mm, width_mm, whole(50, 150), flanges);
    }

    double real(double from, double to) { return from + (to - from) * static_cast<double>(random_()) / 4294967296.0; }
    double whole(double from, double to) { return std::round(real(from, to)); }
    bool likely(double share) { return real(0, 1) < share; }
    double gap() { return likely(0.5) ? 0 : whole(0, 20) / 10; }
    double depth() { return in_jaw_ ? whole(70, 115) / 10 : whole(4, 16); }
    std::string way() { return likely(0.75) ? "up" : "down"; }

    std::string wall(const std::string& side) {
        const double free_mm = whole(3, 20);
        std::string flanges = flange(side, "web." + side, whole(8, 40),
                                     fmt::format(R"(,"angle":{},"direction":"{}","from_left":{},"from_right":{})",
                                                 likely(0.7) ? 90 : whole(30, 130), way(), free_mm, free_mm));
        if (likely(0.5))
            flanges +=
                "," + flange(side + "_lip", side + ".far", whole(7, 30), fmt::format(R"(,"direction":"{}")", way()));
        if (likely(0.5))
            flanges +=
                "," + hem(side + "_hem", side + (likely(0.5) ? ".left" : ".right"), depth(), gap(), likely(0.7), 0);
        return flanges;
    }

    std::mt19937& random_;
    bool in_jaw_;
};

}  // namespace

TEST_CASE("plans of random sheets with hems beside walls and lips hold in the independent replay") {
    constexpr unsigned kSeed = 20261127;
    std::mt19937 random(kSeed);
    std::map<std::string, int> plans;
    for (int i = 0; i < 36; ++i) {
        const std::string name = i % 3 == 0 ? "M" : i % 3 == 1 ? "B" : "P";
        CAPTURE(kSeed, i, name);
        const Part part = RandomHems(random, name == "P").part();
        const Shops on = shopWith(name, part);
        plans[name] += static_cast<int>(planVerified(part, on.shop, on.brake, 1).plans.size());
    }
    CAPTURE(plans["M"], plans["B"], plans["P"]);
    CHECK(plans["M"] > 2);
    CHECK(plans["B"] > 2);
    CHECK(plans["P"] > 2);
}

}  // namespace tinwright::test
