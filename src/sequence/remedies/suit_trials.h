// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/sequence/remedies/suit.h>

#include "remedies/bar_measures.h"

namespace tinwright {

/// Plans and adds the work. `verdict_only`: whether it goes, and comfortably so, is all that is asked
/// (`plan.tell_reasons`: and why not).
[[nodiscard]] Suitability planForSuit(const Part& part, const Shop& shop, const std::vector<BrakeInSetup>& setups,
                                      PlanOptions plan, bool verdict_only, std::uint64_t& work);

/// Versions of a part, each planned once. A version is a dimension and a number of steps on its grid: step 1 is the
/// first multiple of the grid past what is drawn, step -1 the first before it.
class SuitTrials {
public:
    SuitTrials(const Part& part, const TweakedPart& tweaks, const Shop& shop, const BrakeInSetup& brake,
               const SuitOptions& options);

    const Suitability& asDrawn() const { return as_drawn_; }
    const Suitability& at(std::size_t dimension, int step);
    /// Bar measures one step on; none when the part cannot be made so.
    std::optional<std::vector<BarMeasure>> measuresAt(std::size_t dimension, int step);
    /// One bar more that makes the part go as drawn: as wide as it can be between two walls where nothing suits.
    std::optional<WantedBar> wantedBar(const Part& part);

    [[nodiscard]] double drawn_mm(std::size_t dimension) const { return tweaks_.dimensions[dimension].value_mm; }
    [[nodiscard]] double value_mm(std::size_t dimension, int step) const;
    [[nodiscard]] double change_mm(std::size_t dimension, int step) const {
        return value_mm(dimension, step) - drawn_mm(dimension);
    }
    /// Steps, not rounded, to a change one way.
    [[nodiscard]] double stepsFor(std::size_t dimension, int way, double change_mm) const;
    /// The last step within the limits of change, stretched.
    [[nodiscard]] int steps(std::size_t dimension, int way, double times_reach) const;
    [[nodiscard]] int gridSteps(double mm) const;
    [[nodiscard]] std::size_t count() const { return count_; }
    /// Versions planned within the limits of change that do not go, for other reasons than as drawn.
    [[nodiscard]] std::vector<std::pair<std::size_t, int>> otherReasons() const;
    [[nodiscard]] std::uint64_t work() const { return work_; }
    /// No more is planned: what was not planned yet is undecided.
    [[nodiscard]] bool spent() const { return options_.max_work > 0 && work_ >= options_.max_work; }

private:
    Suitability plan(const Part& part, const BrakeInSetup& brake);
    const TweakedPart& tweaks_;
    const Shop& shop_;
    const BrakeInSetup& brake_;
    const SuitOptions& options_;
    std::uint64_t work_ = 0;
    std::size_t count_ = 0;
    Suitability as_drawn_;
    std::map<std::pair<std::size_t, int>, Suitability> known_;
};

}  // namespace tinwright
