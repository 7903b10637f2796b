// SPDX-License-Identifier: GPL-3.0-or-later
// Plans for the shipped press brake, replayed by the independent verifier; and the same plans with one thing changed,
// which the replay must find.
#include <algorithm>
#include <functional>
#include <random>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/part/edges/section.h>
#include <tinwright/verify/replay/verify.h>

#include "../one_vee.h"
#include "plan_support.h"

namespace tinwright::test {

namespace {

using Catch::Matchers::Contains;

// The shipped press brake with some of its punches.
Shop readPress(const std::string& punches) {
    const Result<Shop> read =
        readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/press-" + punches + ".json");
    REQUIRE(read);
    return read.value();
}

// The same in the V with that opening: air bends take 0.16 of it inside.
Shop pressShop(const std::string& punches, double opening_mm = 12) {
    Shop shop = readPress(punches);
    for (const Vee& vee : veesOf(shop.brakes[0])) {
        if (vee.opening_mm != opening_mm) continue;
        shop.brakes[0] = test::onlyVee(shop.brakes[0], vee);
        return shop;
    }
    FAIL("no V of " << opening_mm);
    return shop;
}

// 1.5 mild steel, all sizes outside.
Part sheetOf(const std::string& name, double width_mm, double depth_mm, const std::string& flanges,
             const std::string& corners = "") {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"{}","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1.92,"measured":"outside",)"
        R"("base":{{"name":"web","width":{},"depth":{}}},"flanges":[{}],"corners":[{}]}})",
        name, width_mm, depth_mm, flanges, corners));
}

std::string flange(const std::string& name, const std::string& on, double length_mm, bool up = true) {
    return fmt::format(R"({{"name":"{}","on":"{}","length":{},"direction":"{}"}})", name, on, length_mm,
                       up ? "up" : "down");
}

Part channel(double web_mm, double leg_mm) {
    return sheetOf("channel", 200, web_mm,
                   flange("left", "web.front", leg_mm) + "," + flange("right", "web.back", leg_mm));
}
Part zed() {
    return sheetOf("zed", 250, 40, flange("up", "web.front", 30) + "," + flange("down", "web.back", 30, false));
}
Part hat() {
    return sheetOf("hat", 300, 60,
                   flange("left", "web.front", 30) + "," + flange("right", "web.back", 30) + "," +
                       flange("left_brim", "left.far", 20, false) + "," + flange("right_brim", "right.far", 20, false));
}
Part lippedChannel() {
    return sheetOf("lipped", 200, 120,
                   flange("left", "web.front", 30) + "," + flange("right", "web.back", 30) + "," +
                       flange("left_lip", "left.far", 14) + "," + flange("right_lip", "right.far", 14));
}
Part box(double width_mm, double depth_mm, double height_mm) {
    std::string flanges;
    std::string corners;
    const char* const sides[] = {"front", "right", "back", "left"};
    for (int i = 0; i < 4; ++i) {
        flanges +=
            (i > 0 ? "," : "") + flange(fmt::format("wall_{}", sides[i]), fmt::format("web.{}", sides[i]), height_mm);
        corners += fmt::format(R"({}{{"between":["wall_{}","wall_{}"],"type":"open","gap":2}})", i > 0 ? "," : "",
                               sides[i], sides[(i + 1) % 4]);
    }
    return sheetOf("box", width_mm, depth_mm, flanges, corners);
}

std::string replayed(const Part& part, const Shop& shop, const Plan& plan) {
    std::string text;
    for (const ReplayFinding& finding : verifyPlan(part, shop, test::inUse(part, shop.brakes[0]), plan, 0))
        text += fmt::format("{}: {}\n", finding.fold, finding.words);
    return text;
}

Plan firstPlan(const Part& part, const Shop& shop) {
    const BrakeResult result = planVerified(part, shop, 0, 1);
    INFO(codesOf(result.reasons));
    REQUIRE(!result.plans.empty());
    return result.plans.front();
}

// What the replay says when a plan that it found sound is changed.
std::string whenChanged(const Part& part, const Shop& shop, const std::function<void(Plan&)>& change) {
    Plan plan = firstPlan(part, shop);
    change(plan);
    return replayed(part, shop, plan);
}

bool usesHorn(const Plan& plan, const Brake& brake) {
    for (const FoldStep& step : plan.folds) {
        for (const PlacedTool& piece : step.tools) {
            const Punch* punch = brake.punch(piece.tool);
            if (punch != nullptr && punch->horn) return true;
        }
    }
    return false;
}

ToolId pieceNamed(const Brake& brake, const std::string& id) {
    const std::optional<ToolId> tool = brake.toolCalled(id);
    INFO("piece " << id);
    REQUIRE(tool);
    return *tool;
}

}  // namespace

