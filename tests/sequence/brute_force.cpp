// SPDX-License-Identifier: GPL-3.0-or-later
#include "brute_force.h"

#include <algorithm>
#include <bit>
#include <limits>
#include <set>

namespace tinwright::test {

namespace {

BendMask everyBend(const FoldOracle& oracle) { return (BendMask{1} << oracle.bendCount()) - 1; }

struct Walk {
    FoldOracle& oracle;
    bool with_undecided;
    std::vector<BruteOrder> found;

    void from(BendMask formed, MachineState machine_state, const BruteOrder& so_far) {
        if (formed == everyBend(oracle)) return found.push_back(so_far);
        for (const CandidateStroke& candidate : oracle.candidates(formed)) {
            const bool undecided = candidate.answer == StrokeAnswer::kUndecided;
            if (candidate.answer != StrokeAnswer::kPossible && !(undecided && with_undecided)) continue;
            for (const StepCost& cost : oracle.costs(formed, machine_state, candidate, kNever_ms)) {
                BruteOrder next = so_far;
                next.spoils += cost.spoils;
                next.tight |= cost.tight;
                next.time_ms += cost.time_ms;
                next.larger_behind += cost.larger_behind;
                next.pieces += cost.pieces;
                next.clearance_um = std::min(next.clearance_um, cost.clearance_um);
                next.sequence.push_back(candidate);
                next.uses_undecided |= undecided;
                from(formed | candidate.bends, cost.after, next);
            }
        }
    }
};

/// Possible sets of the line with no possible proper superset.
std::set<BendMask> countable(FoldOracle& oracle, BendMask formed, BendMask line) {
    std::set<BendMask> possible;
    for (const CandidateStroke& candidate : oracle.candidates(formed)) {
        if ((candidate.bends & line) == candidate.bends && candidate.answer == StrokeAnswer::kPossible)
            possible.insert(candidate.bends);
    }
    std::set<BendMask> largest;
    for (const BendMask a : possible) {
        bool contained = false;
        for (const BendMask b : possible) contained = contained || (a != b && (a | b) == b);
        if (!contained) largest.insert(a);
    }
    return largest;
}

}  // namespace

std::vector<BruteOrder> allOrders(FoldOracle& oracle, BendMask formed, bool with_undecided) {
    Walk walk{oracle, with_undecided, {}};
    BruteOrder nothing;
    nothing.clearance_um = std::numeric_limits<std::int64_t>::max();
    walk.from(formed, kNothingSetUp, nothing);
    std::sort(walk.found.begin(), walk.found.end(),
              [](const BruteOrder& a, const BruteOrder& b) { return a.key() < b.key(); });
    return std::move(walk.found);
}

std::uint64_t bruteFeasibleCount(FoldOracle& oracle, BendMask formed) {
    if (formed == everyBend(oracle)) return 1;
    std::uint64_t count = 0;
    for (const BendMask line : oracle.lines(formed)) {
        for (const BendMask bends : countable(oracle, formed, line))
            count += bruteFeasibleCount(oracle, formed | bends);
    }
    return count;
}

std::uint64_t bruteTotalCount(FoldOracle& oracle, BendMask formed) {
    if (formed == everyBend(oracle)) return 1;
    std::uint64_t count = 0;
    for (const BendMask line : oracle.lines(formed)) count += bruteTotalCount(oracle, formed | line);
    return count;
}

BendMask bruteDeepestDeadEnd(FoldOracle& oracle, BendMask formed) {
    std::set<BendMask> reached{formed};
    std::vector<BendMask> dead_end;
    for (auto state = reached.begin(); state != reached.end(); ++state) {  // a step makes the mask larger: comes later
        bool goes_on = false;
        for (const CandidateStroke& candidate : oracle.candidates(*state)) {
            if (candidate.answer != StrokeAnswer::kPossible) continue;
            reached.insert(*state | candidate.bends);
            goes_on = true;
        }
        if (!goes_on) dead_end.push_back(*state);
    }
    return *std::min_element(dead_end.begin(), dead_end.end(), [](BendMask a, BendMask b) {
        return std::pair(-std::popcount(a), a) < std::pair(-std::popcount(b), b);
    });
}

std::vector<BruteOrder> firstOfEachLike(const FoldOracle& oracle, const std::vector<BruteOrder>& orders) {
    std::set<std::vector<std::pair<std::multiset<std::uint32_t>, Side>>> seen;
    std::vector<BruteOrder> result;
    for (const BruteOrder& order : orders) {
        std::vector<std::pair<std::multiset<std::uint32_t>, Side>> likeness;
        for (const auto& [bends, hold] : order.sequence) {
            std::multiset<std::uint32_t> kinds;
            for (std::size_t b = 0; b < oracle.bendCount(); ++b) {
                if ((bends >> b & 1) != 0) kinds.insert(oracle.kind(idAt<BendId>(b)));
            }
            likeness.emplace_back(kinds, hold);
        }
        if (seen.insert(likeness).second) result.push_back(order);
    }
    return result;
}

bool bruteAdmits(FoldOracle& oracle, BendMask formed, const std::vector<ForbiddenStroke>& forbidden_strokes) {
    std::set<BendMask> dead;
    const auto from = [&](const auto& self, BendMask state) -> bool {
        if (state == everyBend(oracle)) return true;
        if (dead.contains(state)) return false;
        for (const CandidateStroke& candidate : oracle.candidates(state)) {
            bool is_forbidden = false;
            bool neither[64][2] = {};
            for (const ForbiddenStroke& forbidden : forbidden_strokes) {
                if ((state & forbidden.mask) != forbidden.formed) continue;
                const bool company = forbidden.any_company && (candidate.bends & forbidden.bends) != 0 &&
                                     (candidate.bends & (forbidden.mask | forbidden.not_with)) == 0;
                const bool first = forbidden.first() == candidate.first();
                is_forbidden =
                    is_forbidden || (first && forbidden.hold == candidate.hold &&
                                     (company || (!forbidden.any_company && forbidden.bends == candidate.bends)));
                if (company)
                    neither[std::countr_zero(forbidden.bends)][static_cast<std::size_t>(forbidden.hold)] = true;
            }
            for (const auto& bend : neither) is_forbidden = is_forbidden || (bend[0] && bend[1]);
            if (!is_forbidden && self(self, state | candidate.bends)) return true;
        }
        dead.insert(state);
        return false;
    };
    return from(from, formed);
}

}  // namespace tinwright::test
