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

const std::vector<CandidateStroke>& ScriptedOracle::candidates(BendMask formed) {
    ++asked[formed];
    const auto [place, added] = candidates_.try_emplace(formed);
    if (!added) return place->second;
    std::vector<CandidateStroke>& candidates = place->second;
    for (const BendMask line : script_lines ? script_lines(formed) : singles(formed)) {
        for (BendMask bends = line; bends != 0; bends = (bends - 1) & line) {
            for (const Side hold : kBothSides) {
                if (static_cast<int>(hold) >= holds) break;
                const Stroke stroke{bends, hold};
                candidates.push_back({stroke, bends == line, script_answer(formed, stroke),
                                      static_cast<std::uint32_t>(candidates.size())});
            }
        }
    }
    std::sort(candidates.begin(), candidates.end());
    return candidates;
}

}  // namespace tinwright::test