TEST_CASE("classic shapes planned on a press brake hold in the independent replay") {
    for (const char* punches : {"straight", "gooseneck"}) {
        const Shop shop = pressShop(punches);
        for (const Part& part : {channel(80, 20), zed(), hat(), box(260, 160, 15)}) {
            CAPTURE(punches, part.name);
            CHECK(planVerified(part, shop, 0).verdict == Verdict::kFeasible);
        }
    }
}

TEST_CASE("deep channels and boxes planned with goosenecks hold in the independent replay") {
    const Shop shop = pressShop("gooseneck");
    CHECK(planVerified(channel(50, 45), shop, 0).verdict == Verdict::kFeasible);
    CHECK(planVerified(box(300, 200, 40), shop, 0).verdict == Verdict::kFeasible);
}

TEST_CASE("a box whose walls leave room for a horned punch alone holds in the independent replay") {
    Shop shop = pressShop("straight");
    for (Punch& punch : shop.brakes[0].press().punches) {
        if (!punch.horn && punch.width_mm != 20) punch.count = 0;
    }
    const Plan plan = firstPlan(box(130, 107, 15), shop);
    CHECK(usesHorn(plan, shop.brakes[0]));
}

TEST_CASE("a profile that closes round the punch comes off the end") {
    const Plan plan = firstPlan(lippedChannel(), pressShop("gooseneck"));
    CHECK(plan.folds.back().way_out.back().kind == ExitMove::Kind::kPartAlong);
}

// With the wide web at the back neither forward nor an end is open at once: tilted it goes, and just raised a little
// its bend would catch on the shoulders of the V, from which a deeper bend by 64° keeps it at all.
TEST_CASE(
    "a part is drawn out from under the punch tilted, but not over the shoulders of the V by less than it lies in it") {
    const Shop shop = pressShop("gooseneck", 20);
    const auto partOf = [](double width_mm, double depth_mm, double flange_mm, double angle_deg) {
        return sheetOf(
            "side", width_mm, depth_mm,
            fmt::format(R"({{"name":"side","on":"web.left","length":{},"angle":{}}})", flange_mm, angle_deg));
    };
    for (const Part& part : {partOf(290, 245, 50, 45), partOf(316, 135, 21.5, 64)}) {
        const std::vector<Plan> plans = planVerified(part, shop, 0).plans;
        const auto found = std::find_if(plans.begin(), plans.end(), [](const Plan& plan) {
            return plan.folds[0].way_out.back().kind == ExitMove::Kind::kPartTilted;
        });
        REQUIRE(found != plans.end());
        Plan low = *found;
        std::vector<ExitMove::Point>& path = low.folds[0].way_out.back().path;
        const double up_mm = path.back().z_mm;
        for (ExitMove::Point& point : path) point.z_mm -= up_mm;
        CHECK_THAT(replayed(part, shop, low), Contains("way out: ") && Contains("meets die"));
    }
}

// The shipped side frames stand 1200 apart, 200 behind the bend line: both sides reach behind them while they are flat.
TEST_CASE("sheet that goes in between the side frames is told to be as near to them as it is") {
    const Part part = sheetOf("wide", 1192, 260, flange("side", "web.front", 260));
    const Shop shop = pressShop("straight");
    Plan plan = firstPlan(part, shop);
    CHECK(plan.folds[0].clearance_between[1] == BodyRef::Kind::kFrame);
    CHECK(plan.folds[0].clearance_mm == Approx(4).margin(0.01));
    plan.folds[0].clearance_mm += 0.1;
    CHECK_THAT(replayed(part, shop, plan), Contains("comes nearer to left side frame than the clearance") &&
                                               Contains("comes nearer to right side frame"));
    plan.folds[0].part_x_mm += 10;
    CHECK_THAT(replayed(part, shop, plan), Contains("meets right side frame at 0.00°"));
}

TEST_CASE("in every V that is shipped, a channel planned holds in the independent replay") {
    for (const double opening_mm : {6.0, 8.0, 10.0, 12.0, 16.0, 20.0}) {
        const Shop shop = pressShop("straight", opening_mm);
        CAPTURE(opening_mm);
        CHECK(planVerified(channel(100, 25), shop, 0).verdict == Verdict::kFeasible);
    }
}

