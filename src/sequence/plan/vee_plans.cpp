// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/vee_plans.h"

#include <fmt/format.h>

#include <tinwright/forming/metal/vee_choice.h>

namespace tinwright {

namespace {

int rankOf(Verdict verdict) { return verdict == Verdict::kFeasible ? 2 : (verdict == Verdict::kUndecided ? 1 : 0); }

std::string nameOf(const Vee& vee) { return fmt::format("V {:.4g}", vee.opening_mm); }

void addWork(SearchWork& all, const SearchWork& more) {
    all.states += more.states;
    all.partial_orders += more.partial_orders;
    all.fold_checks += more.fold_checks;
    all.shadows_cast += more.shadows_cast;
    all.pairs_swept += more.pairs_swept;
}

}  // namespace

BrakeResult planOverVees(const Part& part, const Shop& shop, std::size_t brake, const PlanOptions& options) {
    const std::vector<Brake> uses = inEachVee(part, shop.brakes[brake]);
    Shop used = shop;
    const auto planIn = [&](const Brake& in_vee, const PlanOptions& asked) {
        used.brakes[brake] = in_vee;
        return planOnBrake(part, used, brake, asked);
    };
    BrakeResult best = planIn(uses.front(), options);
    PlanOptions quick = options;
    quick.verdict_only = true;
    quick.tell_reasons = false;
    std::string lesser;  // Vs that do less, in the order in which they were tried
    for (std::size_t i = 1; i < uses.size() && best.verdict != Verdict::kFeasible; ++i) {
        BrakeResult other = planIn(uses[i], quick);
        SearchWork work = best.work;
        addWork(work, other.work);
        const bool is_better = rankOf(other.verdict) > rankOf(best.verdict);
        if (is_better && !(options.verdict_only && other.verdict == Verdict::kFeasible)) {
            other = planIn(uses[i], options);
            addWork(work, other.work);
        }
        const BrakeResult& less = is_better ? best : other;
        lesser += fmt::format("{}{}: {}", lesser.empty() ? "" : ", ", nameOf(*less.vee), toText(less.verdict));
        if (is_better) best = std::move(other);
        work.proven_best = best.work.proven_best;
        work.least_ms = best.work.least_ms;
        best.work = work;
    }
    if (!lesser.empty()) best.notes.push_back("other Vs were tried, " + lesser);
    return best;
}

TryResult tryOverVees(const Part& part, const Shop& shop, std::size_t brake,
                      const std::vector<std::vector<BendId>>& order, BendMask formed) {
    std::optional<TryResult> best;
    Shop used = shop;
    for (const Brake& in_vee : inEachVee(part, shop.brakes[brake])) {
        used.brakes[brake] = in_vee;
        TryResult result = tryOrder(part, used, brake, order, formed);
        const bool is_better = !best || std::pair(rankOf(result.verdict), result.steps.size()) >
                                            std::pair(rankOf(best->verdict), best->steps.size());
        if (is_better) best = std::move(result);
        if (best->verdict == Verdict::kFeasible) break;
    }
    return *best;
}

}  // namespace tinwright
