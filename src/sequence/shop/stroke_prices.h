// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <unordered_map>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/checks/stroke_troubles.h>

#include "shop/machine_habits.h"
#include "shop/machine_states.h"
#include "shop/stroke_answers.h"

namespace tinwright {

/// What strokes cost, by the shop's times. For every stroke some set-ups are weighed: what stands already, if it does;
/// the string of fewest pieces, and where tools have several sections that of each, since a later stroke may have to
/// have them; and what is shared, since what a later stroke needs anyway may do from the start. What a stroke spoils
/// and the care that it wants hang on the set-up as well.
class StrokePrices {
public:
    StrokePrices(const Part& part, const Shop& shop, const BrakeInSetup& brake, const Material* material,
                 FoldEngine& engine, MachineStates& states)
        : part_(part),
          times_(shop.times),
          brake_(brake),
          habits_(habitsOf(*brake)),
          troubles_(part, shop, brake, material),
          engine_(engine),
          states_(states) {}

    [[nodiscard]] StepCost cost(MachineState before, AnsweredStroke& stroke);
    /// What stands already, a set-up of its own, or another of those weighed. The first is that of `cost`.
    [[nodiscard]] std::vector<StepCost> costs(MachineState before, AnsweredStroke& stroke, std::int64_t most_ms);
    /// The result with which a step is made that leaves `after`.
    [[nodiscard]] const StrokeResult& made(AnsweredStroke& stroke, MachineState after);
    [[nodiscard]] Handling handling(MachineState before, AnsweredStroke& stroke);
    /// What it spoils, and the care that it wants, with what stands after it.
    [[nodiscard]] const StrokeTrouble& troubleOf(AnsweredStroke& stroke, MachineState after);
    [[nodiscard]] Spoils spoilsLowerBound(BendId bend) { return troubles_.least(bend); }
    [[nodiscard]] Spoils spoilsLowerBound(const Stroke& stroke);
    /// A lower bound of the time of any stroke.
    [[nodiscard]] std::int64_t timeLowerBound_ms() const { return times_.fold_ms + times_.gauge_ms; }

    /// From here on what stands after these may also be set up for any stroke. False when that adds nothing.
    bool share(const std::vector<MachineState>& after);
    [[nodiscard]] std::vector<Setup> shared() const;
    void share(const std::vector<Setup>& setups);

    /// Strokes that were looked at with what stood already.
    [[nodiscard]] std::size_t keptCount() const { return kept_.size(); }

private:
    using SetupId = MachineStates::SetupId;
    // A stroke made with what stands already.
    struct Kept {
        StrokeResult result;
        OfSetup of;
    };
    // One set-up to make a stroke with.
    struct Choice {
        const StrokeResult* result = nullptr;
        SetupId setup = 0;
        OfSetup* of = nullptr;  // where it is remembered
        StepCost cost;
    };
    void lay(AnsweredStroke& stroke);
    /// A set-up of its own, and what stands already where that is another one and does.
    struct Choices {
        Choice fresh;
        std::optional<Choice> as_it_stands;
        [[nodiscard]] bool keeps() const;
        [[nodiscard]] const Choice& best() const { return keeps() ? *as_it_stands : fresh; }
    };
    [[nodiscard]] Choices choices(MachineState before, AnsweredStroke& stroke, std::int64_t most_ms);
    [[nodiscard]] const std::vector<SetupId>& bySection(AnsweredStroke& stroke);
    [[nodiscard]] Choice freshChoice(MachineState before, AnsweredStroke& stroke);
    [[nodiscard]] std::optional<Choice> keptChoice(MachineState before, AnsweredStroke& stroke, SetupId setup,
                                                   std::int64_t most_ms);
    [[nodiscard]] std::int64_t priceLowerBound_ms(MachineState before, AnsweredStroke& stroke, SetupId setup);
    [[nodiscard]] FoldActions actionsBut(MachineState before, AnsweredStroke& stroke, SetupId setup);
    [[nodiscard]] GaugeWork gaugeOf(const AnsweredStroke& stroke, const StrokeResult& result);
    [[nodiscard]] int largerBehind(AnsweredStroke& stroke);
    [[nodiscard]] StepCost finished(const Choice& choice, const AnsweredStroke& stroke);
    /// `of`: where it is remembered.
    [[nodiscard]] StepCost price(MachineState before, AnsweredStroke& stroke, const StrokeResult& result, SetupId setup,
                                 OfSetup& of);
    [[nodiscard]] StrokeTrouble findTrouble(const AnsweredStroke& stroke, const StrokeResult& result);
    [[nodiscard]] Kept& kept(const AnsweredStroke& stroke, SetupId setup);
    [[nodiscard]] bool drawnFaceUp(const AnsweredStroke& stroke) const { return part_.bend(stroke.stroke.first()).up; }
    void shareStations(const std::vector<MachineState>& after);

    const Part& part_;
    const Times& times_;
    BrakeInSetup brake_;
    MachineHabits habits_;
    StrokeTroubles troubles_;
    FoldEngine& engine_;
    MachineStates& states_;
    std::vector<SetupId> shared_;                   // may be set up for any stroke
    std::unordered_map<std::uint64_t, Kept> kept_;  // by handle and set-up; looked up only
};

}  // namespace tinwright
