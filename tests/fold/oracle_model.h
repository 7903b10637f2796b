// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The kernel's oracle: the machine model of a leaf brake of src/fold/NOTES.md written down a second time, for libfcl
// (oracle_sheet.h).

#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "oracle_sheet.h"

namespace tinwright::oracle {

/// Sections of the tools of a brake for a sheet thickness, in the frame of a fold. Not fitted yet.
[[nodiscard]] Region bedSectionOf(const BrakeInSetup& brake);
[[nodiscard]] Region beamSectionOf(const BrakeInSetup& brake, double thickness_mm);

/// One bend's stroke on one brake.
class LeafModel {
public:
    LeafModel(const Part& part, const Outlines& outlines, const BrakeInSetup& brake, double overbend_deg,
              BendMask formed, BendId bend, Side hold);

    [[nodiscard]] double set_rad() const { return set_; }
    [[nodiscard]] double leastStrip_mm() const { return at_rest_.leastStrip_mm(frame_); }  ///< x of the fold's zero
    [[nodiscard]] Eigen::Isometry3d swing(double a_rad, Forming forming) const;            ///< of the moving side
    [[nodiscard]] const Eigen::Isometry3d& frame() const { return frame_; }  ///< from the held panel's blank frame
    /// The leaf swung to an angle: as it stands (for the held side), or as it bears on the moving side.
    [[nodiscard]] ConvexPoints leaf(double a_rad, const LeafFace& face, Fit fit, double x0, double x1) const {
        return leafAt(a_rad, face, fit, x0, x1, 0);
    }
    [[nodiscard]] ConvexPoints leafBearing(double a_rad, const LeafFace& face, Fit fit, double x0, double x1,
                                           Forming forming) const;
    /// Panels first, then the strips of all bends in their order; the fold's own is left empty.
    [[nodiscard]] const std::vector<SheetPiece>& pieces() const { return pieces_; }
    /// Whether the fold's own strip, bent and shrunk, meets a held piece at the end of the stroke.
    [[nodiscard]] bool meetsOwnStrip(const SheetPiece& held) const;
    /// That strip, as slices.
    [[nodiscard]] std::vector<ConvexPoints> ownStrip() const;

    /// The first angle looked at (about half a degree apart when near) at which the sheet meets a tool that stands
    /// still; negative: none. `step_rad` is the finest step.
    [[nodiscard]] double meetsStill(const SheetPiece& sheet, bool shrunk, const Section& tool, double x0, double x1,
                                    Forming forming, double step_rad) const;
    [[nodiscard]] double meetsLeaf(const SheetPiece& sheet, const LeafFace& face, Fit fit, double x0, double x1,
                                   Forming forming, double step_rad) const;
    /// Moving against held; the moving one shrunk or not.
    [[nodiscard]] double meetsHeld(const SheetPiece& moving, bool shrunk, const SheetPiece& held, Forming forming,
                                   double step_rad) const;

private:
    [[nodiscard]] double meetAlone(const ConvexPoints& moving, bool moves, const ConvexPoints& still, Forming forming,
                                   double step_rad) const;
    [[nodiscard]] double speedOf(const ConvexPoints& points) const {
        return sheetSpeed(points, centre_, allowance_, set_);
    }
    [[nodiscard]] ConvexPoints leafAt(double a, const LeafFace& face, Fit fit, double x0, double x1,
                                      double drawn_back) const;
    [[nodiscard]] double drawnBack_mm(double a, Forming forming) const;

    AtRest at_rest_;
    double t_, rn_, s_, h_, over_leaf_, packed_, allowance_, set_;
    Vec2 centre_;
    Eigen::Isometry3d frame_;
    std::vector<SheetPiece> pieces_;
};

}  // namespace tinwright::oracle
