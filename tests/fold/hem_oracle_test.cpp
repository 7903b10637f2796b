// SPDX-License-Identifier: GPL-3.0-or-later
// Hems that the engine closes, gone through again by libfcl: nothing may hit. And what a hem's return goes through on
// its way down lies within what is asked about.

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <cstdlib>
#include <numbers>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/io/shop/shop_io.h>

#include "hem_again.h"
#include "hems/hem_sweep.h"
#include "oracle_model.h"
#include "random_states.h"
#include "swing_again.h"

using namespace tinwright;

namespace {

struct Tally {
    int closed = 0;
    int not_closed = 0;
    int other = 0;
};

void askStates(const Part& part, const Shop& shop, const BrakeInSetup& brake, BendId hem, random_states::Dice& dice,
               const std::string& what, Tally& tally) {
    FoldEngine engine(part, shop, brake);
    const PartOnBrake folded_on_brake = partOnBrake(part, shop, brake);
    const Part& folded = folded_on_brake.part();
    const oracle::Outlines outlines(folded);
    for (int i = 0; i < 4; ++i) {
        BendMask formed = 0;
        for (std::size_t b = 0; b < part.bends.size(); ++b) {
            if (b != hem.index() && dice.chance(0.4)) formed |= bit(idAt<BendId>(b));
        }
        const Side hold = kBothSides[static_cast<std::size_t>(dice.below(2))];
        INFO(fmt::format("{}, formed {:#x}, bend {}, hold {}", what, formed, hem.value, static_cast<int>(hold)));
        const Stroke stroke{bit(hem), hold};
        const StrokeResult result = engine.check(formed, stroke);
        if (result.code == ReasonCode::kNotClosed) ++tally.not_closed;
        if (result.answer != StrokeAnswer::kPossible) {
            tally.other += result.code == ReasonCode::kNotClosed ? 0 : 1;
            continue;
        }
        ++tally.closed;
        const FoldStep step = engine.describe(formed, stroke, result);
        REQUIRE(step.closing);
        CHECK(oracle::hitOnClosing(folded, outlines, brake, formed, step) == "");
    }
}

}  // namespace

TEST_CASE("Hems that a leaf brake closes are closed again by libfcl without a hit") {
    Tally tally;
    for (std::uint64_t seed = 910'000; seed < 910'900; ++seed) {
        random_states::Case what = random_states::randomCase(seed);
        random_states::Dice dice(seed);
        Brake& brake = what.shop.brakes[0];
        random_states::letCloseHems(brake);
        std::vector<LeafFace>& faces = brake.leaf().leaf_faces;
        for (std::size_t face = 0; face < faces.size(); ++face) faces[face].name = fmt::format("face {}", face);
        const auto hem = random_states::makeHem(what.part, dice);
        if (hem) askStates(what.part, what.shop, what.brake(), *hem, dice, fmt::format("randomCase({})", seed), tally);
    }
    INFO(tally.closed << " closed, " << tally.not_closed << " not closed, " << tally.other << " not folded first");
    if (std::getenv("TINWRIGHT_TALLY") != nullptr)
        WARN(tally.closed << " closed, " << tally.not_closed << " not closed, " << tally.other << " not folded first");
    CHECK(tally.closed > 100);
    CHECK(tally.not_closed > 10);
}

TEST_CASE("What the engine calls possible beside a closed hem is swung again by libfcl without a hit") {
    constexpr double kStep_rad = 0.5 * std::numbers::pi / 180.0;
    int possible = 0;
    int packed = 0;
    int impossible = 0;
    for (std::uint64_t seed = 930'000; seed < 930'250; ++seed) {
        random_states::Case what = random_states::randomCase(seed);
        random_states::Dice dice(seed);
        const auto hem = random_states::makeHem(what.part, dice);
        if (!hem || what.part.bends.size() < 2) continue;
        const PartOnBrake folded_on_brake = partOnBrake(what.part, what.shop, what.brake());
        const Part& folded = folded_on_brake.part();
        FoldEngine engine(what.part, what.shop, what.brake());
        const oracle::Outlines outlines(folded);
        for (int i = 0; i < 4; ++i) {
            random_states::State state = random_states::randomState(what.part, dice);
            if (state.bend == *hem) continue;
            state.formed |= bit(*hem);
            INFO(fmt::format("randomCase({}) with hem {}, formed {:#x}, bend {}, hold {}", seed, hem->value,
                             state.formed, state.bend.value, static_cast<int>(state.hold)));
            const StrokeResult result = engine.check(state.formed, {bit(state.bend), state.hold});
            if (result.answer == StrokeAnswer::kImpossible) ++impossible;
            if (result.answer != StrokeAnswer::kPossible) continue;
            ++possible;
            if (result.packing > 0) ++packed;
            const Packing packing =
                engine.describe(state.formed, {bit(state.bend), state.hold}, result).packing.value_or(Packing{});
            const BrakeInSetup brake = what.brake().packed(packing.height_mm, packing.on_leaf, what.part.thickness_mm);
            const oracle::LeafModel stroke(folded, outlines, brake,
                                           what.shop.overbendFor_deg(what.part.material, *what.brake()), state.formed,
                                           state.bend, state.hold);
            CHECK(oracle::firstHit(
                      {folded, brake, stroke, result, stroke.leastStrip_mm(), {{0}, {1}, {0.5}}, kStep_rad, {}}) == "");
        }
    }
    INFO(possible << " possible, " << packed << " of them packed up, " << impossible << " impossible");
    CHECK(packed > 5);
    if (std::getenv("TINWRIGHT_TALLY") != nullptr) WARN(possible << " possible, " << impossible << " impossible");
    CHECK(possible > 60);
    CHECK(impossible > 60);
}

TEST_CASE("Hems that a die's jaw closes are closed again by libfcl without a hit") {
    const Result<Shop> shop = readShop(TINWRIGHT_SOURCE_DIR "/tests/plan/data/press-hem.json");
    REQUIRE(shop);
    Tally tally;
    for (std::uint64_t seed = 920'000; seed < 920'500; ++seed) {
        random_states::Case what = random_states::randomCase(seed);
        random_states::Dice dice(seed);
        what.part.thickness_mm = dice.between(0.8, 1.5);
        const auto hem = random_states::makeHem(what.part, dice);
        if (!hem) continue;
        const std::vector<BrakeInSetup> in_vees = setupsFor(what.part, shop.value().brakes[0]);
        const BrakeInSetup& brake = in_vees[static_cast<std::size_t>(dice.below(static_cast<int>(in_vees.size())))];
        askStates(what.part, shop.value(), brake, *hem, dice,
                  fmt::format("randomCase({}) in a V of {}", seed, brake.vee()->opening_mm), tally);
    }
    INFO(tally.closed << " closed, " << tally.not_closed << " not closed, " << tally.other << " not folded first");
    if (std::getenv("TINWRIGHT_TALLY") != nullptr)
        WARN(tally.closed << " closed, " << tally.not_closed << " not closed, " << tally.other << " not folded first");
    CHECK(tally.closed > 40);
    CHECK(tally.not_closed > 5);
}
