// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/remedies/suit.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include <tinwright/base/holds.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "remedies/bar_measures.h"
#include "remedies/suit_trials.h"

namespace tinwright {

namespace {

// How far past the limits of change the nearest value is looked for when none within them helps.
constexpr double kBeyond = 3.0;
// Changes that are tried of dimensions about which the bars say nothing: flange heights, lips, cut-outs.
constexpr double kLadder_mm[] = {0.5, 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50};

std::vector<Gain> gainsOf(const Suitability& before, const Suitability& after) {
    std::vector<Gain> gains;
    if (after.level() < before.level() || !after.works()) return gains;
    const auto comesTo = [&](SuitLevel level) { return before.level() < level && after.level() >= level; };
    if (!before.works()) gains.push_back(Gain::kGoes);
    if (comesTo(SuitLevel::kTightly)) gains.push_back(Gain::kCleanly);
    if (comesTo(SuitLevel::kComfortably)) gains.push_back(Gain::kComfortable);
    if (!before.works()) return gains;
    if (after.bars < before.bars) gains.push_back(Gain::kFewerBars);
    if (after.least_cover >= before.least_cover + kCoverStep) gains.push_back(Gain::kBetterCover);
    return gains;
}

// One dimension, one direction.
class Walk {
public:
    Walk(SuitTrials& trials, std::size_t dimension, int way) : trials_(trials), dimension_(dimension), way_(way) {}

    // The nearest value with the gain; `steps` are grid steps away from what is drawn, ascending.
    std::optional<Suggestion> nearest(Gain gain, const std::vector<int>& steps) {
        int before = 0;  // the last one that did not gain
        for (const int step : steps) {
            if (!gains(step, gain)) {
                before = step;
                continue;
            }
            return suggestion(closeIn(before, step, gain));
        }
        return std::nullopt;
    }

private:
    [[nodiscard]] std::vector<Gain> gainsAt(int step) {
        return gainsOf(trials_.asDrawn(), trials_.at(dimension_, way_ * step));
    }
    [[nodiscard]] bool gains(int step, Gain gain) { return holds(gainsAt(step), gain); }

    // `good` gains, `bad` does not (or is where it was drawn). Most often the step before `good` does not either.
    int closeIn(int bad, int good, Gain gain) {
        if (good - bad <= 1 || !gains(good - 1, gain)) return good;
        --good;
        while (good - bad > 1) {
            const int middle = bad + (good - bad) / 2;
            (gains(middle, gain) ? good : bad) = middle;
        }
        return good;
    }

    Suggestion suggestion(int step) {
        Suggestion found;
        found.dimension = dimension_;
        found.from_mm = trials_.drawn_mm(dimension_);
        found.to_mm = trials_.value_mm(dimension_, way_ * step);
        found.result = trials_.at(dimension_, way_ * step);
        found.gains = gainsAt(step);
        return found;
    }

    SuitTrials& trials_;
    std::size_t dimension_;
    int way_;
};

class Suiting {
public:
    Suiting(const Part& part, const TweakedPart& tweaks, const Shop& shop, const BrakeInSetup& brake,
            const SuitOptions& options)
        : part_(part),
          tweaks_(tweaks),
          shop_(shop),
          brake_(brake),
          options_(options),
          trials_(part, tweaks, shop, brake, options) {}

    SuitResult run() {
        lookWithin(1.0, true);
        if (result_.suggestions.empty() && trials_.asDrawn().level() < SuitLevel::kComfortably) lookWithin(1.0, false);
        keepOtherReasons();
        if (options_.past_limits && result_.suggestions.empty() && !trials_.asDrawn().works()) {
            lookWithin(kBeyond, true);
            if (result_.suggestions.empty()) lookWithin(kBeyond, false);
            if (!result_.suggestions.empty()) result_.beyond = result_.suggestions.front();
            result_.suggestions.clear();
            result_.bar = trials_.wantedBar(part_);
        }
        result_.as_drawn = trials_.asDrawn();
        result_.plans_made = trials_.count();
        result_.work = trials_.work();
        result_.cut_short = trials_.spent();
        return std::move(result_);
    }

private:
    void lookWithin(double times_reach, bool where_bars_turn) {
        for (std::size_t i = 0; i < tweaks_.dimensions.size(); ++i) {
            for (const int way : {1, -1}) {
                const int most = trials_.steps(i, way, times_reach);
                const std::vector<int> steps = where_bars_turn ? turningSteps(i, way, most) : ladder(most);
                for (const Gain gain : wanted()) {
                    if (auto found = Walk(trials_, i, way).nearest(gain, steps)) keep(std::move(*found));
                }
            }
        }
        std::stable_sort(result_.suggestions.begin(), result_.suggestions.end(),
                         [](const Suggestion& a, const Suggestion& b) {
                             return std::tuple(rank(a), std::abs(a.to_mm - a.from_mm)) <
                                    std::tuple(rank(b), std::abs(b.to_mm - b.from_mm));
                         });
    }