TEST_CASE("plans of random sections on a press brake hold in the independent replay") {
    constexpr unsigned kSeed = 20264;
    std::mt19937 random(kSeed);
    const auto real = [&](double lo, double hi) { return std::uniform_real_distribution<double>(lo, hi)(random); };
    int plans = 0;
    for (int i = 0; i < 80; ++i) {
        const double openings_mm[] = {6, 8, 10, 12, 16, 20};
        const double opening_mm = openings_mm[std::uniform_int_distribution<int>(0, 5)(random)];
        Section section;
        const int bends = std::uniform_int_distribution<int>(1, 4)(random);
        for (int flat = 0; flat <= bends; ++flat) section.flats_mm.push_back(std::round(real(opening_mm, 90)));
        for (int bend = 0; bend < bends; ++bend) {
            const double angles_deg[] = {90, 90, 90, 60, 45, 30};
            section.angles_deg.push_back(angles_deg[std::uniform_int_distribution<int>(0, 5)(random)] *
                                         (real(0, 1) < 0.7 ? 1 : -1));
        }
        section.thickness_mm = real(0, 1) < 0.5 ? 1.0 : 1.5;
        section.inside_radius_mm = 0.16 * opening_mm;
        section.length_mm = std::round(real(40, 500));
        const char* const punches = real(0, 1) < 0.5 ? "straight" : "gooseneck";
        CAPTURE(kSeed, i, punches, opening_mm, section.flats_mm, section.angles_deg, section.length_mm,
                section.thickness_mm);
        plans +=
            static_cast<int>(planVerified(sectionPart(section), pressShop(punches, opening_mm), 0, 2).plans.size());
    }
    CAPTURE(plans);
    CHECK(plans > 40);
}

// These walls are drawn 0.75 mm apart at their corner, where separating axes tell 0.44, so that they once passed for
// drawn nearer than is wanted (0.5) and were left out of the clearance. At the set angle they come within 0.47.
TEST_CASE("walls drawn further apart at a corner than is wanted count for the clearance") {
    const Part part = partFrom(
        R"({"format":"tinwright-part/1","units":"mm","name":"corner","sheet":{"material":"mild-steel","thickness":2},)"
        R"("allowance":{"rule":"k-factor","k":0.42},"inside_radius":1.28,"measured":"inside","base":{"name":"web","width":337.7,"depth":88.7},)"
        R"("flanges":[{"name":"left","on":"web.left","length":9.4},{"name":"front","on":"web.front","length":13.7}],)"
        R"("corners":[{"between":["left","front"],"type":"open","gap":0.62}]})");
    static_cast<void>(planVerified(part, pressShop("gooseneck", 8), 0, 1));
}

// ---- the same plans, falsified ----

TEST_CASE("a straight punch in place of a gooseneck is found") {
    const Part part = channel(50, 45);
    const Shop shop = pressShop("gooseneck");
    const Shop straight = pressShop("straight");
    Shop both = shop;  // goosenecks and, after them, straight punches
    for (const Punch& punch : straight.brakes[0].press().punches) both.brakes[0].press().punches.push_back(punch);
    Plan plan = firstPlan(part, shop);
    for (FoldStep& step : plan.folds) {
        for (PlacedTool& piece : step.tools) {
            const std::string& id = shop.brakes[0].tool(piece.tool).id;
            piece.tool = pieceNamed(both.brakes[0], id == "G200" ? "S200" : id);
        }
        step.lift_in_mm = std::min(step.lift_in_mm, 100.0);
    }
    CHECK_THAT(replayed(part, both, plan), Contains("meets punch S200 at"));
}

TEST_CASE("a gooseneck with its hollow to the wrong side is found") {
    const Part part = channel(50, 45);
    const auto text = whenChanged(part, pressShop("gooseneck"), [&](Plan& plan) {
        FoldStep& last = plan.folds.back();
        const Bend& bend = part.bend(last.stroke.first());
        last.stroke.hold = last.stroke.hold == Side::kChild ? Side::kParent : Side::kChild;
        last.held = {last.stroke.hold == Side::kChild ? bend.child : bend.parent};
    });
    CHECK_THAT(text, Contains("meets punch G200 at"));
}

