// SPDX-License-Identifier: GPL-3.0-or-later
// Groups that look alike share what they meet. What a table that shares tells is compared with what a table tells that
// was asked for one group alone.
#include <catch2/catch.hpp>

#include "../one_vee.h"

#include <tinwright/fold/engine/fold_engine.h>

#include "../bench/families.h"
#include "contact/contact_cache.h"
#include "random_states.h"

namespace tinwright {

namespace {

struct Ask {
    BendId bend;
    Side hold = Side::kParent;
    std::size_t group = 0;
    BendMask formed = 0;
};

// Every third state of the bends on each path is enough to meet all kinds.
std::vector<Ask> asksOf(const Part& part, const PartBodies& bodies) {
    std::vector<Ask> asks;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const auto bend = idAt<BendId>(i);
        for (const Side hold : kBothSides) {
            for (std::size_t group = 0; group < bodies.groups().size(); ++group) {
                if (group == bodies.stripGroup(bend)) continue;
                const BendMask path =
                    bodies.path(heldPanel(part.bend(bend), hold), bodies.groups()[group].frame) & ~bit(bend);
                for (const BendMask formed : {BendMask{0}, path, path & 0x555555})
                    asks.push_back({bend, hold, group, formed});
            }
        }
    }
    return asks;
}

bool within1um(const IntervalSet& a, const IntervalSet& b) {
    return std::equal(a.items().begin(), a.items().end(), b.items().begin(), b.items().end(),
                      [](const Interval& one, const Interval& other) {
                          return std::abs(one.lo - other.lo) <= 1 && std::abs(one.hi - other.hi) <= 1;
                      });
}

void compare(const std::string& family, std::size_t bends, std::size_t least_shared) {
    const Part part = bench::familyPart(family, bends);
    const Shop shop = random_states::randomCase(7).shop;  // some leaf brake
    const BrakeInSetup brake = test::inUse(part, shop.brakes[0]);
    const PartOnBrake folded = partOnBrake(part, shop, brake);
    ContactCache sharing(folded, shop, brake);
    std::size_t shared = 0;
    std::size_t met = 0;
    for (const Ask& ask : asksOf(part, sharing.bodies())) {
        const std::uint32_t record = sharing.records().of(ask.bend, ask.hold, ask.group, ask.formed);
        if (sharing.at(record).congruent == record) continue;
        ++shared;
        ContactCache alone(folded, shop, brake);
        const std::uint32_t same = alone.records().of(ask.bend, ask.hold, ask.group, ask.formed);
        REQUIRE(alone.at(same).congruent == same);
        for (std::size_t body = 0; body < sharing.machine().bodies().size(); ++body) {
            const BodyContact& ours = sharing.contacts().contactAndNear(record, body);
            const BodyContact& theirs = alone.contacts().contactAndNear(same, body);
            INFO(family << ", bend " << ask.bend.value << ", hold " << static_cast<int>(ask.hold) << ", group "
                        << ask.group << ", formed " << ask.formed << ", body " << body);
            CHECK(ours.intended == theirs.intended);
            CHECK(within1um(ours.near, theirs.near));
            CHECK(within1um(ours.shadow.outer, theirs.shadow.outer));
            CHECK(within1um(ours.shadow.inner, theirs.shadow.inner));
            met += theirs.shadow.outer.empty() ? 0 : 1;
        }
        for (const Phase phase : {Phase::kBefore, Phase::kAfter}) {
            const PlainExit& ours = sharing.ways().of(record, phase);
            const PlainExit& theirs = alone.ways().of(same, phase);
            for (std::size_t i = 0; i < ours.bodies.size(); ++i) CHECK(within1um(ours.bodies[i], theirs.bodies[i]));
            for (std::size_t i = 0; i < ours.bars.size(); ++i) CHECK(within1um(ours.bars[i], theirs.bars[i]));
        }
    }
    CHECK(shared >= least_shared);
    CHECK(met > 10);
}

}  // namespace

TEST_CASE("groups that look alike meet what each would meet alone") {
    compare("box", 12, 200);
    compare("comb", 12, 200);
    compare("ladder", 8, 100);
}

}  // namespace tinwright
