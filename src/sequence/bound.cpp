// SPDX-License-Identifier: GPL-3.0-or-later
#include "bound.h"

#include <algorithm>

#include <tinwright/base/contract.h>

#include "bits.h"

namespace tinwright::search {

namespace {

BendMask familyOf(BendMask seed, const Joins& joins) {
    BendMask family = seed;
    for (BendMask grown = 0; grown != family;) {
        grown = family;
        forEachBend(grown, [&](std::size_t b) { family |= joins.with[b]; });
    }
    return family;
}

}  // namespace

SharedSum::SharedSum(std::vector<std::int64_t> weights, const Joins& joins) : weights_(std::move(weights)) {
    for (BendMask rest = joins.free(); rest != 0; rest &= ~families_.back()) {
        families_.push_back(familyOf(rest & -rest, joins));
    }
    shares_.resize(weights_.size(), 0);
    forEachBend(joins.free(), [&](std::size_t b) {
        TINWRIGHT_REQUIRE(weights_[b] >= 0, "no step takes less than nothing");
        shares_[b] = weights_[b] / joins.largest[b];
    });
}

std::int64_t SharedSum::of(BendMask unformed) const {
    std::int64_t sum = 0;
    for (const BendMask family : families_) {
        std::int64_t largest = 0;
        std::int64_t shares = 0;
        forEachBend(family & unformed, [&](std::size_t b) {
            largest = std::max(largest, weights_[b]);
            shares += shares_[b];
        });
        sum += std::max(largest, shares);
    }
    return sum;
}

std::int64_t SharedSum::ofStep(BendMask bends) const {
    std::int64_t largest = 0;
    forEachBend(bends, [&](std::size_t b) { largest = std::max(largest, weights_[b]); });
    return largest;
}

Bound makeBound(const FoldOracle& oracle, const Joins& joins) {
    std::vector<std::int64_t> times;
    std::vector<std::int64_t> pieces;
    for (std::size_t b = 0; b < oracle.bendCount(); ++b) {
        times.push_back(oracle.leastTime_ms(idAt<BendId>(b)));
        pieces.push_back(oracle.leastPieces(idAt<BendId>(b)));
    }
    return {SharedSum(std::move(times), joins), SharedSum(std::move(pieces), joins)};
}

}  // namespace tinwright::search
