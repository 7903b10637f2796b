// SPDX-License-Identifier: GPL-3.0-or-later
#include "data/fold_place.h"

namespace tinwright::report {
namespace {

BendMask bendsOf(const FoldStep& step) { return step.stroke.bends; }
BendMask bendsOf(const TriedStep& step) { return maskOf(step.bends); }

/// `stepOf(i)`: the fold, or null when there is none.
template <class Steps, class StepOf>
std::vector<FoldPlace> placesOf(const Steps& steps, std::size_t count, BendMask formed, StepOf stepOf) {
    std::vector<FoldPlace> places;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const BendMask after = formed | bendsOf(steps[i]);
        places.push_back({i + 1, count, formed, after, i == 0 ? nullptr : stepOf(i - 1)});
        formed = after;
    }
    return places;
}

}  // namespace

std::vector<FoldPlace> foldPlaces(const std::vector<FoldStep>& folds, BendMask formed) {
    return placesOf(folds, folds.size(), formed, [&](std::size_t i) { return &folds[i]; });
}

std::vector<FoldPlace> foldPlaces(const SplitPlan& split, BendMask formed) {
    std::vector<FoldPlace> places = foldPlaces(split.plan.folds, formed);
    for (std::size_t i = 1; i < places.size(); ++i) {
        if (split.brake_of_fold[i] != split.brake_of_fold[i - 1]) places[i].before = nullptr;
    }
    return places;
}

std::vector<FoldPlace> foldPlaces(const std::vector<TriedStep>& steps, std::size_t count, BendMask formed) {
    return placesOf(steps, count, formed, [&](std::size_t i) { return steps[i].possible ? &steps[i].step : nullptr; });
}

}  // namespace tinwright::report
