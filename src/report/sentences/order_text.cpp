// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/order_text.h"

#include <algorithm>

#include <fmt/format.h>

#include "kinds/brake_words.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

bool sameBends(const FoldStep& a, const FoldStep& b) { return a.stroke.bends == b.stroke.bends; }

bool sameOrder(const Plan& a, const Plan& b) {
    return std::equal(a.folds.begin(), a.folds.end(), b.folds.begin(), b.folds.end(), sameBends);
}

/// The same order of bends, but held otherwise.
std::string holdDifference(const Part& part, const BrakeInSetup& brake, const Plan& like, const Plan& plan,
                           int shown_rank) {
    const BrakeWords& kind = wordsFor(*brake);
    std::vector<std::string> changes;
    for (std::size_t i = 0; i < plan.folds.size(); ++i) {
        const FoldStep& step = plan.folds[i];
        if (step.stroke.hold == like.folds[i].stroke.hold) continue;
        changes.push_back(
            fmt::format("fold {} {}", i + 1, kind.has(heldName(part, step.stroke.first(), step.stroke.hold))));
    }
    const std::string order = like.rank == shown_rank ? "same order" : fmt::format("order of {}", like.rank);
    if (!changes.empty()) return order + ", but " + listed(changes);
    return order + kind.terms.tools.held_otherwise;
}

std::string orderDifference(const Part& part, const Plan& best, const Plan& plan) {
    const auto split =
        std::mismatch(best.folds.begin(), best.folds.end(), plan.folds.begin(), plan.folds.end(), sameBends);
    const auto same = static_cast<std::size_t>(split.second - plan.folds.begin());
    if (same == 0) return orderList(part, plan);
    return fmt::format("as the best {}, then {}", same == 1 ? "at fold 1" : fmt::format("up to fold {}", same),
                       orderList(part, plan, same));
}

std::string difference(const Part& part, const BrakeInSetup& brake, const std::vector<Plan>& plans, std::size_t index,
                       std::size_t shown) {
    const Plan& plan = plans[index];
    const Plan& in_full = plans[shown];
    if (index != shown && sameOrder(in_full, plan)) return holdDifference(part, brake, in_full, plan, in_full.rank);
    for (std::size_t i = 0; i < index; ++i) {
        if (sameOrder(plans[i], plan)) return holdDifference(part, brake, plans[i], plan, in_full.rank);
    }
    return index == 0 ? orderList(part, plan) : orderDifference(part, plans.front(), plan);
}

}  // namespace

std::string orderList(const Part& part, const Plan& plan, std::size_t first) {
    std::string text;
    for (std::size_t i = first; i < plan.folds.size(); ++i) {
        text += (i == first ? "" : ", ") + strokeName(part, plan.folds[i].bends());
    }
    return text;
}

std::string nextBestLine(const Part& part, const BrakeInSetup& brake, const std::vector<Plan>& plans, std::size_t index,
                         std::size_t shown) {
    const Plan& plan = plans[index];
    const std::string head = fmt::format("{}. {}{}, clearance {} mm: ", plan.rank, duration(plan.cost_ms),
                                         plan.tight ? ", tight" : "", atLeastMillimetres(plan.worst_clearance_mm));
    return head + difference(part, brake, plans, index, shown);
}

}  // namespace tinwright::report
