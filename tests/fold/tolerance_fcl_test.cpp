// SPDX-License-Identifier: GPL-3.0-or-later
// Strokes that are said to hold over a tolerance box, made with deviating parts and swung again by libfcl: nothing may
// hit.

#include <catch2/catch.hpp>

#include "../one_vee.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <numbers>
#include <set>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/fold/engine/fold_engine.h>

#include "deviating_part.h"
#include "oracle_model.h"
#include "random_states.h"
#include "swing_again.h"

using namespace tinwright;

namespace {

constexpr double kStep_rad = std::numbers::pi / 180.0;
constexpr int kSamples = 4;
constexpr int kSamplesToHit = 16;

// In the order of groups: panels, then strips.
std::vector<BodyRef> groupsOf(const Part& part) {
    std::vector<BodyRef> groups;
    for (std::size_t i = 0; i < part.panels.size(); ++i) groups.emplace_back(idAt<PanelId>(i));
    for (std::size_t i = 0; i < part.bends.size(); ++i) groups.emplace_back(idAt<BendId>(i));
    return groups;
}

// What lies flat with the panels of the bend that is folded.
std::vector<bool> flatWithSheet(const Part& part, const random_states::State& state) {
    std::vector<bool> flat(part.panels.size(), false);
    flat[part.bend(state.bend).parent.index()] = true;
    for (std::size_t round = 0; round < part.bends.size(); ++round) {
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            if (contains(state.formed, idAt<BendId>(i))) continue;
            const Bend& bend = part.bends[i];
            if (flat[bend.parent.index()] || flat[bend.child.index()])
                flat[bend.parent.index()] = flat[bend.child.index()] = true;
        }
    }
    for (std::size_t i = 0; i < part.bends.size(); ++i)
        flat.push_back(flat[part.bends[i].parent.index()] && !contains(state.formed, idAt<BendId>(i)));
    return flat;
}

// The random shop with tolerances of its own; half of the boxes are small, so that many strokes hold.
Shop shopWith(const Shop& shop, const Part& part, random_states::Dice& dice) {
    Shop result = shop;
    const double share = dice.chance(0.5) ? 0.2 : 1.0;
    result.tolerances.thickness_mm = share * dice.between(0, 0.1) * part.thickness_mm;
    result.tolerances.cutting_mm = share * dice.between(0, 0.5);
    result.tolerances.bend_line_mm = share * dice.between(0, 0.4);
    result.tolerances.bend_angle = Angle::degrees(share * dice.between(0, 2));
    // The setback stays what it was set to, whatever the sheet that is put in.
    LeafBrake& leaf = result.brakes[0].leaf();
    if (leaf.setback_mm < 0) leaf.setback_mm = part.thickness_mm;
    return result;
}

struct Tally {
    int possible = 0, holding = 0, held_by_choice = 0, swung = 0;
    int not_holding = 0, confirmed = 0;
};

// What samples of the box hit: one line each, empty where they hit nothing.
std::vector<std::string> swingSamples(const random_states::Case& what, const Shop& shop,
                                      const random_states::State& state, const StrokeResult& result,
                                      const Holding& holding, int samples, random_states::Dice& dice) {
    std::vector<std::string> hits;
    const BrakeInSetup brake = inSetup(shop.brakes[0], what.part.thickness_mm);
    const double overbend_deg = shop.overbendFor_deg(what.part.material, *what.brake());
    const oracle::Outlines drawn(what.part);
    const double least_strip_mm =
        oracle::LeafModel(what.part, drawn, brake, overbend_deg, state.formed, state.bend, state.hold).leastStrip_mm();
    const std::vector<BodyRef> groups = groupsOf(what.part);
    const std::vector<bool> flat = flatWithSheet(what.part, state);
    std::set<std::pair<BodyRef, BodyRef>> may_touch;
    for (const auto& pair : holding.may_touch) may_touch.insert({pair[0], pair[1]});
    for (int i = 0; i < samples; ++i) {
        // One cut makes the edges of sheet that is flat side by side: looked at only where cuts are true.
        const bool cut_true = i % 2 == 0;
        ToleranceBox box = shop.tolerancesFor(what.part);
        if (cut_true) std::fill(box.cutting_mm.begin(), box.cutting_mm.end(), 0.0);
        const deviating::Sample sample =
            deviating::sampleOf(what.part, box, state.bend, state.hold, false, dice.chance(0.7), dice);
        const oracle::Outlines outlines(sample.part);
        const oracle::LeafModel stroke(sample.part, outlines, brake, overbend_deg + sample.overbend_more_deg,
                                       state.formed, state.bend, state.hold);
        const auto skip = [&](std::size_t moving, std::size_t held) {
            return may_touch.contains({groups[moving], groups[held]}) || (!cut_true && flat[moving] && flat[held]);
        };
        hits.push_back(oracle::firstHit({sample.part,
                                         brake,
                                         stroke,
                                         result,
                                         least_strip_mm,
                                         {{dice.between(0, 1)}, {dice.chance(0.5) ? 1.0 : 0.0}},
                                         kStep_rad,
                                         skip}));
    }
    return hits;
}

}  // namespace

