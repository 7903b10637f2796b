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
        const std::vector<FoldMove>* moves = formed == table.all() ? nullptr : table.listed(formed);
        if (!moves) continue;
        bool stuck = true;
        const auto follow = [&](std::size_t index) {
            if (table.answered(formed, index).answer != FoldAnswer::kPossible) return;
            stuck = false;
            const BendMask after = formed | (*moves)[index].bends;
            if (seen.insert(after).second) open.push_back(after);
        };
        // What leads to a state that is known to be reached is asked for only if nothing else is possible: asking is what costs.
        std::vector<std::size_t> known;
        for (std::size_t i = 0; i < moves->size(); ++i) {
            if (seen.contains(formed | (*moves)[i].bends)) known.push_back(i);
            else follow(i);
        }
        for (std::size_t i = 0; i < known.size() && stuck; ++i) follow(known[i]);
        if (stuck && deeper(formed, deepest)) deepest = formed;
    }
    return deepest;
}

}  // namespace tinwright::search