    void keepOtherReasons() {
        for (const auto& [dimension, step] : trials_.otherReasons()) {
            result_.other_reasons.push_back({dimension,
                                             trials_.drawn_mm(dimension),
                                             trials_.value_mm(dimension, step),
                                             {},
                                             trials_.at(dimension, step)});
        }
        std::stable_sort(result_.other_reasons.begin(), result_.other_reasons.end(), nearer);
    }

    static bool nearer(const Suggestion& a, const Suggestion& b) {
        return std::abs(a.to_mm - a.from_mm) < std::abs(b.to_mm - b.from_mm);
    }

    // What makes it go comes first, and comfortably before tight, cleanly before with trouble: a suggestion is taken to
    // be folded from.
    static int rank(const Suggestion& suggestion) {
        if (holds(suggestion.gains, Gain::kComfortable)) return 0;
        if (holds(suggestion.gains, Gain::kCleanly)) return 1;
        if (holds(suggestion.gains, Gain::kGoes)) return 2;
        return holds(suggestion.gains, Gain::kFewerBars) ? 3 : 4;
    }

    [[nodiscard]] std::vector<Gain> wanted() {
        switch (trials_.asDrawn().level()) {
            case SuitLevel::kNoOrder: return {Gain::kGoes, Gain::kCleanly, Gain::kComfortable};
            case SuitLevel::kWithTrouble:
                return {Gain::kCleanly, Gain::kComfortable, Gain::kFewerBars, Gain::kBetterCover};
            case SuitLevel::kTightly: return {Gain::kComfortable, Gain::kFewerBars, Gain::kBetterCover};
            case SuitLevel::kComfortably: break;
        }
        return {Gain::kFewerBars, Gain::kBetterCover};
    }

    void keep(Suggestion found) {
        const bool known = std::any_of(
            result_.suggestions.begin(), result_.suggestions.end(),
            [&](const Suggestion& other) { return other.dimension == found.dimension && other.to_mm == found.to_mm; });
        if (!known) result_.suggestions.push_back(std::move(found));
    }

    // Steps at which some length that bars have to do with comes to where they turn. Lengths grow evenly with a
    // dimension.
    std::vector<int> turningSteps(std::size_t dimension, int way, int most) {
        std::vector<int> steps;
        const double far_mm = trials_.change_mm(dimension, way * most);
        const std::vector<BarMeasure> drawn = barMeasures(part_, brake_.inside_radius_mm());
        const auto changed = trials_.measuresAt(dimension, way);
        if (!changed || changed->size() != drawn.size()) return steps;
        const double unit_mm = trials_.change_mm(dimension, way);
        for (std::size_t i = 0; i < drawn.size(); ++i) {
            const double slope = ((*changed)[i].mm - drawn[i].mm) / unit_mm;
            if (std::abs(slope) < 1e-6) continue;
            const double end_mm = drawn[i].mm + slope * far_mm;
            for (const double length :
                 turningLengths_mm(brake_, shop_.limits, drawn[i].kind, std::min(drawn[i].mm, end_mm),
                                   std::max(drawn[i].mm, end_mm))) {
                const int step = static_cast<int>(
                    std::ceil(trials_.stepsFor(dimension, way, (length - drawn[i].mm) / slope) - 1e-6));
                for (const int at : {step, step + 1}) {
                    if (at >= 1 && at <= most) steps.push_back(at);
                }
            }
        }
        std::sort(steps.begin(), steps.end());
        steps.erase(std::unique(steps.begin(), steps.end()), steps.end());
        return steps;
    }

    [[nodiscard]] std::vector<int> ladder(int most) const {
        std::vector<int> steps;
        for (const double change : kLadder_mm) {
            const int step = trials_.gridSteps(change);
            if (step >= 1 && step <= most) steps.push_back(step);
        }
        return steps;
    }

    const Part& part_;
    const TweakedPart& tweaks_;
    const Shop& shop_;
    const BrakeInSetup& brake_;
    const SuitOptions& options_;
    SuitTrials trials_;
    SuitResult result_;
};

}  // namespace

SuitResult suit(const Part& part, const TweakedPart& tweaks, const Shop& shop, const BrakeInSetup& brake,
                const SuitOptions& options) {
    return Suiting(part, tweaks, shop, brake, options).run();
}

}  // namespace tinwright
