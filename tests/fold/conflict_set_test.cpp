// SPDX-License-Identifier: GPL-3.0-or-later
// What is said to forbid a stroke must forbid it in every state that it names, with any company that it allows.
#include <catch2/catch.hpp>

#include "../one_vee.h"

#include <algorithm>
#include <utility>
#include <vector>

#include <tinwright/fold/engine/fold_engine.h>

#include "../bench/families.h"
#include "random_states.h"

using namespace tinwright;
using random_states::Dice;

namespace {

struct Answered {
    BendMask formed;
    Stroke stroke;
    StrokeAnswer answer;
};

void askState(FoldEngine& engine, BendMask formed, std::vector<Answered>& answers) {
    bool all = true;
    for (const ListedStroke& listed : engine.strokes(formed, all))
        answers.push_back({formed, listed.stroke, engine.check(formed, listed.stroke).answer});
}

// Which side of another bend of a stroke is held is known for the first one alone.
bool sameHold(const ForbiddenStroke& fact, const Stroke& stroke) {
    return fact.hold == stroke.hold && stroke.first() == fact.first();
}

struct Tally {
    int facts = 0;
    int general = 0;  // of which hold in more than one state
    int applied = 0;  // other states and strokes that they were found to mean
};

void compare(const Part& part, FoldEngine& engine, const std::vector<Answered>& answers, Tally& tally) {
    const BendMask all = allFormed(part);
    std::vector<ForbiddenStroke> facts;
    for (const Answered& one : answers) {
        if (one.answer != StrokeAnswer::kImpossible) continue;
        const ForbiddenStroke fact = engine.conflictSet(one.formed, one.stroke);
        REQUIRE(fact.holdsIn(one.formed));
        REQUIRE(fact.means(one.stroke.bends));
        REQUIRE((fact.formed & ~fact.mask) == 0);
        REQUIRE((fact.mask & (one.stroke.bends | fact.bends | fact.not_with)) == 0);
        ++tally.facts;
        tally.general += (fact.mask | one.stroke.bends) != all ? 1 : 0;
        if (std::find(facts.begin(), facts.end(), fact) == facts.end()) facts.push_back(fact);
    }
    for (const ForbiddenStroke& fact : facts) {
        for (const Answered& one : answers) {
            if (!fact.holdsIn(one.formed) || !fact.means(one.stroke.bends) || !sameHold(fact, one.stroke)) continue;
            INFO("bends " << fact.bends << " hold " << static_cast<int>(fact.hold) << " mask " << fact.mask
                          << " formed " << fact.formed << " in state " << one.formed << " stroke " << one.stroke.bends);
            REQUIRE(one.answer != StrokeAnswer::kPossible);
            ++tally.applied;
        }
    }
}

}  // namespace

TEST_CASE("what forbids a stroke forbids it wherever it says: random parts, every state") {
    Tally tally;
    for (std::uint64_t seed = 0; seed < 120; ++seed) {
        INFO("seed " << seed);
        const random_states::Case one = random_states::randomCase(seed);
        FoldEngine engine(one.part, one.shop, one.brake());
        std::vector<Answered> answers;
        for (BendMask formed = 0; formed <= allFormed(one.part); ++formed) askState(engine, formed, answers);
        compare(one.part, engine, answers, tally);
    }
    CHECK(tally.facts > 500);
    CHECK(tally.general > tally.facts / 2);
    CHECK(tally.applied > tally.facts);
}

// With horns, hollows, stations' dies and side frames.
TEST_CASE("what forbids a stroke forbids it wherever it says: random parts on press brakes, every state") {
    Tally tally;
    for (std::uint64_t seed = 0; seed < 120; ++seed) {
        INFO("seed " << seed);
        const random_states::Case one = random_states::randomPressCase(seed);
        FoldEngine engine(one.part, one.shop, one.brake());
        std::vector<Answered> answers;
        for (BendMask formed = 0; formed <= allFormed(one.part); ++formed) askState(engine, formed, answers);
        compare(one.part, engine, answers, tally);
    }
    CHECK(tally.facts > 300);
    CHECK(tally.general > tally.facts / 3);
    CHECK(tally.applied > tally.facts);
}

TEST_CASE("what forbids a stroke forbids it wherever it says: boxes, ladders and combs, random states") {
    const Shop shop = [] {
        Shop made = random_states::randomCase(3).shop;
        return made;
    }();
    for (const auto& [family, bends] : {std::pair{"box", 8}, {"box", 12}, {"comb", 6}, {"ladder", 6}}) {
        INFO(family << " " << bends);
        Tally tally;
        const Part part = bench::familyPart(family, static_cast<std::size_t>(bends));
        FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
        Dice dice(11);
        std::vector<Answered> answers;
        for (int i = 0; i < 40; ++i) {
            BendMask formed = 0;
            for (int b = 0; b < bends; ++b) formed |= dice.chance(0.5) ? BendMask{1} << b : 0;
            askState(engine, formed, answers);
        }
        compare(part, engine, answers, tally);
        CHECK(tally.facts > 0);
    }
}

TEST_CASE("bends that are kept off one line are so wherever it says") {
    const Shop shop = random_states::randomCase(3).shop;
    const Part part = bench::familyPart("box", 12);
    FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
    Dice dice(5);
    int apart = 0;
    for (int i = 0; i < 300; ++i) {
        const auto a = idAt<BendId>(static_cast<std::size_t>(dice.below(11)));
        const auto b =
            idAt<BendId>(a.index() + 1 + static_cast<std::size_t>(dice.below(static_cast<int>(11 - a.index()))));
        const BendMask others = (allFormed(part) & ~bit(a)) & ~bit(b);
        const BendMask formed = static_cast<BendMask>(dice.below(1 << 12)) & others;
        const auto fact = engine.conflictSetOfLine(formed, {bit(a) | bit(b), Side::kParent});
        if (!fact) continue;
        ++apart;
        for (int k = 0; k < 20; ++k) {
            const BendMask other = (static_cast<BendMask>(dice.below(1 << 12)) & others & ~fact->mask) | fact->formed;
            CHECK(engine.conflictSetOfLine(other, {bit(a) | bit(b), Side::kParent}).has_value());
            bool all = true;
            for (const ListedStroke& listed : engine.strokes(other, all)) CHECK(listed.stroke.bends != fact->bends);
        }
    }
    CHECK(apart > 100);
}
