// SPDX-License-Identifier: GPL-3.0-or-later
#include "random_oracle.h"

#include <algorithm>
#include <bit>
#include <initializer_list>

namespace tinwright::test {

namespace {

std::uint64_t mix(std::initializer_list<std::uint64_t> words) {
    std::uint64_t h = 0x243F6A8885A308D3u;
    for (const std::uint64_t word : words) {
        h = (h ^ word) * 0x9E3779B97F4A7C15u;
        h ^= h >> 29;
        h = (h ^ (h >> 32)) * 0xBF58476D1CE4E5B9u;
        h ^= h >> 31;
    }
    return h;
}

/// "This bend, held so, cannot be folded when these bends are formed and those are not."
struct PartialState {
    BendMask bend = 0;
    Side hold = Side::kParent;
    BendMask care = 0;
    BendMask formed = 0;

    [[nodiscard]] bool meets(BendMask state, const Stroke& stroke) const {
        return (stroke.bends & bend) != 0 && hold == stroke.hold && (state & care) == formed;
    }
};

std::vector<PartialState> randomPartialStates(const RandomInstance& in, std::uint64_t salt, int count) {
    std::vector<PartialState> states;
    for (int i = 0; i < count; ++i) {
        const std::uint64_t h = mix({in.seed, salt, static_cast<std::uint64_t>(i)});
        const BendMask all = (BendMask{1} << in.bends) - 1;
        const BendMask bend = BendMask{1} << (h % in.bends);
        const BendMask care = (i % 3 == 0 ? (h >> 8) & (h >> 24) : (h >> 8) | (h >> 24)) & all & ~bend;  // few or many
        states.push_back({bend, kBothSides[(h >> 40) % static_cast<std::uint64_t>(in.holds)], care, (h >> 44) & care});
    }
    return states;
}

bool anyMeets(const std::vector<PartialState>& states, BendMask formed, const Stroke& stroke) {
    return std::any_of(states.begin(), states.end(), [&](const PartialState& s) { return s.meets(formed, stroke); });
}

/// Bends i of one family (i / 2 or i / 3, or each alone) lie on one line in some states and not in others.
std::size_t familyOf(std::uint64_t seed, std::size_t bend) { return bend / (1 + mix({seed, 11}) % 3); }

std::vector<BendMask> randomLines(std::uint64_t seed, const ScriptedOracle& oracle, BendMask formed) {
    std::map<std::uint64_t, BendMask> lines;
    for (std::size_t b = 0; b < oracle.bendCount(); ++b) {
        const BendMask one = BendMask{1} << b;
        if ((formed & one) != 0) continue;
        const std::size_t family = familyOf(seed, b);
        const BendMask trigger = mix({seed, 12, family}) & mix({seed, 13, family});
        const bool apart = mix({seed, 14, family, formed & trigger}) % 3 == 0;
        lines[apart ? 1000 + b : family] |= one;
    }
    std::vector<BendMask> list;
    for (const auto& [key, line] : lines) list.push_back(line);
    return list;
}

/// As general as the partial states allow; no more than "in this state" for what is undecided or no stroke of the
/// state.
ForbiddenStroke whyForbidden(ScriptedOracle& oracle, const std::vector<PartialState>& states, BendMask formed,
                             const Stroke& stroke) {
    const std::vector<CandidateStroke>& candidates = oracle.candidates(formed);
    const bool is_candidate = std::any_of(candidates.begin(), candidates.end(),
                                          [&](const CandidateStroke& candidate) { return candidate == stroke; });
    for (const PartialState& s : states) {
        if (!is_candidate || !s.meets(formed, stroke)) continue;
        if ((s.care & stroke.bends) == 0) return {Stroke{s.bend, stroke.hold}, true, s.care, s.formed, 0};
        return {stroke, false, s.care & ~stroke.bends, s.formed, 0};
    }
    return oracle.FoldOracle::why(formed, stroke);
}

StepCost randomCost(std::uint64_t seed, BendMask formed, MachineState before, const CandidateStroke& candidate,
                    std::int64_t least_ms, const Spoils& least_spoils) {
    const bool state_matters = mix({seed, 21}) % 2 == 0;
    const std::uint64_t h = mix(
        {seed, 22, state_matters ? formed : 0, before, candidate.bends, static_cast<std::uint64_t>(candidate.hold)});
    const std::uint64_t spread = 1 + mix({seed, 23}) % 4;  // 1: all times tie
    StepCost cost;
    cost.time_ms = least_ms + static_cast<std::int64_t>(1000 * (h % spread));
    cost.pieces = 1 + static_cast<std::int32_t>((h >> 10) % (1 + mix({seed, 24}) % 2));
    cost.tight = (h >> 20) % 8 < mix({seed, 25}) % 4;
    cost.clearance_um = static_cast<std::int64_t>(100 * (1 + (h >> 30) % 4));
    cost.after = static_cast<MachineState>((h >> 40) % 4);
    // Two bits for each kind, so that ties are common; a bend spoils its least at least.
    cost.spoils = least_spoils;
    if (mix({seed, 27}) % 2 == 0)
        cost.spoils += Spoils{static_cast<int>((h >> 52) % 2), static_cast<int>((h >> 54) % 3)};
    cost.larger_behind = static_cast<std::int32_t>((h >> 50) % (1 + mix({seed, 26}) % 2));
    return cost;
}

}  // namespace

std::unique_ptr<ScriptedOracle> makeOracle(const RandomInstance& in) {
    auto oracle = std::make_unique<ScriptedOracle>(in.bends);
    ScriptedOracle* self = oracle.get();
    const auto least_ms = [in](std::size_t b) { return static_cast<std::int64_t>(1000 * (mix({in.seed, 31, b}) % 4)); };
    const auto least_spoils = [in](std::size_t b) {
        return Spoils{mix({in.seed, 38, b}) % 5 == 0 ? 1 : 0, mix({in.seed, 39, b}) % 4 == 0 ? 1 : 0};
    };
    oracle->script_least_spoils = least_spoils;
    oracle->holds = in.holds;
    oracle->least_pieces = static_cast<std::int32_t>(mix({in.seed, 32}) % 2);
    oracle->never_coincide = familyOf(in.seed, 1) == 1 && mix({in.seed, 33}) % 2 == 0;
    oracle->script_least_ms = least_ms;
    oracle->script_lines = [in, self](BendMask formed) { return randomLines(in.seed, *self, formed); };
    if (mix({in.seed, 34}) % 2 == 0 && !oracle->never_coincide) {
        oracle->script_may_share_stroke = [in](std::size_t b) {
            BendMask family = 0;
            for (std::size_t other = 0; other < in.bends; ++other) {
                if (familyOf(in.seed, other) == familyOf(in.seed, b)) family |= BendMask{1} << other;
            }
            return family;
        };
    }
    const auto forbidden = randomPartialStates(in, 41, in.forbidden);
    const auto undecided = randomPartialStates(in, 42, in.undecided);
    oracle->script_answer = [=](BendMask formed, const Stroke& stroke) {
        if (anyMeets(forbidden, formed, stroke)) return StrokeAnswer::kImpossible;
        if (!anyMeets(undecided, formed, stroke)) return StrokeAnswer::kPossible;
        if (in.truth == 0) return StrokeAnswer::kUndecided;
        const bool possible =
            in.truth == 1 || mix({in.truth, formed, stroke.bends, static_cast<std::uint64_t>(stroke.hold)}) % 2 == 0;
        return possible ? StrokeAnswer::kPossible : StrokeAnswer::kImpossible;
    };
    if (mix({in.seed, 35}) % 4 != 0) {
        oracle->script_why = [=](BendMask formed, const Stroke& stroke) {
            return whyForbidden(*self, forbidden, formed, stroke);
        };
    }
    if (mix({in.seed, 36}) % 2 == 0) {
        oracle->script_kind = [in](std::size_t b) {
            return static_cast<std::uint32_t>(b % (1 + mix({in.seed, 37}) % in.bends));
        };
    }
    oracle->script_cost = [=](BendMask formed, MachineState before, const CandidateStroke& candidate) {
        std::int64_t least = 0;
        Spoils spoils;
        for (const BendId bend : bendsIn(candidate.bends)) {
            least = std::max(least, least_ms(bend.index()));
            spoils += least_spoils(bend.index());
        }
        return randomCost(in.seed, formed, before, candidate, least, spoils);
    };
    return oracle;
}

}  // namespace tinwright::test
