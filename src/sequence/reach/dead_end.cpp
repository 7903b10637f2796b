// SPDX-License-Identifier: GPL-3.0-or-later
#include "reach/dead_end.h"

#include <algorithm>
#include <unordered_set>
#include <vector>

#include "states/bits.h"

namespace tinwright::search {

namespace {

bool deeper(BendMask a, BendMask b) {
    return std::popcount(a) != std::popcount(b) ? std::popcount(a) > std::popcount(b) : a < b;
}

}  // namespace

BendMask deepestDeadEnd(StateTable& table) {
    BendMask deepest = table.coFoldable().start;
    std::vector<BendMask> open{deepest};
    std::unordered_set<BendMask> seen{deepest};
    while (!open.empty()) {
        const BendMask formed = open.back();
        open.pop_back();
        const std::vector<CandidateStroke>* candidates = formed == table.all() ? nullptr : table.listed(formed);
        if (!candidates) continue;
        const auto possible = [&](std::size_t i) {
            return table.answered(formed, i).answer == StrokeAnswer::kPossible;
        };
        std::vector<std::size_t> left;  // what leads to no new state, or takes long to answer
        bool dead_end = true;
        bool takes_long = false;
        for (std::size_t i = 0; i < candidates->size(); ++i) {
            const BendMask after = formed | (*candidates)[i].bends;
            if (seen.contains(after)) {
                left.push_back(i);
            } else if (!table.answersQuickly(formed, i)) {
                left.push_back(i);
                takes_long = true;
            } else if (possible(i)) {
                dead_end = false;
                seen.insert(after);
                open.push_back(after);
            }
        }
        if (!dead_end || !deeper(formed, deepest) || (takes_long && std::popcount(formed) == std::popcount(deepest)))
            continue;
        const auto way = std::find_if(left.begin(), left.end(), possible);
        if (way == left.end()) {
            deepest = formed;
        } else if (const BendMask after = formed | (*candidates)[*way].bends; seen.insert(after).second) {
            open.push_back(after);
        }
    }
    return deepest;
}

}  // namespace tinwright::search
