// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>

#include "machine/swung_leaf.h"
#include "solids/bodies.h"
#include "solids/motion.h"
#include "solids/steps.h"

namespace tinwright::replay {

/// A row of tools that must cover the bend, and how its pieces and the gaps in it are told.
struct CoveringRow {
    ToolRow row = ToolRow::kUpper;
    const char* piece = "";
    const char* between_two = "";
    const char* at_an_end = "";
};

/// Where panels must lie along half of the bend, in y of the flat sheet.
struct FlatLand {
    bool moving = false;  ///< on that side
    double from_mm = 0;
    double to_mm = 0;
    std::string told;  ///< what the bend then has; goes on from "... of ... mm of the bend"
};

/// Where nothing of the part may hang under the sheet along the bends, in y before the stroke, and how wide what lies
/// there is told to be at the most.
struct PackedStretch {
    double from_mm = 0;
    double to_mm = 0;
    double leaf_from_mm = 0;  ///< where the strip on the leaf begins, towards the front
    double bed_from_mm = 0;   ///< and that on the bed, towards the back
};

/// How part and pieces may leave.
struct WayRules {
    bool at_back = true;       ///< the part may go on behind the bend line
    bool pieces = true;        ///< pieces may be taken out while the part is there,
    bool in_place = true;      ///< one by one
    bool ram_travels = false;  ///< what hangs over the sheet may go up and down while the part is moved
};

/// The machine's bodies in the fold's frame, at rest: the leaf down, or punches and dies on the flat sheet.
struct MachineBodies {
    std::vector<Body> bars;
    std::vector<Body> standing;  ///< beam or ram, bed, frames
    std::optional<SwungLeaf> leaf;

    /// All but the leaf.
    [[nodiscard]] std::vector<const Body*> tools() const;
};

/// A brake in its set-up with the tools of one step: all that the rest of this floor knows of the kind of machine, but
/// for how it closes hems (closing/closing_tools.h). Each kind has an implementation in a file of its own.
class ReplayedMachine {
public:
    /// `step` outlives it.
    ReplayedMachine(BrakeInSetup brake, const FoldStep& step, const Bending& stroke)
        : brake_(std::move(brake)), step_(step), stroke_(stroke) {}
    virtual ~ReplayedMachine() = default;
    ReplayedMachine(const ReplayedMachine&) = delete;
    ReplayedMachine& operator=(const ReplayedMachine&) = delete;

    /// What the sheet does in the step.
    [[nodiscard]] const Bending& stroke() const { return stroke_; }
    /// "a press brake"
    [[nodiscard]] virtual const char* name() const = 0;

    // ---- whether its tools can make the step ----
    /// Says whether the machine goes as far as the step's set angle.
    virtual void checkSetAngle(std::vector<std::string>& wrong) const = 0;
    /// Says whatever keeps the tools of the step from being used together, and for its angle. False when the fold
    /// cannot be replayed at all.
    [[nodiscard]] virtual bool checkTools(std::vector<std::string>& wrong) const = 0;

    // ---- bodies; the step's tools are known to exist ----
    /// Rows that must cover the bend; the covered share that is told is that of the last.
    [[nodiscard]] virtual const std::vector<CoveringRow>& rows() const = 0;
    /// What a piece of a row is called.
    [[nodiscard]] const char* pieceName(ToolRow row) const;
    /// The pieces of a step with these tools, those over the sheet raised by `upper_mm`.
    [[nodiscard]] std::vector<Body> pieceBodies(const FoldStep& step, double upper_mm) const;
    [[nodiscard]] MachineBodies bodies() const;

    // ---- what the sheet and the lower tools do ----
    [[nodiscard]] virtual std::vector<FlatLand> flatLands(const Limits& limits, const Steps& steps) const = 0;
    /// Of machines on which the sheet is packed up for the step.
    [[nodiscard]] virtual std::optional<PackedStretch> packedStretch(const Limits& /*limits*/) const { return {}; }
    /// How far lower tools have come up; asked of machines on which both sides of the sheet move.
    [[nodiscard]] virtual double lowerRise_mm(const Motion& motion, double angle_rad) const = 0;
    /// Whether nothing of a moving body is under what a leaf swings: it bears on the sheet over it.
    [[nodiscard]] virtual bool liesOverLeaf(const Body& part_body) const { return standsOnSheet(part_body); }
    /// Whether a body of the part is meant to be nearer to a tool than any clearance.
    [[nodiscard]] virtual bool touchesByIntention(const Body& part_body, const Body& tool, bool moves) const = 0;

    // ---- ways in and out ----
    [[nodiscard]] virtual WayRules wayRules() const = 0;
    /// What is wrong with upper tools that rise by `lift_mm` while the lower ones are up by `rise_mm`.
    [[nodiscard]] virtual std::vector<std::string> liftFaults(double lift_mm, double rise_mm) const = 0;

protected:
    /// All bodies but the end frames.
    [[nodiscard]] virtual MachineBodies ownBodies() const = 0;
    [[nodiscard]] const BrakeInSetup& brake() const { return brake_; }
    [[nodiscard]] const FoldStep& step() const { return step_; }

private:
    BrakeInSetup brake_;
    const FoldStep& step_;
    Bending stroke_;
};

/// The brake's kind as it is replayed, for bends with this allowance.
[[nodiscard]] std::shared_ptr<const ReplayedMachine> replayedMachine(const BrakeInSetup& brake, const FoldStep& step,
                                                                     double thickness_mm, double allowance_mm);

}  // namespace tinwright::replay