TEST_CASE("a punch that is shifted into a wall, or is wider than the room between walls, is found") {
    const Part part = box(300, 200, 40);
    const Shop shop = pressShop("gooseneck");
    const Plan plan = firstPlan(part, shop);
    const auto between = [&](const FoldStep& step) { return step.covered_share < 1; };
    const auto found = std::find_if(plan.folds.begin(), plan.folds.end(), between);
    REQUIRE(found != plan.folds.end());
    const auto fold = static_cast<std::size_t>(found - plan.folds.begin());
    // Of this fold: others may stand elsewhere along the machine, for other folds.
    const std::vector<StripSpan>& spans = part.bend(found->stroke.first()).spans;
    const double length_mm = spans.back().to_mm - spans.front().from_mm;
    const auto isPunch = [&](const PlacedTool& piece) {
        return shop.brakes[0].punch(piece.tool) != nullptr && piece.to_mm > 0 && piece.from_mm < length_mm;
    };
    Plan shifted = plan;
    for (PlacedTool& piece : shifted.folds[fold].tools) {
        if (isPunch(piece)) piece.from_mm += 4, piece.to_mm += 4;
    }
    CHECK_THAT(replayed(part, shop, shifted), Contains(fmt::format("{}: ", fold + 1)) && Contains("meets punch G"));
    Plan wider = plan;
    std::vector<PlacedTool>& bars = wider.folds[fold].tools;
    double from_mm = 1e9;
    double to_mm = -1e9;
    for (const PlacedTool& piece : bars) {
        if (isPunch(piece)) from_mm = std::min(from_mm, piece.from_mm), to_mm = std::max(to_mm, piece.to_mm);
    }
    const double middle_mm = 0.5 * (from_mm + to_mm);
    std::erase_if(bars, isPunch);
    bars.push_back({pieceNamed(shop.brakes[0], "G300"), middle_mm - 150, middle_mm + 150});
    std::sort(bars.begin(), bars.end(), [](const PlacedTool& a, const PlacedTool& b) { return a.from_mm < b.from_mm; });
    const bool is_end = part.bend(wider.folds[fold].stroke.first()).name == "wall_left" ||
                        part.bend(wider.folds[fold].stroke.first()).name == "wall_right";
    const auto meets = [&](const char* end, const char* side) {
        return fmt::format("panel {} meets punch G300", is_end ? side : end);
    };
    CHECK_THAT(replayed(part, shop, wider),
               Contains(meets("wall_left", "wall_front")) && Contains(meets("wall_right", "wall_back")));
}

TEST_CASE("folds in another order are found") {
    const auto text = whenChanged(lippedChannel(), pressShop("straight"),
                                  [](Plan& plan) { std::reverse(plan.folds.begin(), plan.folds.end()); });
    CHECK_THAT(text, Contains(" meets punch S200 at"));
}

TEST_CASE("a missing die, a second use of one and one of another V are found") {
    const Part part = channel(80, 20);
    const Shop shop = pressShop("straight");
    const ToolId v12 = pieceNamed(shop.brakes[0], "V12-200");
    const auto changed = [&](const std::function<void(std::vector<PlacedTool>&)>& change) {
        return whenChanged(part, shop, [&](Plan& plan) { change(plan.folds[0].tools); });
    };
    CHECK_THAT(
        changed([&](auto& bars) { std::erase_if(bars, [&](const PlacedTool& piece) { return piece.tool == v12; }); }),
        Contains("no die lies under the sheet"));
    CHECK_THAT(changed([&](auto& bars) {
                   bars.push_back({v12, bars.back().to_mm, bars.back().to_mm + 200});
               }),
               Contains("die V12-200 is used more often than the 1"));
    const Shop all = readPress("straight");
    const BrakeInSetup in_v12 = inVee(all.brakes[0], shop.brakes[0].press().dies.front().vee, 0.16 * 12);
    Plan plan = planOnBrake(part, all, in_v12, {}).plans.front();
    plan.folds[0].tools.back().tool = pieceNamed(*in_v12, "V16-200");
    std::string words;
    for (const ReplayFinding& finding : verifyPlan(part, all, in_v12, plan, 0)) words += finding.words + "\n";
    CHECK_THAT(words, Contains("die V16-200 is used more often than the 0 in the shop"));
}

TEST_CASE("a clearance that is told too large is found") {
    const auto text = whenChanged(hat(), pressShop("gooseneck"), [](Plan& plan) {
        for (FoldStep& step : plan.folds) step.clearance_mm += 0.15;
    });
    CHECK_THAT(text, Contains("comes nearer to punch G300 than the clearance"));
}

TEST_CASE("a flange too short for the V is found") {
    // Planned in a V of 8 and made in one of 16, to both of which the part is told to be bent alike.
    const Part part = channel(80, 9);
    const Shop narrow = pressShop("straight", 8);
    Plan plan = firstPlan(part, narrow);
    Shop wide = pressShop("straight", 16);
    for (FoldStep& step : plan.folds) step.tools.back().tool = pieceNamed(wide.brakes[0], "V16-200");
    CHECK_THAT(replayed(part, wide, plan),
               Contains("lie on the front shoulder") || Contains("lie on the back shoulder"));
}

TEST_CASE("a ram told to rise too far, and a part left in the V, are found") {
    const Part part = channel(80, 20);
    CHECK_THAT(whenChanged(part, pressShop("straight"), [](Plan& plan) { plan.folds[0].lift_out_mm += 5; }),
               Contains("way out: the ram is to rise until"));
    CHECK_THAT(whenChanged(part, pressShop("straight"),
                           [](Plan& plan) {
                               plan.folds[0].way_out.back().path = {{0, -2000, 0, 0}};
                           }),
               Contains("way out: the part meets die V12-200"));
}

}  // namespace tinwright::test
