// SPDX-License-Identifier: GPL-3.0-or-later
// Remedies that change named dimensions: one, or two together.
#include <algorithm>
#include <cmath>

#include "remedies/remedy_trials.h"

namespace tinwright {

namespace {

constexpr std::size_t kFirstChanges = 6;  // from which a second one is looked for

double changed_mm(const Remedy& remedy) {
    double sum = 0;
    for (const DimensionChangeTo& one : remedy.dimensions) sum += std::abs(one.to_mm - one.from_mm);
    return sum;
}

bool cheaper(const Remedy& a, const Remedy& b) { return changed_mm(a) < changed_mm(b); }

SuitOptions suitOptions(const RemedyTrials& trials, const Suitability& as_drawn, std::uint64_t work) {
    SuitOptions options;
    options.step_mm = trials.options().step_mm;
    options.time_limit_s = 0;
    options.max_states = trials.options().max_states;
    options.formed = trials.options().formed;
    options.robust = trials.options().robust;
    options.as_drawn = as_drawn;
    options.verdict_only = true;
    options.past_limits = false;
    options.max_work = work;
    return options;
}

SuitResult suited(RemedyTrials& trials, const Part& part, const TweakedPart& tweaks, const Suitability& as_drawn,
                  std::uint64_t work) {
    SuitResult result = suit(part, tweaks, trials.shop(), trials.brake(),
                             suitOptions(trials, as_drawn, std::max<std::uint64_t>(work, 1)));
    trials.add(result.plans_made, result.work, result.cut_short);
    return result;
}

Remedy remedyOf(const RemedyTrials& trials, const Suggestion& suggestion) {
    Remedy remedy;
    remedy.kind = RemedyKind::kDimension;
    remedy.brake = trials.brakeIndex();
    remedy.result = suggestion.result;
    remedy.dimensions = {{suggestion.dimension, suggestion.from_mm, suggestion.to_mm}};
    return remedy;
}

// The cheapest come first, but one that is comfortable is among those that are told.
void order(std::vector<Remedy>& found, std::size_t told) {
    std::stable_sort(found.begin(), found.end(), cheaper);
    const auto comfortable = std::find_if(found.begin(), found.end(), [](const Remedy& remedy) {
        return remedy.result.level() == SuitLevel::kComfortably;
    });
    const auto last = found.begin() + static_cast<std::ptrdiff_t>(std::min(told, found.size()));
    if (comfortable != found.end() && comfortable >= last && told > 0)
        std::rotate(last - 1, comfortable, comfortable + 1);
}

// The part with one dimension changed, and the others left to change.
TweakedPart others(const TweakedPart& tweaks, const DimensionValue& first, std::vector<std::size_t>& index) {
    TweakedPart rest;
    for (std::size_t i = 0; i < tweaks.dimensions.size(); ++i) {
        if (i == first.dimension) continue;
        rest.dimensions.push_back(tweaks.dimensions[i]);
        index.push_back(i);
    }
    rest.with = [&tweaks, first, index](const std::vector<DimensionValue>& values) {
        std::vector<DimensionValue> all{first};
        for (const DimensionValue& value : values) all.push_back({index[value.dimension], value.value_mm});
        return tweaks.with(all);
    };
    return rest;
}

}  // namespace

std::vector<Remedy> dimensionRemedies(RemedyTrials& trials, const TweakedPart& tweaks,
                                      std::vector<Suggestion>& other_reasons) {
    if (tweaks.dimensions.empty()) return {};
    SuitResult result = suited(trials, trials.part(), tweaks, trials.asDrawn(), trials.left());
    std::vector<Remedy> found;
    for (const Suggestion& suggestion : result.suggestions) {
        if (lifts(trials.asDrawn(), suggestion.result)) found.push_back(remedyOf(trials, suggestion));
    }
    order(found, trials.options().each);
    other_reasons = std::move(result.other_reasons);
    return found;
}

// The first change must have done something: what stands in the way is another thing then.
std::vector<Remedy> twoDimensionRemedies(RemedyTrials& trials, const TweakedPart& tweaks,
                                         const std::vector<Suggestion>& other_reasons) {
    std::vector<Remedy> found;
    if (tweaks.dimensions.size() < 2) return found;
    for (std::size_t i = 0; i < std::min(kFirstChanges, other_reasons.size()) && !trials.spent(); ++i) {
        const Suggestion& first = other_reasons[i];
        const DimensionValue value{first.dimension, first.to_mm};
        const Result<Part> part = tweaks.with({value});
        if (!part) continue;
        std::vector<std::size_t> index;
        const TweakedPart rest = others(tweaks, value, index);
        for (const Suggestion& second : suited(trials, part.value(), rest, first.result, trials.left()).suggestions) {
            if (!lifts(trials.asDrawn(), second.result)) continue;
            Remedy remedy = remedyOf(trials, second);
            remedy.kind = RemedyKind::kTwoDimensions;
            remedy.dimensions = {{first.dimension, first.from_mm, first.to_mm},
                                 {index[second.dimension], second.from_mm, second.to_mm}};
            std::sort(remedy.dimensions.begin(), remedy.dimensions.end(),
                      [](const auto& a, const auto& b) { return a.dimension < b.dimension; });
            const bool known = std::any_of(found.begin(), found.end(), [&](const Remedy& other) {
                return std::equal(
                    other.dimensions.begin(), other.dimensions.end(), remedy.dimensions.begin(),
                    [](const auto& a, const auto& b) { return a.dimension == b.dimension && a.to_mm == b.to_mm; });
            });
            if (!known) found.push_back(std::move(remedy));
        }
    }
    order(found, trials.options().each);
    return found;
}

}  // namespace tinwright
