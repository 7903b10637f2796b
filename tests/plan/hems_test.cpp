// SPDX-License-Identifier: GPL-3.0-or-later
// Parts with hems: planned and replayed by the independent verifier, at limits that a hand calculation knows, and
// refused for the stated reason.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/sequence/plan/split_plan.h>
#include <tinwright/verify/replay/verify.h>

#include "../one_vee.h"
#include "plan_support.h"
#include "random_states.h"

namespace tinwright::test {

namespace {

using Catch::Matchers::Contains;

std::string recipe(double thickness_mm, const std::string& flanges, double width_mm = 200, double depth_mm = 120) {
    return fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"hemmed","sheet":{{"material":"mild-steel","thickness":{}}},)"
        R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1,"measured":"outside",)"
        R"("base":{{"name":"floor","width":{},"depth":{}}},"flanges":[{}]}})",
        thickness_mm, width_mm, depth_mm, flanges);
}

std::string rim(double return_mm, const std::string& on = "floor.front", double gap_mm = 0) {
    return fmt::format(R"({{"name":"rim","on":"{}","length":{},"hem":{{"gap":{}}}}})", on, return_mm, gap_mm);
}

// A tray open at both ends with a hem on its front wall.
Part tray() {
    return partFrom(recipe(1, R"({"name":"front","on":"floor.front","length":40},)" + rim(10, "front.far") +
                                  R"(,{"name":"back","on":"floor.back","length":40})"));
}

Shop press(const std::string& name) {
    const Result<Shop> read = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/" + name + ".json");
    INFO((read ? std::string() : toText(read.issues().front())));
    REQUIRE(read);
    return read.value();
}

Shop inFirstVee(Shop shop, const Part& part) {
    shop.brakes[0] = test::onlyVee(shop.brakes[0], *test::inUse(part, shop.brakes[0]).vee());
    return shop;
}

Shop leafShop(const std::string& name, double hem_thickness_mm) {
    Shop shop = shippedShop();
    Brake brake = shop.brakes[brakeNamed(shop, name)];
    brake.leaf().hem_thickness_mm = hem_thickness_mm;
    shop.brakes = {brake};
    return shop;
}

// How high a return stands after its first fold: from the sheet's lower face over the arc and along the return to the
// corner of its outer face.
double standsByHand_mm(double return_mm, double thickness_mm, double radius_mm, double angle_deg) {
    const double a = Angle::degrees(angle_deg).rad();
    const double closed_strip = M_PI * 0.5 * thickness_mm;
    const double first_strip = a * (radius_mm + 0.5 * thickness_mm);  // a closed hem carries the k of 0.5
    const double flat = return_mm - thickness_mm + 0.5 * closed_strip - 0.5 * first_strip;
    return thickness_mm + radius_mm - radius_mm * std::cos(a) + flat * std::sin(a) - thickness_mm * std::cos(a);
}

std::string wordsOf(const std::vector<ReplayFinding>& findings) {
    std::string words;
    for (const ReplayFinding& finding : findings) words += finding.words + "\n";
    return words;
}

std::size_t foldOf(const Plan& plan, const Part& part, const std::string& bend) {
    for (std::size_t i = 0; i < plan.folds.size(); ++i) {
        if (plan.folds[i].stroke.first() == bendNamed(part, bend)) return i;
    }
    return plan.folds.size();
}

}  // namespace

TEST_CASE("a tray with a hemmed rim goes on folders whose clamp closes hems, the hem before its wall") {
    const Part part = tray();
    for (const char* name : {"M100", "B", "L"}) {
        INFO(name);
        const BrakeResult result = planVerified(part, leafShop(name, 1.2), 0);
        REQUIRE(result.verdict == Verdict::kFeasible);
        for (const Plan& plan : result.plans) {
            CHECK(foldOf(plan, part, "rim") < foldOf(plan, part, "front"));
            for (const FoldStep& step : plan.folds)
                CHECK(step.closing.has_value() == (step.stroke.first() == bendNamed(part, "rim")));
        }
        const FoldStep& hem = result.plans[0].folds[foldOf(result.plans[0], part, "rim")];
        // The bars' nose of 45° lets a return up to 135° beside it, short of that by a hair; 3° of it for springback:
        // 131°.
        CHECK(hem.angle.deg() == Approx(131));
        CHECK(hem.closing->height_mm == Approx(2));
        CHECK(hem.closing->inserted_mm == Approx(10 + 1));
        CHECK(hem.closing->stands_mm == Approx(standsByHand_mm(10, 1, 1, 131)).margin(1e-6));
    }
}

