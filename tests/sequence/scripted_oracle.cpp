// SPDX-License-Identifier: GPL-3.0-or-later
#include "scripted_oracle.h"

#include <algorithm>

namespace tinwright::test {

std::vector<BendMask> ScriptedOracle::singles(BendMask formed) const {
    std::vector<BendMask> lines;
    for (std::size_t b = 0; b < bends_; ++b) {
        if (!contains(formed, idAt<BendId>(b))) lines.push_back(BendMask{1} << b);
    }
    return lines;
}

const std::vector<FoldMove>& ScriptedOracle::moves(BendMask formed) {
    ++asked[formed];
    const auto [place, added] = moves_.try_emplace(formed);
    if (!added) return place->second;
    std::vector<FoldMove>& moves = place->second;
    for (const BendMask line : script_lines ? script_lines(formed) : singles(formed)) {
        for (BendMask bends = line; bends != 0; bends = (bends - 1) & line) {
            for (int hold = 0; hold < holds; ++hold) {
                moves.push_back({bends, static_cast<std::uint8_t>(hold), bends == line,
                                 script_answer(formed, bends, hold), static_cast<std::uint32_t>(moves.size())});
            }
        }
    }
    std::sort(moves.begin(), moves.end(), [](const FoldMove& a, const FoldMove& b) {
        return a.bends != b.bends ? a.bends < b.bends : a.hold < b.hold;
    });
    return moves;
}

}  // namespace tinwright::test
