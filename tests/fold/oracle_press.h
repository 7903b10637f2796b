// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The kernel's oracle for press brakes: "The machine model of a press brake" of src/fold/NOTES.md written down a second
// time, for libfcl (oracle_sheet.h). Angles are those of half a bend, `h_rad`, unless they say otherwise.

#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "oracle_sheet.h"

namespace tinwright::oracle {

/// Sections in the frame of a fold before the stroke, not fitted yet. Seats are as high as the punches, and as deep as
/// the dies, that stand.
[[nodiscard]] Region ramSectionOf(const BrakeInSetup& brake, double thickness_mm, double punch_height_mm);
[[nodiscard]] Region pressBedSectionOf(const BrakeInSetup& brake, double die_height_mm);
[[nodiscard]] Region frameSectionOf(const BrakeInSetup& brake);  ///< there is one: throat_mm > 0

/// One bend's stroke in the V of a brake's dies.
class PressModel {
public:
    PressModel(const Part& part, const Outlines& outlines, const BrakeInSetup& brake, const Vee& vee,
               double overbend_deg, BendMask formed, BendId bend, Side hold);

    [[nodiscard]] double end_rad() const { return end_; }
    [[nodiscard]] double leastStrip_mm() const { return at_rest_.leastStrip_mm(frame_); }  ///< x of the fold's zero
    /// Panels first, then the strips of all bends in their order; the fold's own is left empty. `moving`: in front.
    [[nodiscard]] const std::vector<SheetPiece>& pieces() const { return pieces_; }
    [[nodiscard]] Eigen::Isometry3d side(double h_rad, bool front, Forming forming) const;
    /// How far dies and bed have come up.
    [[nodiscard]] double rise_mm(double h_rad, Forming forming) const;
    /// Whether the V takes the bend to its end: steeper flanks than the sheet, and the sheet on both shoulders.
    [[nodiscard]] bool veeTakesIt() const;

    /// The first half angle looked at at which the sheet meets a tool; negative: none. `step_rad` is the finest step.
    /// Some tools rise.
    [[nodiscard]] double meets(const SheetPiece& sheet, const Section& tool, bool rises, double x0, double x1,
                               Forming forming, double step_rad) const;
    /// Front against back; the front one shrunk or not.
    [[nodiscard]] double meetsBack(const SheetPiece& front, bool shrunk, const SheetPiece& back, Forming forming,
                                   double step_rad) const;
    /// The fold's own strip, bent and shrunk, at the end of the stroke, against a piece of the part or a tool.
    [[nodiscard]] bool stripMeets(const SheetPiece& sheet) const;
    [[nodiscard]] bool stripMeets(const Section& tool, bool rises, double x0, double x1) const;
    /// Whether a punch meets a die anywhere on its way up.
    [[nodiscard]] bool punchMeetsDie(const Section& punch, const Section& die) const;

private:
    [[nodiscard]] double sink_mm(double h_rad, Forming forming) const;
    [[nodiscard]] double riseSpeed() const;
    [[nodiscard]] double speedOf(const ConvexPoints& points) const {
        return sheetSpeed(points, centre_, 0.5 * allowance_, end_);
    }

    AtRest at_rest_;
    double t_, r_, allowance_, end_;
    double shoulder_, shoulder_out_, steepest_;  // radius and |y| of the shoulders' arcs, and of their centres
    Vec2 centre_;
    Eigen::Isometry3d frame_;
    std::vector<SheetPiece> pieces_;
};

}  // namespace tinwright::oracle
