// SPDX-License-Identifier: GPL-3.0-or-later
#include "joins.h"

#include <algorithm>

#include <tinwright/base/contract.h>

#include "bits.h"

namespace tinwright::search {

namespace {

/// Up to here the lines of all 2^n states are looked at: lines need no collision test, and a loose answer of the
/// oracle costs far more in a weak bound. (4096 states; counting all orders asks most of them anyway.)
constexpr int kSurveyedBends = 12;

Joins asTheOracleSays(const FoldOracle& oracle, BendMask start) {
    Joins joins{start, allBends(oracle.bendCount()), {}, {}};
    joins.with.resize(oracle.bendCount(), 0);
    forEachBend(joins.free(), [&](std::size_t b) {
        joins.with[b] = (oracle.mayJoin(idAt<BendId>(b)) & joins.free()) | bit(idAt<BendId>(b));
    });
    return joins;
}

/// A step with two bends needs both to say so.
void makeSymmetric(Joins& joins) {
    const std::vector<BendMask> said = joins.with;
    forEachBend(joins.free(), [&](std::size_t b) {
        forEachBend(said[b], [&](std::size_t other) {
            if (!contains(said[other], idAt<BendId>(b))) joins.with[b] &= ~bit(idAt<BendId>(other));
        });
    });
}

void countLargest(Joins& joins) {
    joins.largest.clear();
    for (const BendMask with : joins.with) joins.largest.push_back(std::popcount(with));
}

/// Every state between `start` and the finished part, whether it can be reached or not.
void survey(FoldOracle& oracle, Joins& joins) {
    std::vector<BendMask> with(joins.with.size(), 0);
    std::vector<int> largest(joins.with.size(), 0);
    BendMask added = 0;
    do {
        for (const BendMask line : oracle.lines(joins.start | added)) {
            forEachBend(line, [&](std::size_t b) {
                with[b] |= line;
                largest[b] = std::max(largest[b], std::popcount(line));
            });
        }
        added = (added - joins.free()) & joins.free();  // next subset, ascending, back to 0 at the end
    } while (added != 0);
    for (std::size_t b = 0; b < with.size(); ++b) {
        TINWRIGHT_REQUIRE(within(with[b], joins.with[b]), "no line joins bends that mayJoin() denies");
    }
    joins.with = std::move(with);
    joins.largest = std::move(largest);
}

}  // namespace

bool Joins::joinable(BendMask bends) const {
    bool all_agree = true;
    forEachBend(bends, [&](std::size_t b) {
        all_agree = all_agree && within(bends, with[b]) && std::popcount(bends) <= largest[b];
    });
    return all_agree;
}

int Joins::largestOfAll() const { return largest.empty() ? 0 : *std::max_element(largest.begin(), largest.end()); }

Joins findJoins(FoldOracle& oracle, BendMask start) {
    Joins joins = asTheOracleSays(oracle, start);
    makeSymmetric(joins);
    countLargest(joins);
    if (!joins.never() && std::popcount(joins.free()) <= kSurveyedBends) survey(oracle, joins);
    return joins;
}

}  // namespace tinwright::search
