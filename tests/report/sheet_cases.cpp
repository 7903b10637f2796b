// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet_cases.h"

#include <random>

#include <catch2/catch.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_profile.h>
#include <tinwright/brake/tooling/die_profile.h>
#include <tinwright/brake/tooling/punch_profile.h>
#include <tinwright/part/developing/develop.h>
#include <tinwright/part/edges/section.h>

namespace tinwright::sample {
namespace {

Bar bar(const char* id, double width_mm) {
    Bar made;
    made.id = id;
    made.width_mm = width_mm;
    made.clamp_depth_mm = 50;
    made.height_mm = 25;
    made.profile = barSection({Angle::degrees(45), 1, 50, 25, {}, {}});
    made.count = 4;
    return made;
}

class Random {
public:
    explicit Random(unsigned seed) : engine_(seed) {}
    double whole(double least, double most) {
        return std::round(std::uniform_real_distribution<double>(least, most)(engine_));
    }
    int count(int least, int most) { return std::uniform_int_distribution<int>(least, most)(engine_); }

private:
    std::mt19937 engine_;
};

Part section(Random& random) {
    Section made;
    const int bends = random.count(1, 6);
    for (int i = 0; i <= bends; ++i) made.flats_mm.push_back(random.whole(8, 120));
    for (int i = 0; i < bends; ++i)
        made.angles_deg.push_back(random.whole(20, 120) * (random.count(0, 2) > 0 ? 1 : -1));
    made.length_mm = random.whole(20, 900);
    return sectionPart(made);
}

Dimension length(double value_mm) { return Dimension::of(value_mm); }

void addCutOuts(Recipe& recipe, Random& random) {
    const int count = random.count(0, 4);
    for (int i = 0; i < count; ++i) {
        CutOut hole;
        hole.name = "hole" + std::to_string(i);
        hole.on = "floor";
        hole.shape = i % 2 == 0 ? CutOutShape::kCircle : CutOutShape::kRectangle;
        hole.diameter = length(random.whole(3, 8));
        hole.width = length(random.whole(5, 10));
        hole.height = length(random.whole(4, 10));
        hole.at[0] = {"left", Datum::kInside, length(12.0 + 14 * i), To::kCentre, {}};
        hole.at[1] = {"front", Datum::kInside, length(random.whole(10, 30)), To::kCentre, {}};
        recipe.cut_outs.push_back(hole);
    }
}

Part tray(Random& random) {
    Recipe recipe;
    recipe.name = "tray & <lid> \"2\"";
    recipe.sheet = {"mild-steel", 1.5, {}, {}, Film::kUnsaid};
    recipe.inside_radius_mm = 1;
    recipe.measured = Measured::kInside;
    recipe.base.name = "floor";
    recipe.base.width = length(random.whole(80, 400));
    recipe.base.depth = length(random.whole(60, 300));
    const double height = random.whole(15, 60);
    const char* const sides[] = {"front", "right", "back", "left"};
    for (int i = 0; i < 4; ++i) {
        Flange wall;
        wall.name = std::string("wall_") + sides[i];
        wall.on = std::string("floor.") + sides[i];
        wall.length = length(height);
        recipe.flanges.push_back(wall);
        Corner corner;
        corner.flange[0] = wall.name;
        corner.flange[1] = std::string("wall_") + sides[(i + 1) % 4];
        corner.gap = length(1);
        recipe.corners.push_back(corner);
    }
    if (random.count(0, 1) == 1) {
        Flange lip;
        lip.name = "a_lip_with_a_rather_long_name_that_has_to_be_cut_somewhere_or_so";
        lip.on = "wall_back.far";
        lip.length = length(random.whole(8, 15));
        lip.up = random.count(0, 1) == 1;
        recipe.flanges.push_back(lip);
    }
    addCutOuts(recipe, random);
    Result<Part> part = develop(recipe);
    for (const Issue& issue : part.issues()) UNSCOPED_INFO(toText(issue));
    REQUIRE(part.ok());
    return std::move(part).value();
}

constexpr double kPressWidths_mm[] = {30, 60, 100};

Tool pressPiece(const std::string& id, double width_mm, double height_mm, const Polygon& profile) {
    return {id, width_mm, height_mm, profile, 8};
}

/// Punches, the last with a horn at its left end, and as many dies.
void addPieces(const Vee& vee, PressBrake& press) {
    const PunchSection punch{Angle::degrees(85), 0.8, 65, 16, {}};
    for (const double width : kPressWidths_mm)
        press.punches.push_back(
            {pressPiece("P" + std::to_string(int(width)), width, punch.height_mm, punchSection(punch)), 0, {}, 0});
    press.punches.push_back(press.punches.back());
    press.punches.back().id = "P100L";
    press.punches.back().horn = Horn{30, 15, true};
    for (const double width : kPressWidths_mm)
        press.dies.push_back(
            {pressPiece("V12-" + std::to_string(int(width)), width, 60, dieSection({{{vee, 0, {}}}, 60, 28}, 0)),
             vee,
             {},
             0});
}

constexpr std::uint32_t kHornedPunch = 3;
constexpr std::uint32_t kWidePunch = 2;
constexpr std::uint32_t kWideDie = 6;

void standUp(FoldStep& step, const Brake& brake, double length_mm) {
    if (!brake.isPress()) {
        for (double x = 0; x < length_mm && step.tools.size() < 8; x += 100)
            step.tools.push_back({ToolId{3}, x, x + 100});
        return;
    }
    for (double x = 0; x < length_mm && step.tools.size() < 8; x += 100) {
        step.tools.push_back({ToolId{x > 0 ? kWidePunch : kHornedPunch}, x, x + 100});
        step.tools.push_back({ToolId{kWideDie}, x - 12, x + 88});
    }
    step.lift_in_mm = step.lift_out_mm = 60;
    step.way_out = {{ExitMove::Kind::kPartTilted, -1, {{0, 0, 12, 0}, {0, -20, 25, -35}, {0, -400, 30, -20}}}};
}

std::string edgeAlong(const Part& part, const Bend& bend, double& distance_mm) {
    for (const NamedEdge& edge : part.edges) {
        const Vec2 along = edge.to - edge.from;
        if (std::abs(along.dot(bend.toward_child)) > 1e-6) continue;
        distance_mm = std::abs((edge.from - bend.origin).dot(bend.toward_child));
        return edge.name;
    }
    return {};
}

}  // namespace

Shop smallShop() {
    Shop shop;
    shop.name = "shed";
    Brake brake;
    brake.name = "folder";
    brake.length_mm = 1000;
    brake.leaf().leaf_faces = {{"full", 25, 10}};
    brake.leaf().nose_radius_mm = 1;
    brake.leaf().bed = {Vec2(0, -60), Vec2(110, -60), Vec2(110, 0), Vec2(0, 0)};
    brake.leaf().bars = {bar("B30", 30), bar("B45", 45), bar("B60", 60), bar("B100", 100)};
    shop.brakes = {brake};
    return shop;
}

Shop pressShop() {
    Shop shop;
    shop.name = "shed";
    Brake brake;
    brake.name = "press";
    brake.length_mm = 1200;
    PressBrake press;
    press.bed = {Vec2(-30, -300), Vec2(30, -300), Vec2(30, 0), Vec2(-30, 0)};
    addPieces({12, Angle::degrees(40), 1.5}, press);
    press.ram = {Vec2(-20, 0),  Vec2(20, 0),    Vec2(20, 120),  Vec2(45, 120),
                 Vec2(45, 400), Vec2(-45, 400), Vec2(-45, 120), Vec2(-20, 120)};
    press.open_height_mm = 260;
    press.stroke_mm = 150;
    press.throat_mm = 150;
    press.frames_left_mm = 100;
    press.frames_right_mm = 1100;
    press.gauge = BackGauge{5, 500, 60};
    brake.kind = press;
    shop.brakes = {brake};
    return shop;
}

BrakeInSetup inUse(const Brake& brake, double thickness_mm) {
    constexpr double kPressRadius_mm = 2;
    return brake.isPress() ? inVee(brake, brake.press().dies.front().vee, kPressRadius_mm)
                           : inSetup(brake, thickness_mm);
}

Part randomPart(unsigned seed) {
    Random random(seed);
    return random.count(0, 1) == 0 ? section(random) : tray(random);
}

Plan anyPlan(const Part& part, const Brake& brake) {
    Plan plan;
    plan.rank = 1;
    plan.worst_clearance_mm = 0.7;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        FoldStep step;
        step.stroke.bends = bit(idAt<BendId>(i));
        step.stroke.hold = i % 2 == 0 ? Side::kParent : Side::kChild;
        step.held = {i % 2 == 0 ? bend.parent : bend.child};
        step.drawn_face_up = bend.up;
        step.turn_deg = i % 3 == 1 ? 90 : 0;
        step.flip = i > 0 && part.bends[i - 1].up != bend.up;
        step.part_x_mm = i % 4 == 3 ? 0 : 200;
        if (!brake.isPress()) step.leaf_face = brake.leaf().leaf_faces.front().name;
        const double length = bend.spans.back().to_mm - bend.spans.front().from_mm;
        standUp(step, brake, length);
        step.angle = bend.angle;
        step.set_angle = bend.angle + Angle::degrees(3);
        double line_mm = 0;
        step.sight_from_edge = edgeAlong(part, bend, line_mm);
        step.sight_mm = line_mm;
        step.clearance_mm = 0.7;
        step.clearance_between[0] = bend.child;
        step.clearance_between[1] = brake.isPress() ? BodyRef::Kind::kRam : BodyRef::Kind::kLeaf;
        step.clearance_at_deg = 45;
        plan.folds.push_back(step);
    }
    return plan;
}

PlanReport reportOf(const Part& part, const Shop& shop) {
    PlanReport report{part, shop, 0, Verdict::kFeasible, {}, {}, {}};
    BrakeReport brake;
    brake.result.brake = inUse(shop.brakes[0], part.thickness_mm);
    brake.result.verdict = Verdict::kFeasible;
    brake.result.plans = {anyPlan(part, shop.brakes[0])};
    report.brakes = {brake};
    return report;
}

}  // namespace tinwright::sample
