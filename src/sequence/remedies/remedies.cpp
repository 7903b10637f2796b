// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/remedies/remedies.h>

#include <algorithm>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/vee_choice.h>

#include "remedies/remedy_trials.h"
#include "remedies/suit_trials.h"

namespace tinwright {

namespace {

// Of the work that is left when a kind's turn comes.
constexpr double kCutOutShare = 0.5;
constexpr double kDimensionShare = 0.6;
constexpr double kTwoDimensionsShare = 0.5;
constexpr double kCornerShare = 0.3;
constexpr double kBarShare = 0.6;

void keep(Remedies& remedies, std::vector<Remedy> found, std::size_t most) {
    if (found.size() > most) found.resize(most);
    std::move(found.begin(), found.end(), std::back_inserter(remedies.list));
}

}  // namespace

bool wantsRemedy(const Suitability& drawn) {
    if (drawn.verdict == Verdict::kUndecided) return false;
    return drawn.level() < SuitLevel::kComfortably || drawn.least_cover < kPoorCover;
}

bool lifts(const Suitability& drawn, const Suitability& changed) {
    if (changed.level() != drawn.level()) return changed.level() > drawn.level();
    return drawn.works() && drawn.least_cover < kPoorCover && changed.least_cover >= drawn.least_cover + kCoverStep;
}

Suitability RemedyTrials::plan(const Part& part, const std::vector<BrakeInSetup>& setups, BendMask formed,
                               bool tell_reasons, bool verdict_only) {
    if (spent()) {
        cut_short_ = true;
        return {};
    }
    PlanOptions plan;
    plan.plans = 1;
    plan.time_limit_s = 0;  // work alone ends it: the same on every machine
    plan.max_states = options_.max_states;
    plan.formed = formed;
    plan.robust = options_.robust;
    plan.material = options_.material;
    plan.explain = false;
    plan.tell_reasons = tell_reasons;
    ++count_;
    return planForSuit(part, shop_, setups, plan, verdict_only, work_);
}

Suitability RemedyTrials::planInFull(const Part& part) {
    return plan(part, {as_drawn_on_}, options_.formed, false, false);
}

void RemedyTrials::add(std::size_t plans, std::uint64_t work, bool cut_short) {
    count_ += plans;
    work_ += work;
    cut_short_ = cut_short_ || cut_short;
}

std::vector<Remedy> otherBrakes(RemedyTrials& trials) {
    std::vector<Remedy> found;
    for (std::size_t i = 0; i < trials.shop().brakes.size(); ++i) {
        if (i == trials.brakeIndex()) continue;
        const std::vector<const BrakeResult*>& known = trials.options().known;
        const BrakeResult* told = i < known.size() ? known[i] : nullptr;
        Remedy remedy;
        remedy.kind = RemedyKind::kOtherBrake;
        remedy.brake = i;
        remedy.result = told != nullptr ? suitabilityOf(*told)
                                        : trials.plan(trials.part(), setupsFor(trials.part(), trials.shop().brakes[i]),
                                                      trials.options().formed);
        if (lifts(trials.asDrawn(), remedy.result)) found.push_back(std::move(remedy));
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Remedy& a, const Remedy& b) { return a.result.level() > b.result.level(); });
    return found;
}

Remedies findRemedies(const Part& part, const TweakedPart& tweaks, const Shop& shop, std::size_t brake,
                      const BrakeResult& as_drawn, const RemedyOptions& options) {
    Remedies remedies;
    RemedyTrials trials(part, shop, brake, as_drawn, options);
    remedies.as_drawn = trials.asDrawn();
    if (!wantsRemedy(trials.asDrawn())) return remedies;
    const bool goes = trials.asDrawn().works();
    trials.beginStage(1);
    keep(remedies, otherBrakes(trials), options.each);
    if (trials.asDrawn().level() == SuitLevel::kWithTrouble) {
        trials.beginStage(kCutOutShare);
        keep(remedies, cutOutRemedies(trials, as_drawn), options.each);
    }
    if (!goes) trials.compareReasons();
    trials.beginStage(kDimensionShare);
    std::vector<Suggestion> other_reasons;
    std::vector<Remedy> dimensions = dimensionRemedies(trials, tweaks, other_reasons);
    const bool none = dimensions.empty();
    keep(remedies, std::move(dimensions), options.each);
    if (none && !goes) {
        trials.beginStage(kTwoDimensionsShare);
        keep(remedies, twoDimensionRemedies(trials, tweaks, other_reasons), options.each);
    }
    if (!goes) {
        trials.beginStage(kCornerShare);
        keep(remedies, openCornerRemedies(trials), options.each);
    }
    trials.beginStage(goes ? 1 : kBarShare);
    keep(remedies, barRemedies(trials), options.each);
    if (!goes) {
        trials.beginStage(1);
        keep(remedies, weldedBendRemedies(trials), options.each);
    }
    remedies.cut_short = options.max_work > 0 && trials.cutShort();
    remedies.plans_made = trials.count();
    remedies.work = trials.work();
    return remedies;
}

}  // namespace tinwright
