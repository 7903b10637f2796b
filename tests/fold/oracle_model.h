// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The kernel's oracle: the machine model of src/fold/NOTES.md written down a second time, for a general-purpose collision
// library (libfcl: convex bodies, libccd's solver, yes or no at single angles). Nothing here calls the kernel; poses of
// panels come from the part floor, whose kinematics have tests of their own against closed form.

#include <vector>

#include <Eigen/Geometry>

#include <tinwright/brake/brake.h>
#include <tinwright/part/part.h>

#include "../verify/fcl_bodies.h"

namespace tinwright::oracle {

/// A piece of the part: a panel, or the strip of a bend, as convex bodies in the frame of the bend that is folded
/// (x = 0 at Bend::origin), before the stroke.
struct SheetPiece {
    bool moving = false;
    bool is_arc = false;
    std::vector<ConvexPoints> whole;   ///< for arcs: slices within the true arc
    std::vector<ConvexPoints> shrunk;  ///< by kDeep_mm, before it was split
};

/// Contact is called deep from here on: the kernel's stated tolerance of 0.05 mm, and a little.
inline constexpr double kDeep_mm = 0.07;
/// Clear beyond doubt: not even when the tool is grown by this.
inline constexpr double kGrown_mm = 0.05;

enum class Fit { kShrunk, kPlain, kGrown };

/// Section pieces of a tool, or of nothing.
using Section = std::vector<Polygon>;
[[nodiscard]] Section fitted(const Region& section, Fit fit);
/// Sections of the tools of a brake for a sheet thickness, in the frame of a fold. Not fitted yet.
[[nodiscard]] Region barSectionOf(const Bar& bar, double thickness_mm);
[[nodiscard]] Region bedSectionOf(const Brake& brake, double thickness_mm);
[[nodiscard]] Region beamSectionOf(const Brake& brake, double thickness_mm);
/// A region cut by two level lines.
[[nodiscard]] std::vector<Region> cut(const Region& region, double z_lo, double z_hi);

/// Panels as convex outlines, whole and shrunk by kDeep_mm: of a part, whatever its state.
struct Outlines {
    explicit Outlines(const Part& part);
    std::vector<std::vector<Polygon>> whole;
    std::vector<std::vector<Polygon>> shrunk;
};

/// A panel, or a strip flat or bent, as SheetPiece but in the frame of a panel of the blank.
struct LocalPiece {
    PanelId frame;                     ///< itself, or the strip's parent
    std::vector<ConvexPoints> whole;
    std::vector<ConvexPoints> shrunk;
};
[[nodiscard]] LocalPiece panelPiece(const Part& part, const Outlines& outlines, PanelId panel);
[[nodiscard]] LocalPiece stripPiece(const Part& part, BendId bend, bool formed, double nose_radius_mm);

/// How the strip forms: 0 rolling round the nose, 1 uniform curvature, and what lies between.
struct Forming {
    double uniform_share = 0;
};

/// One bend's stroke on one brake.
class Stroke {
public:
    Stroke(const Part& part, const Outlines& outlines, const Brake& brake, double overbend_deg, BendMask formed, BendId bend, int hold);

    [[nodiscard]] double set_rad() const { return set_; }
    [[nodiscard]] double leastStrip_mm() const;  ///< x of the fold's zero
    [[nodiscard]] Eigen::Isometry3d swing(double a_rad, Forming forming) const;  ///< of the moving side
    [[nodiscard]] const Eigen::Isometry3d& frame() const { return frame_; }      ///< from the held panel's blank frame
    /// The leaf swung to an angle: as it stands (for the held side), or as it bears on the moving side.
    [[nodiscard]] ConvexPoints leaf(double a_rad, const LeafFace& face, Fit fit, double x0, double x1) const { return leafAt(a_rad, face, fit, x0, x1, 0); }
    [[nodiscard]] ConvexPoints leafBearing(double a_rad, const LeafFace& face, Fit fit, double x0, double x1, Forming forming) const;
    /// Panels first, then the strips of all bends in their order; the fold's own is left empty.
    [[nodiscard]] const std::vector<SheetPiece>& pieces() const { return pieces_; }
    /// Whether the fold's own strip, bent and shrunk, meets a held piece at the end of the stroke.
    [[nodiscard]] bool meetsOwnStrip(const SheetPiece& held) const;
    /// That strip, as slices.
    [[nodiscard]] std::vector<ConvexPoints> ownStrip() const;

    /// The first angle looked at (about half a degree apart when near) at which the sheet meets a tool that stands still;
    /// negative: none. `step_rad` is the finest step.
    [[nodiscard]] double meetsStill(const SheetPiece& sheet, bool shrunk, const Section& tool, double x0, double x1, Forming forming,
                                    double step_rad) const;
    [[nodiscard]] double meetsLeaf(const SheetPiece& sheet, const LeafFace& face, Fit fit, double x0, double x1, Forming forming,
                                   double step_rad) const;
    /// Moving against held; the moving one shrunk or not.
    [[nodiscard]] double meetsHeld(const SheetPiece& moving, bool shrunk, const SheetPiece& held, Forming forming, double step_rad) const;

private:
    [[nodiscard]] double meetAlone(const ConvexPoints& moving, bool moves, const ConvexPoints& still, Forming forming, double step_rad) const;
    [[nodiscard]] double sheetSpeed(const ConvexPoints& points) const;
    [[nodiscard]] Vec2 forms(double a, Forming forming) const;
    [[nodiscard]] ConvexPoints leafAt(double a, const LeafFace& face, Fit fit, double x0, double x1, double drawn_back) const;
    [[nodiscard]] double drawnBack_mm(double a, Forming forming) const;
    void addPieces(const Outlines& outlines, BendMask formed);

    const Part* part_;
    const Brake* brake_;
    BendId bend_;
    int hold_;
    double t_, rn_, s_, h_, allowance_, set_;
    Vec2 centre_;
    Eigen::Isometry3d frame_;
    std::vector<SheetPiece> pieces_;
};

}  // namespace tinwright::oracle