TEST_CASE("a tray with a hemmed rim goes on a press brake whose dies close hems, and on no other") {
    const Part part = tray();
    const BrakeResult with_jaw = planVerified(part, inFirstVee(press("press-hem"), part), 0);
    REQUIRE(with_jaw.verdict == Verdict::kFeasible);
    const FoldStep& hem = with_jaw.plans[0].folds[foldOf(with_jaw.plans[0], part, "rim")];
    CHECK(hem.angle.deg() == Approx(146));  // short of 180° less the 30° of the V, and 3° of springback
    REQUIRE(hem.closing);
    CHECK(hem.closing->front_mm == Approx(-20));  // the die is 40 thick

    const Shop acute = inFirstVee(press("press-acute"), part);
    const BrakeResult without = planVerified(part, acute, 0);
    CHECK(without.verdict == Verdict::kInfeasible);
    CHECK(hasReason(without, ReasonCode::kNoHem));
    CHECK_THAT(wordsOf(part, acute, without.brake, without.reasons), Contains("no die of this brake has a jaw"));
}

// The first fold of a hem takes a wider strip than the closed hem has: the sheet beside a hem that is narrower than its
// edge laps that strip, and lies on the die as it is bent.
TEST_CASE("a hem narrower than its edge goes on a press brake, with dies under the sheet beside it") {
    const Part part = partFrom(
        recipe(1, R"({"name":"rim","on":"floor.back","length":12,"from_left":25,"from_right":130,"hem":{"gap":0}})"));
    const Shop shop = inFirstVee(press("press-hem"), part);
    const BrakeResult result = planVerified(part, shop, 0, 1);
    REQUIRE(result.verdict == Verdict::kFeasible);
    Plan plan = result.plans[0];
    const std::vector<StripSpan>& spans = part.bend(plan.folds[0].stroke.first()).spans;
    const double length_mm = spans.back().to_mm - spans.front().from_mm;
    double from_mm = 0;
    double to_mm = length_mm;
    for (const PlacedTool& piece : plan.folds[0].tools) {
        if (shop.brakes[0].die(piece.tool) == nullptr) continue;
        from_mm = std::min(from_mm, piece.from_mm);
        to_mm = std::max(to_mm, piece.to_mm);
    }
    CHECK(to_mm - from_mm > length_mm + 1);
    // It keeps from the other half of the die, but not by more than the plan says.
    CHECK(plan.worst_clearance_mm >= shop.limits.clearance_mm);
    plan.folds[0].clearance_mm += 2;
    CHECK_THAT(wordsOf(verifyPlan(part, shop, test::inUse(part, shop.brakes[0]), plan, 0)),
               Contains("panel floor comes nearer to die"));
}

TEST_CASE("hems are refused where the shop file does not say that the clamp closes them, or only in thinner sheet") {
    const Part part = tray();
    const Shop unsaid_shop = leafShop("M100", 0);
    const BrakeResult unsaid = planVerified(part, unsaid_shop, 0);
    CHECK(unsaid.verdict == Verdict::kInfeasible);
    CHECK(hasReason(unsaid, ReasonCode::kNoHem));
    CHECK_THAT(wordsOf(part, unsaid_shop, unsaid.brake, unsaid.reasons),
               Contains("does not say that this brake's clamp closes hems"));
    const Shop thin_shop = leafShop("M100", 0.9);
    const BrakeResult thin = planVerified(part, thin_shop, 0);
    CHECK(thin.verdict == Verdict::kInfeasible);
    CHECK_THAT(wordsOf(part, thin_shop, thin.brake, thin.reasons), Contains("closes hems in sheet up to 0.9 mm"));
    CHECK(planVerified(part, leafShop("M100", 1.0), 0).verdict == Verdict::kFeasible);
}

