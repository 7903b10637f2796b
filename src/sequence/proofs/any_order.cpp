// SPDX-License-Identifier: GPL-3.0-or-later
#include "proofs/any_order.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

namespace tinwright {

namespace {

/// What may stand at one point of the orders looked at, all of which have taken the same time and spoilt as much so
/// far.
struct Front {
    std::set<MachineState> machine_state;
    std::int64_t time_ms = 0;
    Spoils spoils;

    [[nodiscard]] bool isAs(const Front& other) const { return time_ms == other.time_ms && spoils == other.spoils; }
};

class Runs {
public:
    Runs(FoldOracle& oracle, BendMask formed, const Order& order, int longest)
        : oracle_(oracle), order_(order), longest_(longest) {
        states_.push_back(formed);
        for (const OrderStep& step : order.steps) states_.push_back(states_.back() | step.stroke.bends);
    }

    std::vector<int> find() {
        std::vector<int> sizes;
        Front front{{kNothingSetUp}, 0, {}};
        const std::size_t count = order_.steps.size();
        for (std::size_t at = 0; at < count;) {
            std::size_t size = std::min(static_cast<std::size_t>(longest_), count - at);
            std::optional<Front> after;
            for (; size > 0; --size) {
                after = anyOrder(front, at, size);
                if (after && endsAsGiven(*after, at + size)) break;
            }
            if (size == 0) return {};  // what stands after an earlier run makes a difference that its end did not show
            sizes.push_back(static_cast<int>(size));
            front = *after;
            at += size;
        }
        return sizes;
    }

private:
    /// All orders of the steps of a run, from all that may stand: where they end, if none is impossible and all take as
    /// long.
    std::optional<Front> anyOrder(const Front& from, std::size_t at, std::size_t size) {
        std::map<unsigned, Front> reached{{0U, from}};
        for (unsigned done = 0; done + 1 < (1U << size); ++done) {  // subsets ascending: what a set grows from comes
                                                                    // before it
            const Front& here = reached.at(done);
            const BendMask formed = states_[at] | bendsOf(done, at);
            for (std::size_t i = 0; i < size; ++i) {
                if ((done >> i & 1U) != 0) continue;
                const std::optional<Front> next = after(here, formed, order_.steps[at + i]);
                if (!next) return std::nullopt;
                const auto [entry, is_new] = reached.try_emplace(done | (1U << i), *next);
                if (!entry->second.isAs(*next)) return std::nullopt;
                entry->second.machine_state.insert(next->machine_state.begin(), next->machine_state.end());
            }
        }
        return reached.at((1U << size) - 1);
    }

    [[nodiscard]] BendMask bendsOf(unsigned done, std::size_t at) const {
        BendMask bends = 0;
        for (std::size_t i = 0; (done >> i) != 0; ++i)
            bends |= (done >> i & 1U) != 0 ? order_.steps[at + i].stroke.bends : 0;
        return bends;
    }

    [[nodiscard]] std::optional<Front> after(const Front& front, BendMask formed, const OrderStep& step) {
        const std::vector<CandidateStroke>& listed = oracle_.listed(formed);
        const auto place =
            std::find_if(listed.begin(), listed.end(), [&](const CandidateStroke& one) { return one == step.stroke; });
        if (place == listed.end()) return std::nullopt;
        const CandidateStroke& candidate = oracle_.answered(formed, static_cast<std::size_t>(place - listed.begin()));
        if (candidate.answer != StrokeAnswer::kPossible) return std::nullopt;
        std::optional<Front> next;
        for (const MachineState machine_state : front.machine_state) {
            const StepCost cost = costLike(formed, machine_state, candidate, step.cost.after);
            if (cost.tight && !order_.tight) return std::nullopt;
            const Front then{{}, front.time_ms + cost.time_ms, front.spoils + cost.spoils};
            if (!next) next = then;
            if (!next->isAs(then)) return std::nullopt;
            next->machine_state.insert(cost.after);
        }
        return next;
    }

    /// With the set-up that the order has for this step, if it is one of those to choose from.
    [[nodiscard]] StepCost costLike(BendMask formed, MachineState machine_state, const CandidateStroke& candidate,
                                    MachineState after) {
        const std::vector<StepCost> costs = oracle_.costs(formed, machine_state, candidate, kNever_ms);
        const auto like = std::find_if(costs.begin(), costs.end(), [&](const StepCost& cost) {
            return oracle_.setUp(cost.after) == oracle_.setUp(after);
        });
        return like == costs.end() ? costs.front() : *like;
    }

    /// The rest, as the order has it, takes the same time whatever stands, and in all what the order takes.
    bool endsAsGiven(Front front, std::size_t at) {
        for (std::size_t i = at; i < order_.steps.size(); ++i) {
            const std::optional<Front> next = after(front, states_[i], order_.steps[i]);
            if (!next) return false;
            front = *next;
        }
        return front.time_ms == order_.time_ms && front.spoils == order_.spoils;
    }

    FoldOracle& oracle_;
    const Order& order_;
    int longest_;
    std::vector<BendMask> states_;  // before each step, and the last
};

}  // namespace

std::vector<int> anyOrderRuns(FoldOracle& oracle, BendMask formed, const Order& order, int longest) {
    return Runs(oracle, formed, order, longest).find();
}

}  // namespace tinwright
