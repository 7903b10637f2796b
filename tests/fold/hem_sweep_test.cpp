// SPDX-License-Identifier: GPL-3.0-or-later
// The return of a hem on its way down stays within what is asked about: between where the first fold leaves it and
// where it ends, by any way that turns it from one to the other with its near edge in between.

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/part/developing/develop.h>

#include "hems/hem_sweep.h"
#include "random_states.h"

using namespace tinwright;

namespace {

constexpr double kOff_mm = 1e-6;

bool isIn(const Solid& solid, const Vec3& point) {
    for (const Solid::Face& face : solid.faces()) {
        if (face.normal.dot(point) > face.offset + kOff_mm) return false;
    }
    return true;
}

bool isInAny(const std::vector<Solid>& solids, const Vec3& point) {
    return std::any_of(solids.begin(), solids.end(), [&](const Solid& solid) { return isIn(solid, point); });
}

Recipe hemRecipe(random_states::Dice& dice) {
    Recipe recipe;
    recipe.name = "hem";
    recipe.sheet.material = "mild-steel";
    recipe.sheet.thickness_mm = dice.between(0.6, 3);
    recipe.inside_radius_mm = 1;
    recipe.measured = Measured::kOutside;
    recipe.base.width = Dimension::of(100);
    recipe.base.depth = Dimension::of(80);
    Flange rim;
    rim.name = "rim";
    rim.on = "base.front";
    rim.length = Dimension::of(dice.between(12, 30));
    rim.hem_gap_mm = dice.chance(0.5) ? 0 : dice.between(0.2, 5);
    rim.up = dice.chance(0.5);
    rim.left_mitre_deg = dice.between(-20, 45);
    rim.right_mitre_deg = dice.between(-20, 45);
    recipe.flanges.push_back(rim);
    return recipe;
}

}  // namespace

TEST_CASE("a return on its way down stays within the prisms that are asked about") {
    const Result<Shop> shop = readShop(TINWRIGHT_SOURCE_DIR "/tests/plan/data/shipped-shop.json");
    REQUIRE(shop);
    Brake machine = shop.value().brakes[0];
    machine.leaf().hem_thickness_mm = 5;
    random_states::Dice dice(77);
    int points = 0;
    for (int i = 0; i < 60; ++i) {
        const Result<Part> part = develop(hemRecipe(dice));
        REQUIRE(part);
        const BrakeInSetup brake = inSetup(machine, part.value().thickness_mm);
        const PartOnBrake folded_on_brake = partOnBrake(part.value(), shop.value(), brake);
        const Part& folded = folded_on_brake.part();
        REQUIRE_FALSE(whyNoHem(folded_on_brake, shop.value(), brake, BendId{0}));
        const ContactCache table(folded_on_brake, shop.value(), brake);
        const HemSweep sweep = sweepOfHem(table, BendId{0});
        const Bend& bend = folded.bends[0];
        const Bend closed = finished(bend);
        const Rigid frame = table.geometry().bendFrame(BendId{0}, Side::kChild);
        const Rigid first = frame * parentFromChild(bend, folded.thickness_mm, bend.angle, bend.inside_radius_mm);
        const Rigid last = frame * parentFromChild(closed, folded.thickness_mm, closed.angle, closed.inside_radius_mm);
        const Vec2 edge = bend.origin + 0.5 * bend.allowance_mm * bend.toward_child;
        const Vec3 near(edge.x(), edge.y(), bend.up ? folded.thickness_mm : 0);
        const std::vector<Polygon> pieces = convexPieces(folded.panels[1].region);
        for (int k = 0; k < 200; ++k) {
            const double share = dice.between(0, 1);
            const double angle = bend.angle.rad() + (std::numbers::pi - bend.angle.rad()) * dice.between(0, 1);
            Rigid pose =
                frame * parentFromChild(bend, folded.thickness_mm, Angle::radians(angle), bend.inside_radius_mm);
            pose.pretranslate(Vec3((1 - share) * (first * near) + share * (last * near) - pose * near));
            const Polygon& outline = pieces[static_cast<std::size_t>(dice.below(static_cast<int>(pieces.size())))];
            Vec2 at = Vec2::Zero();
            double all = 0;
            for (const Vec2& corner : outline) {
                const double weight = dice.chance(0.4) ? 0 : dice.between(0, 1);
                at += weight * corner;
                all += weight;
            }
            if (all <= 0) continue;
            at /= all;
            const Vec3 point = pose * Vec3(at.x(), at.y(), dice.between(0, folded.thickness_mm));
            CAPTURE(i, k, share, angle, point.transpose());
            CHECK(isInAny(sweep.swept, point));
            if (k == 0) CHECK((first * near).z() <= sweep.stands_mm);
            ++points;
        }
    }
    CHECK(points > 8'000);
}

TEST_CASE("the return of a hem ends a gap over its parent, as deep as it is told") {
    const Result<Shop> shop = readShop(TINWRIGHT_SOURCE_DIR "/tests/plan/data/shipped-shop.json");
    REQUIRE(shop);
    const Brake& machine = shop.value().brakes[0];
    random_states::Dice dice(78);
    for (int i = 0; i < 20; ++i) {
        const Recipe recipe = hemRecipe(dice);
        const Result<Part> part = develop(recipe);
        REQUIRE(part);
        const BrakeInSetup brake = inSetup(machine, part.value().thickness_mm);
        const PartOnBrake folded_on_brake = partOnBrake(part.value(), shop.value(), brake);
        const Part& folded = folded_on_brake.part();
        const ContactCache table(folded_on_brake, shop.value(), brake);
        const HemSweep sweep = sweepOfHem(table, BendId{0});
        double low = 1e9, high = -1e9, front = 1e9;
        for (const Solid& solid : sweep.closed) {
            for (const Vec3& corner : solid.corners()) {
                low = std::min(low, corner.z());
                high = std::max(high, corner.z());
                front = std::min(front, corner.y());
            }
        }
        const double t = recipe.sheet.thickness_mm;
        const double gap_mm = *recipe.flanges[0].hem_gap_mm;
        CHECK(low == Approx(t + gap_mm));
        CHECK(high == Approx(2 * t + gap_mm));
        // The recipe measures it outside, from the outside of the fold.
        CHECK(hemDepth_mm(folded, BendId{0}) == Approx(recipe.flanges[0].length.value_mm));
        const double line_y = (table.geometry().bendFrame(BendId{0}, Side::kChild) *
                               Vec3(folded.bends[0].origin.x(), folded.bends[0].origin.y(), 0))
                                  .y();
        const double crest = line_y - 0.5 * folded.bends[0].hem->allowance_mm + 0.5 * gap_mm + t;
        CHECK(crest - front == Approx(recipe.flanges[0].length.value_mm));
    }
}
