// SPDX-License-Identifier: GPL-3.0-or-later
#include "remedies/figure_trials.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/sequence/plan/planner.h>
#include <tinwright/sequence/remedies/suit.h>

namespace tinwright {

bool ChangedBrake::isOther(MachineFigure figure) const {
    return std::any_of(wanted.begin(), wanted.end(),
                       [&](const Wanted& each) { return each.of.figure == figure && each.isOther(); });
}

bool ChangedBrake::isAnyOther() const {
    return std::any_of(wanted.begin(), wanted.end(), [](const Wanted& each) { return each.isOther(); });
}

bool ChangedBrake::isOnlyOther(std::size_t index) const {
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        if (wanted[i].isOther() != (i == index)) return false;
    }
    return true;
}

FigureTrials::FigureTrials(const Part& part, const Shop& shop, const BrakeInSetup& brake, const NeedsOptions& options)
    : part_(part), shop_(shop), brake_(brake), options_(options), figures_(figuresOf(part, brake)) {
    if (brake.vee() != nullptr) in_use_ = *brake.vee();
}

ChangedBrake FigureTrials::unchanged() const {
    ChangedBrake same;
    for (const FigureOf& of : figures_) same.wanted.push_back({of, of.has});
    return same;
}

std::vector<BrakeInSetup> FigureTrials::setupsOf(const ChangedBrake& changed) const {
    Brake brake = *brake_;
    for (const Wanted& each : changed.wanted) {
        if (each.isOther()) each.of.set(brake, each.value);
    }
    std::vector<BrakeInSetup> setups = setupsFor(part_, brake);
    const auto unlike = [&](const BrakeInSetup& setup) {
        return setup.vee() == nullptr ? std::pair(0.0, 0.0)
                                      : std::pair(std::abs(setup.vee()->opening_mm - in_use_.opening_mm),
                                                  std::abs((setup.vee()->angle - in_use_.angle).deg()));
    };
    const auto first =
        std::min_element(setups.begin(), setups.end(),
                         [&](const BrakeInSetup& a, const BrakeInSetup& b) { return unlike(a) < unlike(b); });
    std::rotate(setups.begin(), first, std::next(first));
    return setups;
}

BrakeInSetup FigureTrials::setupOf(const ChangedBrake& changed) const { return setupsOf(changed).front(); }

bool FigureTrials::goes(const ChangedBrake& changed) { return tinwright::goes(verdict(changed, setupOf(changed))); }

FigureTrials::Answer FigureTrials::somewhere(const ChangedBrake& changed) {
    bool all_refused = true;
    for (const BrakeInSetup& setup : setupsOf(changed)) {
        const Verdict answer = verdict(changed, setup);
        all_refused = all_refused && answer == Verdict::kInfeasible;
        if (!tinwright::goes(answer)) continue;
        if (setup.vee() != nullptr) in_use_ = *setup.vee();
        return Answer::kGoes;
    }
    return all_refused ? Answer::kRefused : Answer::kNotKnown;
}

Verdict FigureTrials::verdict(const ChangedBrake& changed, const BrakeInSetup& setup) {
    std::vector<double> key;
    if (setup.vee() != nullptr)
        key = {setup.vee()->opening_mm, setup.vee()->angle.rad(), setup.vee()->shoulder_radius_mm};
    for (const Wanted& each : changed.wanted) key.push_back(each.value);
    key.insert(key.end(), changed.widths_mm.begin(), changed.widths_mm.end());
    const auto known = known_.find(key);
    if (known != known_.end()) return known->second;
    const bool is_spent = work_ >= options_.max_work;
    const Verdict answer = is_spent ? Verdict::kUndecided : planned(changed, setup);
    left_open_ = left_open_ || answer == Verdict::kUndecided;
    if (!is_spent) known_.emplace(std::move(key), answer);
    return answer;
}

Verdict FigureTrials::planned(const ChangedBrake& changed, BrakeInSetup setup) {
    if (changed.isOther(MachineFigure::kPieceWidth))
        setup = setup.with(
            withPieces(setup, changed.widths_mm.empty() ? pieceWidths_mm(part_, shop_, setup) : changed.widths_mm));
    PlanOptions plan;
    plan.plans = 1;
    plan.max_states = options_.max_states;
    plan.time_limit_s = options_.time_limit_s;
    plan.formed = options_.formed;
    plan.verdict_only = true;
    plan.explain = false;
    plan.tell_reasons = false;
    const BrakeResult result = planOnBrake(part_, shop_, setup, plan);
    work_ += planWork(result.work);
    return result.verdict;
}

}  // namespace tinwright
