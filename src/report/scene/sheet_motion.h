// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include <tinwright/base/angle.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/part/model/pose.h>

namespace tinwright::report {

/// Where the sheet is at one moment of a stroke: moves from where it lay flat, in the frame of the fold.
struct SheetMoment {
    Rigid swing;       ///< of the moving side
    Rigid held;        ///< of the held side
    Rigid strips;      ///< of what new strips roll out of
    double angle_rad;  ///< of the new strips
    double share;      ///< of the strip that is formed
};

/// Where a new strip begins to roll, and what of it stays level.
enum class RollsFrom {
    kHeldSide,  ///< at the held side's tangent line
    kMiddle,    ///< in its middle, towards both sides alike
};

/// How the sheet of a stroke moves on a kind of brake (src/fold/NOTES.md).
class SheetMotion {
public:
    virtual ~SheetMotion() = default;
    /// Bent to an angle, with so much of the strip formed.
    [[nodiscard]] virtual SheetMoment at(double angle_rad, double share) const = 0;
    [[nodiscard]] virtual RollsFrom rollsFrom() const = 0;
    /// How far a punch's tip has gone down from where it touched the flat sheet; 0 where there is none.
    [[nodiscard]] virtual double punchDown_mm(Angle /*angle*/) const { return 0; }
};

/// The sheet of a bend, as it bears on how it moves.
struct SheetInBend {
    double thickness_mm = 0;
    double inside_radius_mm = 0;
    double allowance_mm = 0;
};

/// The motion on a brake of its kind.
[[nodiscard]] std::unique_ptr<const SheetMotion> sheetMotion(const BrakeInSetup& brake, double thickness_mm,
                                                             double allowance_mm);
[[nodiscard]] std::unique_ptr<const SheetMotion> motionOfKind(const LeafBrake& kind, const BrakeInSetup& brake,
                                                              const SheetInBend& sheet);
[[nodiscard]] std::unique_ptr<const SheetMotion> motionOfKind(const PressBrake& kind, const BrakeInSetup& brake,
                                                              const SheetInBend& sheet);

/// A move upward.
[[nodiscard]] Rigid upward(double z_mm);

/// The front turned up about an arc's centre at (y, z), the sheet drawn in by what is rolled of the strip.
[[nodiscard]] Rigid rolledUp(const Vec2& centre, Angle angle, double rolled_mm);

}  // namespace tinwright::report