TEST_CASE("What is said to hold over the tolerances is swung again with deviating parts by libfcl without a hit") {
    Tally tally;
    for (std::uint64_t seed = 720'000; seed < 720'400; ++seed) {
        const random_states::Case what = random_states::randomCase(seed);
        random_states::Dice dice(seed);
        const Shop shop = shopWith(what.shop, what.part, dice);
        FoldEngine as_drawn(what.part, shop, test::inUse(what.part, shop.brakes[0]));
        FoldEngine over_box(what.part, shop, test::inUse(what.part, shop.brakes[0]), Demand::kHolds);
        for (int i = 0; i < 3; ++i) {
            const random_states::State state = random_states::randomState(what.part, dice);
            INFO(fmt::format("randomCase({}), formed {:#x}, bend {}, hold {}", seed, state.formed, state.bend.value,
                             static_cast<int>(state.hold)));
            const Stroke stroke{bit(state.bend), state.hold};
            const StrokeResult drawn = as_drawn.check(state.formed, stroke);
            const StrokeResult held = over_box.check(state.formed, stroke);
            const bool possible = drawn.answer == StrokeAnswer::kPossible;
            tally.possible += possible ? 1 : 0;
            if (held.answer == StrokeAnswer::kPossible) {
                CHECK(possible);
                const Holding holding = over_box.holding(state.formed, stroke, held);
                CHECK(holding.holds);
                if (!as_drawn.holding(state.formed, stroke, drawn).holds) ++tally.held_by_choice;
                ++tally.holding;
                for (const std::string& hit : swingSamples(what, shop, state, held, holding, kSamples, dice))
                    CHECK(hit == "");
                tally.swung += kSamples;
            }
            if (!possible) continue;
            // Where the bars of the drawn part are not shown to do, some samples hit: the bound is about something.
            const Holding holding = as_drawn.holding(state.formed, stroke, drawn);
            CHECK((holding.open == Holding::Open::kNothing) == holding.holds);
            if (holding.open != Holding::Open::kStroke) continue;
            ++tally.not_holding;
            const auto hits = swingSamples(what, shop, state, drawn, holding, kSamplesToHit, dice);
            tally.confirmed +=
                std::any_of(hits.begin(), hits.end(), [](const std::string& hit) { return !hit.empty(); }) ? 1 : 0;
        }
    }
    const std::string text = fmt::format(
        "{} possible, {} hold ({} with other bars or another place), {} swung again; {} not with theirs, {} of them "
        "seen to hit",
        tally.possible, tally.holding, tally.held_by_choice, tally.swung, tally.not_holding, tally.confirmed);
    INFO(text);
    if (std::getenv("TINWRIGHT_TALLY") != nullptr) WARN(text);
    CHECK(tally.possible > 300);
    CHECK(tally.holding > 100);
    CHECK(tally.confirmed > 10);
}

TEST_CASE("With a tolerance box of nothing a stroke holds where it is possible") {
    int possible = 0, holding = 0;
    for (std::uint64_t seed = 730'000; seed < 730'150; ++seed) {
        const random_states::Case what = random_states::randomCase(seed);
        random_states::Dice dice(seed);
        Shop shop = what.shop;
        shop.tolerances.thickness_mm = 0;
        shop.tolerances.cutting_mm = 0;
        shop.tolerances.bend_line_mm = 0;
        shop.tolerances.bend_angle = Angle::degrees(0);
        FoldEngine engine(what.part, shop, test::inUse(what.part, shop.brakes[0]));
        for (int i = 0; i < 3; ++i) {
            const random_states::State state = random_states::randomState(what.part, dice);
            const Stroke stroke{bit(state.bend), state.hold};
            const StrokeResult drawn = engine.check(state.formed, stroke);
            if (drawn.answer != StrokeAnswer::kPossible) continue;
            const Holding holds = engine.holding(state.formed, stroke, drawn);
            ++possible;
            holding += holds.holds ? 1 : 0;
            if (!holds.holds)
                WARN(fmt::format("randomCase({}), formed {:#x}, bend {}, hold {}: {}", seed, state.formed,
                                 state.bend.value, static_cast<int>(state.hold), toText(holds.open)));
        }
    }
    INFO(possible << " possible, " << holding << " hold");
    CHECK(possible > 100);
    CHECK(holding == possible);
}