TEST_CASE("a leaf that does not go far enough folds no hem that can be pressed flat") {
    const Part part = partFrom(recipe(1, rim(10)));
    Shop shop = leafShop("M100", 1);
    shop.brakes[0].leaf().max_leaf_angle =
        Angle::degrees(kLeastFirstFold_deg + shop.overbendFor_deg("mild-steel", shop.brakes[0]) + 0.1);
    CHECK(planVerified(part, shop, 0).verdict == Verdict::kFeasible);
    shop.brakes[0].leaf().max_leaf_angle =
        Angle::degrees(kLeastFirstFold_deg + shop.overbendFor_deg("mild-steel", shop.brakes[0]) - 0.1);
    const BrakeResult result = planVerified(part, shop, 0);
    CHECK(result.verdict == Verdict::kInfeasible);
    CHECK_THAT(wordsOf(part, shop, result.brake, result.reasons), Contains("folds it to 119° at most"));
}

// Half a millimetre over the return is wanted.
TEST_CASE("a beam opens far enough for the return to get under, or does not") {
    const Part part = partFrom(recipe(1, rim(16)));
    Shop shop = leafShop("B", 1);
    const double radius_mm = shop.brakes[0].leaf().nose_radius_mm;
    const double wanted_mm = standsByHand_mm(16, 1, radius_mm, 131) + 0.5 - part.thickness_mm;
    shop.brakes[0].leaf().opening_mm = wanted_mm + 0.05;
    CHECK(planVerified(part, shop, 0).verdict == Verdict::kFeasible);
    shop.brakes[0].leaf().opening_mm = wanted_mm - 0.05;
    const BrakeResult result = planVerified(part, shop, 0);
    CHECK(result.verdict == Verdict::kInfeasible);
    CHECK(hasReason(result, ReasonCode::kNotClosed));
    CHECK_THAT(wordsOf(part, shop, result.brake, result.reasons), Contains("what would close it opens to"));
}

// The return within the flats by 1 mm, and 1 mm behind the fold.
TEST_CASE("a jaw is deep enough for a hem, or is not") {
    const Part part = partFrom(recipe(1, rim(12)));
    Shop shop = inFirstVee(press("press-hem"), part);
    const auto deep = [&](double depth_mm) {
        for (Die& die : shop.brakes[0].press().dies) {
            if (die.jaw) die.jaw->depth_mm = depth_mm;
        }
    };
    deep(12 + 2 + 0.05);
    CHECK(planVerified(part, shop, 0).verdict == Verdict::kFeasible);
    deep(12 + 2 - 0.05);
    const BrakeResult result = planVerified(part, shop, 0);
    CHECK(result.verdict == Verdict::kInfeasible);
    CHECK_THAT(wordsOf(part, shop, result.brake, result.reasons), Contains("the hem is 12.0 mm deep"));
}

// On its other face the part no longer lies flat under a bar as long as the machine: the hem is in the way.
TEST_CASE("a closed hem stands off the bed when the part is turned over") {
    const Part part =
        partFrom(recipe(1, rim(10) + R"(,{"name":"side","on":"floor.left","length":30,"direction":"down"})"));
    const Shop solid_shop = leafShop("L", 1);
    const BrakeResult solid = planVerified(part, solid_shop, 0);
    CHECK(solid.verdict == Verdict::kInfeasible);
    CHECK_THAT(wordsOf(part, solid_shop, solid.brake, solid.reasons), Contains("rim hits the"));
    // With ends to hang past, the hem lies beside the bed: the bend then ends some millimetres past it.
    Shop past_end = leafShop("M100", 1);
    CHECK(planVerified(part, past_end, 0).verdict != Verdict::kFeasible);
    past_end.limits.past_machine_mm = 5;
    CHECK(planVerified(part, past_end, 0).verdict == Verdict::kFeasible);
}

TEST_CASE("an open hem keeps its gap, and is as high as two sheets and that") {
    const Part part = partFrom(recipe(0.8, rim(12, "floor.front", 2)));
    const BrakeResult result = planVerified(part, leafShop("M100", 1), 0);
    REQUIRE(result.verdict == Verdict::kFeasible);
    CHECK(result.plans[0].folds[0].closing->height_mm == Approx(3.6));
    CHECK(part.bends[0].allowance_mm == Approx(M_PI * (1 + 0.44 * 0.8)));
}

