// SPDX-License-Identifier: GPL-3.0-or-later
// A third kind of machine, defined here and nowhere else: a clamp over a straight edge. Bars are screwed down on the
// sheet and what stands out in front is bent up with a hand lever; nothing is driven, so nothing is under what goes up.
// The engine folds on it as on the kinds that the program ships. On the bed and with the bars of a leaf brake nothing
// more is in the way than there: what the leaf brake folds, the clamp folds.
#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <numbers>

#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/geometry/polygons.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/part/developing/develop.h>

#include "machine/machine.h"
#include "machine/machine_sections.h"
#include "random_states.h"

using namespace tinwright;

namespace {

class HandClamp final : public Machine {
public:
    HandClamp(const BrakeInSetup& brake, double thickness_mm)
        : Machine(brake, thickness_mm, Vec2(brake.inside_radius_mm(), thickness_mm + brake.inside_radius_mm())) {
        under_ = {{addBody(BodyRef::Kind::kBed, BodyKind::kBed,
                           {shifted(brake_->leaf().bed, Vec2(-brake_.setback_mm(), 0))})}};
        over_ = {{}};
        face_names_ = {""};
        addFamilies([&](ToolId tool, ToolFamily& family) {
            family.depth_mm = brake_->bar(tool)->clamp_depth_mm;
            family.high = addBody(BodyRef::Kind::kBar, BodyKind::kBarHigh, {family.section});
        });
    }

    [[nodiscard]] double stripBack_mm(double) const override { return brake_.inside_radius_mm(); }
    // Nothing is driven: what is asked of it is never used, but has to be something.
    [[nodiscard]] DrivenMotions fromDriven(const Swing& swing, const Swing&, std::size_t) const override {
        return {Motion::still(), Motion::swing(swing), Motion::still()};
    }
    [[nodiscard]] double overDriven_mm(const DrivenView&, const BendMotions&, const std::vector<Vec3>&) const override {
        return std::numeric_limits<double>::infinity();
    }
    [[nodiscard]] bool drivenSees(const DrivenView&, const BendMotions&, double, double) const override {
        return false;
    }
    [[nodiscard]] bool drivenBears(const DrivenView&, bool) const override { return false; }

    [[nodiscard]] bool comesDownLate(double set_rad) const override { return set_rad > 0.5 * std::numbers::pi; }
    [[nodiscard]] double mostAngle_rad() const override { return 0.75 * std::numbers::pi; }
    [[nodiscard]] bool reaches(double set_rad) const override { return set_rad <= mostAngle_rad() + 1e-9; }
    // The nose keeps out of the bent strip.
    [[nodiscard]] bool fits(std::size_t family, std::size_t, const BendMotions&,
                            const StripSlices& strip) const override {
        const std::vector<Convex2>& nose = bodies_[families_[family].high].section;
        return std::all_of(strip.bent().begin(), strip.bent().end(), [&](const Solid& slice) {
            return std::all_of(nose.begin(), nose.end(),
                               [&](const Convex2& piece) { return apart(slice.section(), piece); });
        });
    }
    [[nodiscard]] FlatDepth flatDepth(const BendMotions&, double clamped_land_mm) const override {
        return {std::max(0.01, clamped_land_mm - brake_.inside_radius_mm()), {}};
    }
};

// No beam, bars with square ends, loose: all that a clamp is of it.
Brake plain(Brake brake) {
    LeafBrake& leaf = brake.leaf();
    leaf.clamp = ClampKind::kLooseBars;
    leaf.beam.reset();
    leaf.max_leaf_angle = Angle::radians(0.75 * std::numbers::pi);
    for (Bar& bar : leaf.bars) bar.end_relief_mm = bar.end_relief_height_mm = 0;
    return brake;
}

struct OnBoth {
    OnBoth(const Part& part, const Shop& shop, const BrakeInSetup& brake)
        : leaf(part, shop, brake), clamp(part, shop, std::make_unique<HandClamp>(brake, part.thickness_mm)) {}
    FoldEngine leaf;
    FoldEngine clamp;
};

constexpr const char* kOffset = R"({"format":"tinwright-part/1","units":"mm","name":"offset",
  "sheet":{"material":"mild-steel","thickness":1},"allowance":{"rule":"k-factor","k":0.42},"inside_radius":1,
  "measured":"outside","base":{"name":"plate","width":60,"depth":120},
  "flanges":[{"name":"wall","on":"plate.front","length":25},
             {"name":"lip","on":"wall.far","length":20,"direction":"down"}]})";

