// SPDX-License-Identifier: GPL-3.0-or-later
// What the engine says is possible, with bars where it puts them, swung again by the oracle: nothing may hit.

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <numbers>

#include <tinwright/fold/engine/fold_engine.h>

#include "oracle_model.h"
#include "random_states.h"
#include "swing_again.h"

using namespace tinwright;

namespace {

constexpr double kStep_rad = 0.5 * std::numbers::pi / 180.0;
bool apart(const std::vector<SetupPiece>& pieces) {
    for (std::size_t i = 1; i < pieces.size(); ++i) {
        if (pieces[i].at.lo < pieces[i - 1].at.hi) return false;
    }
    return true;
}

}  // namespace

TEST_CASE("What the engine calls possible is swung again by libfcl without a hit") {
    int possible = 0, impossible = 0, undecided = 0;
    for (std::uint64_t seed = 500'000; seed < 500'300; ++seed) {
        const random_states::Case what = random_states::randomCase(seed);
        FoldEngine engine(what.part, what.shop, what.brake());
        const oracle::Outlines outlines(what.part);
        random_states::Dice dice(seed);
        for (int i = 0; i < 3; ++i) {
            const random_states::State state = random_states::randomState(what.part, dice);
            INFO(fmt::format("randomCase({}), formed {:#x}, bend {}, hold {}", seed, state.formed, state.bend.value,
                             static_cast<int>(state.hold)));
            const StrokeResult result = engine.check(state.formed, {bit(state.bend), state.hold});
            if (result.answer == StrokeAnswer::kUndecided) ++undecided;
            if (result.answer == StrokeAnswer::kImpossible) ++impossible;
            if (result.answer != StrokeAnswer::kPossible) continue;
            ++possible;
            CHECK(apart(result.setup.pieces));
            const oracle::LeafModel stroke(what.part, outlines, what.brake(),
                                           what.shop.overbendFor_deg(what.part.material, *what.brake()), state.formed,
                                           state.bend, state.hold);
            CHECK(oracle::firstHit({what.part,
                                    what.brake(),
                                    stroke,
                                    result,
                                    stroke.leastStrip_mm(),
                                    {{0}, {1}, {0.5}},
                                    kStep_rad,
                                    {}}) == "");
        }
    }
    INFO(possible << " possible, " << impossible << " impossible, " << undecided << " undecided");
    if (std::getenv("TINWRIGHT_TALLY") != nullptr)
        WARN(possible << " possible, " << impossible << " impossible, " << undecided << " undecided");
    CHECK(possible > 250);
    CHECK(impossible > 50);
}