TEST_CASE("hems on all four edges go, in any order that leaves room between the returns for the bars") {
    std::string flanges;
    const char* const sides[] = {"front", "right", "back", "left"};
    std::string corners;
    for (int i = 0; i < 4; ++i) {
        flanges += fmt::format(
            R"({}{{"name":"h{}","on":"floor.{}","length":7,"hem":{{"gap":0}},"left_mitre":45,"right_mitre":45}})",
            i > 0 ? "," : "", i, sides[i]);
        corners +=
            fmt::format(R"({}{{"between":["h{}","h{}"],"type":"open","gap":1,"relief":{{"shape":"square","size":6}}}})",
                        i > 0 ? "," : "", i, (i + 1) % 4);
    }
    std::string text = recipe(0.8, flanges, 300, 200);
    text.insert(text.size() - 1, fmt::format(R"(,"corners":[{}])", corners));
    const Part part = partFrom(text);
    const BrakeResult folder = planVerified(part, leafShop("M100", 1), 0);
    CHECK(folder.verdict == Verdict::kFeasible);
    CHECK(folder.orders_feasible == "24");
    CHECK(planVerified(part, inFirstVee(press("press-hem"), part), 0).verdict == Verdict::kFeasible);
}

TEST_CASE("hems are not shown to hold over the tolerances, and are told so") {
    const Part part = tray();
    const Shop shop = leafShop("M100", 1);
    PlanOptions options;
    options.robust = true;
    const BrakeResult result = planOnBrake(part, shop, 0, options);
    CHECK(result.verdict != Verdict::kFeasible);
    const BrakeResult plain = planOnBrake(part, shop, 0, {});
    for (const FoldStep& step : plain.plans[0].folds) CHECK_FALSE(step.over_tolerances.looked_at);
}

// Its edge is longer than the folder, its hook a U deeper than the punches let in, and only the folder closes hems.
TEST_CASE("a part whose hem is closed on the folder and whose edge is bent on the press brake") {
    const Result<Shop> read = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/folder-and-press.json");
    REQUIRE(read);
    Shop shop = read.value();
    shop.brakes[0].leaf().hem_thickness_mm = 1.5;
    const Part part = partFrom(
        R"({"format":"tinwright-part/1","units":"mm","name":"shelf with a hemmed tab","sheet":{"material":"mild-steel","thickness":1.5},)"
        R"("allowance":{"rule":"k-factor","k":0.44},"inside_radius":1.6,"measured":"outside",)"
        R"("base":{"name":"shelf","width":1300,"depth":100},"flanges":[{"name":"edge","on":"shelf.front","length":25},)"
        R"({"name":"tab","on":"shelf.back","length":60,"from_left":550,"width":200},{"name":"rim","on":"tab.far","length":12,"hem":{"gap":0}}]})");
    shop.brakes[1] = test::onlyVee(shop.brakes[1], *test::inUse(part, shop.brakes[1]).vee());
    CHECK(planOnBrake(part, shop, 0, {}).verdict == Verdict::kInfeasible);
    CHECK(planOnBrake(part, shop, 1, {}).verdict == Verdict::kInfeasible);
    const std::optional<SplitPlan> split = planOnTwo(part, shop, {0, 1}, test::inUse(part, shop), {});
    REQUIRE(split);
    std::vector<BrakeInSetup> brakes;
    for (const std::size_t brake : split->brake_of_fold) brakes.push_back(split->setupOf(brake));
    for (std::size_t i = 0; i < split->plan.folds.size(); ++i) {
        if (split->plan.folds[i].closing) CHECK(split->brake_of_fold[i] == 0);
    }
    for (const ReplayFinding& finding : verifyPlan(part, shop, brakes, split->plan, 0)) FAIL_CHECK(finding.words);
}