// Every stroke of every state, till one way through all of them ends with all folded.
bool foldsAll(FoldEngine& engine, BendMask formed, BendMask all) {
    if (formed == all) return true;
    bool listed = true;
    for (const ListedStroke& each : engine.strokes(formed, listed)) {
        if (engine.check(formed, each.stroke).answer != StrokeAnswer::kPossible) continue;
        if (foldsAll(engine, formed | each.stroke.bends, all)) return true;
    }
    return false;
}

}  // namespace

TEST_CASE("a third kind of machine: a small part is folded on a hand clamp") {
    const Result<Shop> shop = readShop(TINWRIGHT_SOURCE_DIR "/tests/plan/data/shipped-shop.json");
    REQUIRE(shop);
    const Result<Recipe> recipe = readRecipe(kOffset, "recipe");
    REQUIRE(recipe);
    const Result<Part> part = develop(recipe.value());
    REQUIRE(part);
    const BrakeInSetup brake = inSetup(plain(shop.value().brakes[0]), part.value().thickness_mm);
    OnBoth on(part.value(), shop.value(), brake);
    CHECK(foldsAll(on.clamp, 0, 0b11));

    // The lip, folded first, hangs down in front of the edge: where the leaf would be.
    const BendId wall = part.value().bends[0].name == "wall" ? BendId{0} : BendId{1};
    const BendId lip = wall == BendId{0} ? BendId{1} : BendId{0};
    const Stroke stroke{bit(wall), Side::kParent};
    const StrokeResult result = on.clamp.check(bit(lip), stroke);
    REQUIRE(result.answer == StrokeAnswer::kPossible);
    const FoldStep step = on.clamp.describe(bit(lip), stroke, result);
    CHECK(step.leaf_face.empty());
    CHECK_FALSE(step.tools.empty());
    CHECK(step.depth_mm == 0);
    CHECK(on.clamp.clearance(bit(lip), stroke, result).gap_mm > 0);

    // And what cannot be done is explained, and laid to few bends.
    int refused = 0;
    for (BendMask formed = 0; formed < 0b11; ++formed) {
        bool listed = true;
        for (const ListedStroke& each : on.clamp.strokes(formed, listed)) {
            if (on.clamp.check(formed, each.stroke).answer != StrokeAnswer::kImpossible) continue;
            ++refused;
            CHECK_FALSE(on.clamp.explain(formed, each.stroke).empty());
            CHECK((on.clamp.conflictSet(formed, each.stroke).formed & ~formed) == 0);
        }
    }
    INFO(refused << " strokes refused");
    CHECK(refused > 0);
}

TEST_CASE("a third kind of machine: what a leaf brake folds, a clamp on the same edge folds") {
    int both = 0, clamp_only = 0, neither = 0;
    for (std::uint64_t seed = 910'000; seed < 910'400; ++seed) {
        random_states::Case what = random_states::randomCase(seed);
        what.shop.brakes[0] = plain(what.shop.brakes[0]);
        random_states::Dice dice(seed);
        OnBoth on(what.part, what.shop, what.brake());
        for (int i = 0; i < 4; ++i) {
            const random_states::State state = random_states::randomState(what.part, dice);
            const Stroke stroke{bit(state.bend), state.hold};
            const bool leaf = on.leaf.check(state.formed, stroke).answer == StrokeAnswer::kPossible;
            const bool clamp = on.clamp.check(state.formed, stroke).answer == StrokeAnswer::kPossible;
            CAPTURE(seed, state.formed, state.bend.index(), state.hold);
            CHECK((clamp || !leaf));
            ++(leaf ? both : clamp ? clamp_only : neither);
        }
    }
    INFO(both << " on both, " << clamp_only << " on the clamp only, " << neither << " on neither");
    CHECK(both > 100);
    CHECK(clamp_only > 10);
    CHECK(neither > 100);
}
