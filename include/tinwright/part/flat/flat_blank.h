// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/model/part.h>

/// A part from its flat blank: the sheet as cut and straight bend lines on it, each the centre of its strip. Two steps,
/// since what is to be made of a line is told by where it lies:
///
///     Result<std::vector<FlatJoint>> joints = jointsOf(sheet, lines);        // which lines are one bend
///     ... say for each joint how it is bent: a FlatBend ...
///     Result<Part> part = partFromFlat(sheet, joints.value(), bends, whole);
///
/// Issues have no file; the caller knows it. Lengths in mm, blank coordinates.
namespace tinwright {

/// What a bend line may be off by.
struct FlatTolerance {
    static constexpr double kReach_mm = 0.5;      ///< that a line may end short of the edge of the sheet
    static constexpr double kSameLine_mm = 0.05;  ///< lines that lie nearer to one straight line than this are one line
    static constexpr std::size_t kLines = 2000;   ///< bend lines in one blank
};

/// A line on the sheet that a bend is to follow.
struct FlatLine {
    Vec2 from = Vec2::Zero();
    Vec2 to = Vec2::Zero();
    std::string place;  ///< for issues
};

/// Stretches of one straight line, each from edge to edge of the sheet, between the same two panels.
struct FlatJoint {
    Vec2 origin = Vec2::Zero();
    Vec2 along = Vec2::UnitX();    ///< unit vector; points right, or straight up
    std::vector<StripSpan> spans;  ///< of the line itself, ascending, from `origin`
    std::string place;

    [[nodiscard]] Vec2 at(double along_mm) const { return origin + along_mm * along; }
    /// Distance of a point from the nearest of the stretches.
    [[nodiscard]] double distance_mm(const Vec2& point) const;
};

/// How a joint is bent.
struct FlatBend {
    std::string name;  ///< empty: numbered "b1", "b2", ... in the order of the part's bends
    Angle angle;       ///< 180°: a hem, whose gap is twice the inside radius
    bool up = true;
    double inside_radius_mm = 0;
    double allowance_mm = 0;  ///< over 0
    AllowanceRule rule = AllowanceRule::kKFactor;
    double rule_value = 0;
    std::string rule_source;  ///< as Bend::rule_source
};

/// What holds for the whole part.
struct FlatPart {
    std::string name;
    std::string material;
    double thickness_mm = 0;
    std::string base_name = "base";
    std::optional<Vec2> base_at;  ///< a point of the base panel; none: the largest panel
    std::vector<std::string> warnings;
    std::optional<double> grain_deg;  ///< as Part::grain_deg
    Film film = Film::kUnsaid;
};

/// Joints in a fixed order (left to right, then bottom to top, by the middle of their stretches) that does not depend
/// on the order of the lines. Issues: "bend.short" (a line ends inside the sheet), "bend.off-sheet", "bend.crossing",
/// "bend.panels" (a line that does not part the sheet into two panels), "bend.count".
[[nodiscard]] Result<std::vector<FlatJoint>> jointsOf(const Region& sheet, const std::vector<FlatLine>& lines);

/// The part: strips taken out, panels hung on one another from the base. `bends[i]` is made at `joints[i]`; where the
/// tree leaves a choice, bends come in that order. A panel has the name of the bend it hangs on. Named edges are each
/// panel's longest free straight edges: "front", "right", "back", "left" of the base (to low y, high x, high y, low x),
/// "far", "left", "right" of a flange as in a recipe, and "e1", "e2", ... in other directions. Issues: those of the
/// bends, and "bend.ring" (panels in a ring: a welded seam), "base", "bend.name", "finished.collide".
[[nodiscard]] Result<Part> partFromFlat(const Region& sheet, const std::vector<FlatJoint>& joints,
                                        const std::vector<FlatBend>& bends, const FlatPart& whole);

}  // namespace tinwright
