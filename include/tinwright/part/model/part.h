// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/angle.h>
#include <tinwright/base/ids.h>
#include <tinwright/geometry/planar.h>

namespace tinwright {

/// A flat region of the part between bends, in blank coordinates.
struct Panel {
    std::string name;
    Region region;  ///< bend strips already taken out
};

/// Which rule gave a bend its allowance.
enum class AllowanceRule {
    kKFactor,
    kDin6935,
    kHandbook,
    kMeasured,  ///< the shop's own test strips
};

/// A stretch along a bend line where there is sheet, measured from Bend::origin along Bend::along.
struct StripSpan {
    double from_mm = 0;
    double to_mm = 0;
    [[nodiscard]] double length_mm() const { return to_mm - from_mm; }
};

/// A bend whose two sides end up side by side: it is folded as far as its brake goes and then flattened
/// (brake/hemming.h). Closed it turns by 180° round half the gap.
struct Hem {
    double gap_mm = 0;        ///< between the faces of the two sides, 0: they touch
    double allowance_mm = 0;  ///< strip of the closed hem
    friend bool operator==(const Hem&, const Hem&) = default;
};

/// One bend line. The strip it takes is `allowance_mm` wide, centred on the line.
/// Blank frame: x, y in the plane of the sheet, the sheet between z = 0 (back face) and z = thickness
/// (drawn face). "Up" folds the child panel towards the drawn face.
struct Bend {
    std::string name;
    PanelId parent;
    PanelId child;
    Vec2 origin = Vec2::Zero();         ///< a point of the bend line
    Vec2 along = Vec2::UnitX();         ///< unit vector along the line
    Vec2 toward_child = Vec2::UnitY();  ///< unit vector square to it, from parent to child
    Angle angle;  ///< turned from flat, 0 < angle < 180°; of a hem 180°, or less in its first fold (PartOnBrake)
    bool up = true;
    double inside_radius_mm = 0;
    double allowance_mm = 0;  ///< width of the strip
    AllowanceRule rule = AllowanceRule::kKFactor;
    double rule_value = 0;  ///< the k-factor used (measured: that it comes to), or DIN's k, or 0 for the handbook rule
    std::string rule_source;       ///< kMeasured: the strips it rests on, and whether it lies between them; else empty
    std::vector<StripSpan> spans;  ///< where the strip has sheet; ascending, at least one
    std::optional<Hem> hem;
};

/// A straight edge of the blank that a person can measure from.
struct NamedEdge {
    std::string name;
    PanelId panel;
    Vec2 from = Vec2::Zero();
    Vec2 to = Vec2::Zero();
};

struct RoundHole {
    Vec2 centre = Vec2::Zero();
    double diameter_mm = 0;
};

/// A hole, window or notch, by the name that lists and warnings call it. Corner reliefs are none.
struct NamedCutOut {
    std::string name;  ///< the recipe's own, else "cut-out 1", ... in the recipe's order or from left to right
    PanelId panel;     ///< that it is told on, or most of it lies on
    Polygon outline;   ///< blank coordinates; round shapes by chords inside the true arc
    std::optional<RoundHole> round;  ///< when it is a circle
    bool is_notch = false;           ///< it runs out over a free edge, so that it is no hole of the blank
};

/// Which faces of the sheet carry protective film.
enum class Film { kUnsaid, kNone, kDrawnFace, kBackFace, kBothFaces };

/// A part as cut: panels joined by bends into a tree. Does not change once made.
struct Part {
    std::string name;
    std::string material;  ///< id in the materials file, e.g. "mild-steel"
    double thickness_mm = 0;
    std::optional<double> grain_deg;  ///< rolling direction on the blank, counter-clockwise from x; none: not said
    std::vector<Panel> panels;        ///< panels[0] is the base
    std::vector<Bend> bends;          ///< parent before child; at most kMaxBends
    std::vector<NamedEdge> edges;
    std::vector<NamedCutOut> cut_outs;
    Film film = Film::kUnsaid;
    Region blank;                       ///< the whole outline as cut, with cut-outs
    std::vector<std::string> warnings;  ///< said once, never changing a verdict

    [[nodiscard]] const Panel& panel(PanelId id) const { return panels[id.index()]; }
    [[nodiscard]] const Bend& bend(BendId id) const { return bends[id.index()]; }
};

/// The bend as it ends up: a hem closed, any other as it is.
[[nodiscard]] Bend finished(const Bend& bend);

/// How much of the bend line has sheet: its spans together.
[[nodiscard]] double stripLength_mm(const Bend& bend);

/// From the first sheet on the bend line to the last, gaps between them included.
[[nodiscard]] double stripExtent_mm(const Bend& bend);

[[nodiscard]] bool hasHems(const Part& part);

/// The mask with every bend of the part formed.
[[nodiscard]] BendMask allFormed(const Part& part);

}  // namespace tinwright