// A sound plan, and the same with one thing wrong each.
TEST_CASE("the replay finds what is wrong with the closing of a hem") {
    const Part part = tray();
    for (const bool on_press : {false, true}) {
        const Shop shop = on_press ? inFirstVee(press("press-hem"), part) : leafShop("B", 1);
        const Plan sound = planVerified(part, shop, 0, 1).plans.at(0);
        const std::size_t at = foldOf(sound, part, "rim");
        const auto found = [&](const auto& change) {
            Plan plan = sound;
            change(plan.folds[at]);
            return wordsOf(verifyPlan(part, shop, test::inUse(part, shop.brakes[0]), plan, 0));
        };
        INFO((on_press ? "press brake" : "finger brake"));
        CHECK(found([](FoldStep&) {}) == "");
        CHECK_THAT(found([](FoldStep& step) { step.closing.reset(); }), Contains("the hem is never closed"));
        CHECK_THAT(found([](FoldStep& step) { step.closing->part_x_mm += 30; }), Contains("is open for"));
        CHECK_THAT(found([](FoldStep& step) { step.closing->inserted_mm -= 3; }), Contains("how far it is pushed in"));
        CHECK_THAT(found([](FoldStep& step) { step.closing->height_mm += 0.5; }),
                   Contains("the height of the closed hem"));
        CHECK_THAT(found([](FoldStep& step) { step.closing->stands_mm -= 2; }), Contains("how high the return stands"));
        CHECK_THAT(found([](FoldStep& step) { step.closing->front_mm += 1; }), Contains("where the flats begin"));
        CHECK_THAT(found([](FoldStep& step) { step.closing->turned = !step.closing->turned; }), Contains("turned"));
        CHECK_THAT(found([](FoldStep& step) { step.angle = Angle::degrees(120); }), Contains("is to be folded to"));
        Plan other = sound;
        other.folds[1 - std::min<std::size_t>(at, 1)].closing = sound.folds[at].closing;
        CHECK_THAT(wordsOf(verifyPlan(part, shop, test::inUse(part, shop.brakes[0]), other, 0)),
                   Contains("something is to be closed that is no hem"));
        Shop thin = shop;
        Brake& brake = thin.brakes[0];
        if (brake.isPress()) {
            for (Die& die : brake.press().dies) {
                if (die.jaw) die.jaw->hem_thickness_mm = 0.9;
            }
        } else {
            brake.leaf().hem_thickness_mm = 0.9;
        }
        CHECK_THAT(wordsOf(verifyPlan(part, thin, test::inUse(part, thin.brakes[0]), sound, 0)),
                   Contains("closes hems in sheet up to 0.9 mm"));
    }
}

// A second flange over the return's way: drawn so that the hem cannot come down past it once that is folded.
TEST_CASE("the replay finds what the return meets on its way down, and tools in the way of the part") {
    const Part part =
        partFrom(recipe(1, rim(14) + R"(,{"name":"side","on":"floor.left","length":30,"from_left":0,"from_right":2})"));
    Shop shop = leafShop("M100", 1);
    const BrakeResult result = planVerified(part, shop, 0, 1);
    REQUIRE(result.verdict == Verdict::kFeasible);
    Plan plan = result.plans[0];
    const std::size_t at = foldOf(plan, part, "rim");
    const FoldStep hem = plan.folds[at];
    // The same closing with the wall standing beside the bars, pushed under them.
    plan.folds = {hem};
    plan.folds[0].closing->part_x_mm -= 40;
    const std::string words =
        wordsOf(verifyPlan(part, shop, test::inUse(part, shop.brakes[0]), plan, bit(bendNamed(part, "side"))));
    CHECK_THAT(words, Contains("closing: bar") && Contains("meets panel side"));
}

TEST_CASE("plans of random parts with hems hold in the independent replay") {
    int plans = 0;
    int closed = 0;
    const auto take = [&](const Part& part, const Shop& shop) {
        const BrakeResult result = planVerified(part, shop, 0, 1);
        for (const Plan& plan : result.plans) {
            ++plans;
            for (const FoldStep& step : plan.folds) closed += step.closing ? 1 : 0;
        }
    };
    for (std::uint64_t seed = 940'000; seed < 940'150; ++seed) {
        random_states::Case what = random_states::randomCase(seed);
        random_states::Dice dice(seed);
        if (!random_states::makeHem(what.part, dice)) continue;
        Brake& brake = what.shop.brakes[0];
        random_states::letCloseHems(brake);
        std::vector<LeafFace>& faces = brake.leaf().leaf_faces;
        for (std::size_t face = 0; face < faces.size(); ++face) faces[face].name = fmt::format("face {}", face);
        CAPTURE(seed);
        take(what.part, what.shop);
        what.part.thickness_mm = std::min(what.part.thickness_mm, 1.5);
        if (seed % 4 == 0) take(what.part, inFirstVee(press("press-hem"), what.part));
    }
    CHECK(plans > 4);
    CHECK(closed == plans);
}

}  // namespace tinwright::test
