// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The part as the kernel's oracle sees it, for any kind of brake: panels and strips as convex bodies of a
// general-purpose collision library (libfcl, libccd's solver, yes or no at single angles), and sections of tools.
// Nothing here calls the kernel; poses of panels come from the part floor, whose kinematics have tests of their own
// against closed form.

#include <vector>

#include <Eigen/Geometry>

#include <tinwright/base/stroke.h>
#include <tinwright/brake/machines/brake.h>
#include <tinwright/part/model/part.h>

#include "../verify/fcl_bodies.h"

namespace tinwright::oracle {

/// A piece of the part: a panel, or the strip of a bend, as convex bodies in the frame of the bend that is folded
/// (x = 0 at Bend::origin), before the stroke.
struct SheetPiece {
    bool moving = false;  ///< of a press brake: in front
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
/// A section moved in (y, z).
[[nodiscard]] Region movedBy(Polygon section, const Vec2& by);
/// Section of a bar or punch over sheet of a thickness, in the frame of a fold. Not fitted yet.
[[nodiscard]] Region barSectionOf(const tinwright::Tool& bar, double thickness_mm);
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
    PanelId frame;  ///< itself, or the strip's parent
    std::vector<ConvexPoints> whole;
    std::vector<ConvexPoints> shrunk;
};
[[nodiscard]] LocalPiece panelPiece(const Part& part, const Outlines& outlines, PanelId panel);
[[nodiscard]] LocalPiece stripPiece(const Part& part, BendId bend, bool formed, double nose_radius_mm);

/// How the strip forms: 0 rolling round the nose, 1 uniform curvature, and what lies between.
struct Forming {
    double uniform_share = 0;
};

/// Rolling: w = A a / S along y. Uniform curvature: R(-a)(0, D) - (0, D) + A y with D = A/a - A/S.
[[nodiscard]] Vec2 formingShift(double a_rad, double allowance_mm, double set_rad, Forming forming);
/// R(a) about x: turns the front (-y) up.
[[nodiscard]] Eigen::Matrix3d frontTurnedUp(double a_rad);
/// p goes to C + R(a)(p - C + w).
[[nodiscard]] Eigen::Isometry3d swungAbout(const Vec2& centre, double a_rad, const Vec2& w);
/// |d/da| of any of those corners: |d/da R(p - C + w)| <= |p - C| + |w| + |w'|, with |w| <= 2 A and |w'| <= A + 3 A / S
/// with room to spare.
[[nodiscard]] double sheetSpeed(const ConvexPoints& points, const Vec2& centre, double allowance_mm, double set_rad);

/// The state of a part that is about to be folded, and where: the tangent line of one side, or the strip's middle, at
/// `line_y_mm` with the bend's inside up.
struct AtRest {
    const Part* part;
    BendMask formed;
    BendId bend;
    Side hold;
    double radius_mm;                 ///< of formed bends
    [[nodiscard]] Vec2 back() const;  ///< towards the held side, in the blank
    /// From the held panel's blank frame; `line` is a point of the blank.
    [[nodiscard]] Eigen::Isometry3d frame(const Vec2& line, double line_y_mm) const;
    /// Panels first, then the strips of all bends in their order; the fold's own is left empty.
    [[nodiscard]] std::vector<SheetPiece> pieces(const Outlines& outlines, const Eigen::Isometry3d& frame) const;
    /// +1 or -1: x of the frame along Bend::along.
    [[nodiscard]] double along(const Eigen::Isometry3d& frame) const;
    [[nodiscard]] double leastStrip_mm(const Eigen::Isometry3d& frame) const;  ///< x of the fold's zero
};

/// A strip bent to an angle about (y, z), shrunk by kDeep_mm, as slices: its arc begins `from_rad` in front of straight
/// below the centre (behind it when negative) and goes on to the front.
[[nodiscard]] std::vector<ConvexPoints> bentStrip(const Bend& bend, double along, double thickness_mm, double radius_mm,
                                                  double angle_rad, double from_rad, const Vec2& centre);
/// Whether one of two sets of bodies meets another.
[[nodiscard]] bool anyMeet(const std::vector<ConvexPoints>& some, const std::vector<ConvexPoints>& others);

}  // namespace tinwright::oracle
