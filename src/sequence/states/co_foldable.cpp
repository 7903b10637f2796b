// SPDX-License-Identifier: GPL-3.0-or-later
#include "states/co_foldable.h"

#include <algorithm>

#include <tinwright/base/contract.h>

#include "states/bits.h"

namespace tinwright::search {

namespace {

/// Up to here the lines of all 2^n states are looked at: lines need no collision test, and a loose answer of the
/// oracle costs far more in a weak bound. (4096 states; counting all orders asks most of them anyway.)
constexpr int kSurveyedBends = 12;

CoFoldable asTheOracleSays(const FoldOracle& oracle, BendMask start) {
    CoFoldable co_foldable{start, allBends(oracle.bendCount()), {}, {}};
    co_foldable.with.resize(oracle.bendCount(), 0);
    forEachBend(co_foldable.free(), [&](std::size_t b) {
        co_foldable.with[b] = (oracle.mayShareStroke(idAt<BendId>(b)) & co_foldable.free()) | bit(idAt<BendId>(b));
    });
    return co_foldable;
}

/// A step with two bends needs both to say so.
void makeSymmetric(CoFoldable& co_foldable) {
    const std::vector<BendMask> said = co_foldable.with;
    forEachBend(co_foldable.free(), [&](std::size_t b) {
        forEachBend(said[b], [&](std::size_t other) {
            if (!contains(said[other], idAt<BendId>(b))) co_foldable.with[b] &= ~bit(idAt<BendId>(other));
        });
    });
}

void countLargest(CoFoldable& co_foldable) {
    co_foldable.largest.clear();
    for (const BendMask with : co_foldable.with) co_foldable.largest.push_back(std::popcount(with));
}

/// Every state between `start` and the finished part, whether it can be reached or not.
void survey(FoldOracle& oracle, CoFoldable& co_foldable) {
    std::vector<BendMask> with(co_foldable.with.size(), 0);
    std::vector<int> largest(co_foldable.with.size(), 0);
    BendMask added = 0;
    do {
        for (const BendMask line : oracle.lines(co_foldable.start | added)) {
            forEachBend(line, [&](std::size_t b) {
                with[b] |= line;
                largest[b] = std::max(largest[b], std::popcount(line));
            });
        }
        added = (added - co_foldable.free()) & co_foldable.free();  // next subset, ascending, back to 0 at the end
    } while (added != 0);
    for (std::size_t b = 0; b < with.size(); ++b) {
        TINWRIGHT_REQUIRE(within(with[b], co_foldable.with[b]), "no line joins bends that mayJoin() denies");
    }
    co_foldable.with = std::move(with);
    co_foldable.largest = std::move(largest);
}

}  // namespace

bool CoFoldable::mayFoldTogether(BendMask bends) const {
    bool all_agree = true;
    forEachBend(bends, [&](std::size_t b) {
        all_agree = all_agree && within(bends, with[b]) && std::popcount(bends) <= largest[b];
    });
    return all_agree;
}

int CoFoldable::largestOfAll() const { return largest.empty() ? 0 : *std::max_element(largest.begin(), largest.end()); }

CoFoldable findCoFoldable(FoldOracle& oracle, BendMask start) {
    CoFoldable co_foldable = asTheOracleSays(oracle, start);
    makeSymmetric(co_foldable);
    countLargest(co_foldable);
    if (!co_foldable.never() && std::popcount(co_foldable.free()) <= kSurveyedBends) survey(oracle, co_foldable);
    return co_foldable;
}

}  // namespace tinwright::search
