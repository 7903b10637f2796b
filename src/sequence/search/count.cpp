// SPDX-License-Identifier: GPL-3.0-or-later
#include "search/count.h"

#include <algorithm>
#include <bit>
#include <optional>
#include <unordered_map>
#include <utility>
#include <vector>

#include "search/whole_number.h"
#include "states/bits.h"

namespace tinwright::search {

namespace {

using Count = WholeNumber;
using MaybeCount = std::optional<Count>;

/// Bend sets that can be formed in one stroke on one line of a state, with either side held.
struct LineSteps {
    std::vector<BendMask> possible;   // largest sets only
    std::vector<BendMask> undecided;  // those that no possible set contains
};

bool containedInOne(BendMask bends, const std::vector<BendMask>& sets) {
    return std::any_of(sets.begin(), sets.end(), [&](BendMask set) { return within(bends, set); });
}

/// Asks for the larger sets first: what lies within a possible one does not count.
LineSteps stepsOn(StateTable& table, BendMask formed, BendMask line, const std::vector<CandidateStroke>& listed) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < listed.size(); ++i) {
        if (within(listed[i].bends, line)) order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return std::popcount(listed[a].bends) > std::popcount(listed[b].bends);
    });
    LineSteps steps;
    for (const std::size_t index : order) {
        const BendMask bends = listed[index].bends;
        if (containedInOne(bends, steps.possible)) continue;
        const CandidateStroke& candidate = table.answered(formed, index);
        if (candidate.answer == StrokeAnswer::kPossible) steps.possible.push_back(bends);
        if (candidate.answer == StrokeAnswer::kUndecided) steps.undecided.push_back(bends);
    }
    std::erase_if(steps.undecided, [&](BendMask bends) { return containedInOne(bends, steps.possible); });
    return steps;
}

class Feasible {
public:
    Feasible(StateTable& table, Reach& possible, Reach& undecided)
        : table_(table), possible_(possible), undecided_(undecided) {}

    /// Nothing once the count cannot be known. Recursive: no deeper than there are bends.
    MaybeCount from(BendMask formed) {
        if (formed == table_.all()) return Count(1);
        if (const auto known = counts_.find(formed); known != counts_.end()) return known->second;
        if (hopeless(formed)) return Count();
        const std::vector<CandidateStroke>* listed = table_.listed(formed);
        if (!listed) return std::nullopt;
        Count count;
        for (const BendMask line : table_.lines(formed)) {
            const MaybeCount added = through(formed, stepsOn(table_, formed, line, *listed));
            if (!added) return std::nullopt;
            count += *added;
        }
        return counts_.emplace(formed, std::move(count)).first->second;
    }

private:
    /// Known already not to finish, whatever undecided folds turn out to be.
    [[nodiscard]] bool hopeless(BendMask formed) const {
        if (undecided_.known(formed) == false) return true;
        return !table_.sawUndecided() && possible_.known(formed) == false;
    }

    MaybeCount through(BendMask formed, const LineSteps& steps) {
        Count sum;
        std::vector<BendMask> counted;
        for (const BendMask bends : steps.possible) {
            const MaybeCount after = from(formed | bends);
            if (!after) return std::nullopt;
            if (!after->isZero()) counted.push_back(bends);
            sum += *after;
        }
        for (const BendMask bends : steps.undecided) {
            if (changesCount(formed, bends, counted)) return std::nullopt;
        }
        return sum;
    }

    /// Were it possible, it would add its own orders and put an end to those of the smaller steps that it contains.
    bool changesCount(BendMask formed, BendMask bends, const std::vector<BendMask>& counted) {
        const auto inside = [&](BendMask smaller) { return within(smaller, bends); };
        if (std::any_of(counted.begin(), counted.end(), inside)) return true;
        return undecided_.finishes(formed | bends) != false;
    }

    StateTable& table_;
    Reach& possible_;
    Reach& undecided_;
    std::unordered_map<BendMask, Count> counts_;
};

class Total {
public:
    Total(StateTable& table, std::uint64_t left) : table_(table), left_(left) {}

    MaybeCount from(BendMask formed) {
        if (formed == table_.all()) return Count(1);
        if (const auto known = counts_.find(formed); known != counts_.end()) return known->second;
        if (left_ == 0) return std::nullopt;
        --left_;
        Count count;
        for (const BendMask line : table_.lines(formed)) {
            const MaybeCount after = from(formed | line);
            if (!after) return std::nullopt;
            count += *after;
        }
        return counts_.emplace(formed, std::move(count)).first->second;
    }

private:
    StateTable& table_;
    std::uint64_t left_;
    std::unordered_map<BendMask, Count> counts_;
};

Count factorial(int n) {
    Count product(1);
    for (int factor = 2; factor <= n; ++factor) product *= static_cast<std::uint32_t>(factor);
    return product;
}

std::string text(const MaybeCount& count) { return count ? count->text() : std::string(); }

}  // namespace

std::string countFeasible(StateTable& table, Reach& possible, Reach& undecided) {
    return text(Feasible(table, possible, undecided).from(table.coFoldable().start));
}

std::string countTotal(StateTable& table, std::uint64_t max_states) {
    if (table.coFoldable().never()) return factorial(std::popcount(table.coFoldable().free())).text();
    return text(Total(table, max_states).from(table.coFoldable().start));
}

}  // namespace tinwright::search
