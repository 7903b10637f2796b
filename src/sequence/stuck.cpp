// SPDX-License-Identifier: GPL-3.0-or-later
#include "stuck.h"

#include <unordered_set>
#include <vector>

#include "bits.h"

namespace tinwright::search {

namespace {

bool deeper(BendMask a, BendMask b) {
    return std::popcount(a) != std::popcount(b) ? std::popcount(a) > std::popcount(b) : a < b;
}

}  // namespace

BendMask deepestStuck(StateTable& table) {
    BendMask deepest = table.joins().start;
    std::vector<BendMask> open{deepest};
    std::unordered_set<BendMask> seen{deepest};
    while (!open.empty()) {
        const BendMask formed = open.back();
        open.pop_back();
        const std::vector<FoldMove>* moves = formed == table.all() ? nullptr : table.moves(formed);
        if (!moves) continue;
        bool stuck = true;
        for (const FoldMove& move : *moves) {
            if (move.answer != FoldAnswer::kPossible) continue;
            stuck = false;
            if (seen.insert(formed | move.bends).second) open.push_back(formed | move.bends);
        }
        if (stuck && deeper(formed, deepest)) deepest = formed;
    }
    return deepest;
}

}  // namespace tinwright::search
