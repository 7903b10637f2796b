// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/fold/kernel/vee_bearing.h>
#include <tinwright/part/model/part.h>
#include <tinwright/part/model/pose.h>

namespace tinwright::report {

/// A convex prism with corners in rings that match; in any frame.
struct Slab {
    std::vector<Vec3> lower;
    std::vector<Vec3> upper;
};

/// The prism of a section in (y, z) between two x; and of sections that are moved first.
[[nodiscard]] Slab extruded(const Polygon& section, double from_mm, double to_mm);
[[nodiscard]] std::vector<Slab> extruded(const std::vector<Polygon>& sections, const Vec2& by, double from_mm,
                                         double to_mm);

/// The flat geometry of a part that every drawing starts from, worked out once.
struct PartShapes {
    explicit PartShapes(const PartOnBrake& folded);
    const PartOnBrake& on_brake;
    const Part& part;                                ///< of it
    std::vector<std::vector<Polygon>> panel_pieces;  ///< convex, by panel
};

/// The same of a brake's tools: convex pieces of sections in (y, z), as the brake gives them.
struct ToolShapes {
    explicit ToolShapes(const BrakeInSetup& brake);
    BrakeInSetup brake;
    std::vector<std::vector<Polygon>> bar_pieces;  ///< by kind of bar
    std::vector<Polygon> bed_pieces;
    std::vector<Polygon> ram_pieces;  ///< of a press brake

    /// A piece of tooling where it stands, moved in (y, z); of a punch with a horn what is over the horn is shorter.
    [[nodiscard]] std::vector<Slab> piece(ToolId bar, const Vec2& by, double from_mm, double to_mm) const;

private:
    struct Cut {
        std::vector<Polygon> horn;
        std::vector<Polygon> over_horn;
    };
    std::map<std::size_t, Cut> horned_;  ///< by kind of bar
};

/// A stroke to be drawn.
struct FoldCase {
    BendMask formed = 0;  ///< before it
    std::vector<BendId> bends;
    Side hold = Side::kParent;  ///< of bends[0]
    Angle set_angle;            ///< the swing's end
};

/// A panel or a strip of the part at one moment, in the frame of the fold (src/fold/NOTES.md).
struct PartBody {
    [[nodiscard]] BodyRef ref() const { return is_strip ? BodyRef(bend) : BodyRef(panel); }
    bool moving = false;
    bool is_strip = false;
    bool is_new = false;             ///< strip of this stroke
    PanelId panel;                   ///< a panel's own; of a strip the one that carries its frame
    BendId bend;                     ///< of a strip
    Rigid pose = Rigid::Identity();  ///< blank to fold frame
    std::vector<Slab> slabs;         ///< in the fold frame
};

/// One fold of a part as bodies in space: the model of src/fold/NOTES.md, the sheet rolling round the nose or the
/// punch's tip. Frame of the fold: x along the machine with 0 at the left end of the bend, y to the back with 0 at the
/// nose, z up. Of a press brake it is that of a person at the machine: dies and bed stand still, with z = 0 at the
/// die's top, and the punch comes down; y = 0 is the punch's tip.
class FoldScene {
public:
    FoldScene(const PartShapes& shapes, const BrakeInSetup& brake, FoldCase fold);

    /// The part bent to this angle, which is the leaf's too; over the set angle counts as the set angle.
    [[nodiscard]] std::vector<PartBody> at(Angle angle) const;
    /// The part when the stroke is made and it has sprung back.
    [[nodiscard]] std::vector<PartBody> after() const;

    /// How far the punch's tip has gone down at that angle from where it touched the flat sheet; 0 on a leaf brake,
    /// which has none.
    [[nodiscard]] double punchDown_mm(Angle angle) const;
    /// The same when the part has sprung back between punch and die.
    [[nodiscard]] double punchDownAfter_mm() const { return punchDown_mm(part().bend(fold_.bends.front()).angle); }

    /// Sections of the tools of a leaf brake in (y, z) of the fold; those of a press brake: press_tools.h.
    [[nodiscard]] Polygon leafSection(const LeafFace& face, Angle angle) const;
    [[nodiscard]] Polygon bedSection() const;
    [[nodiscard]] Polygon barSection(const Tool& bar) const;
    /// What is drawn of the beam: its front and underside.
    [[nodiscard]] Polygon beamSection(double reach_mm) const;

    [[nodiscard]] const FoldCase& fold() const { return fold_; }
    [[nodiscard]] const Part& part() const { return shapes_.part; }
    [[nodiscard]] const BrakeInSetup& brake() const { return brake_; }
    [[nodiscard]] double thickness_mm() const { return shapes_.part.thickness_mm; }
    /// Along the machine, from 0: where the strips of the stroke end.
    [[nodiscard]] double length_mm() const { return length_mm_; }
    [[nodiscard]] bool isNew(BendId bend) const;
    [[nodiscard]] bool movingPanel(PanelId panel) const { return moving_[panel.index()]; }

private:
    struct Moment {
        Rigid swing;       ///< of the moving side
        Rigid held;        ///< of the held side
        Rigid middle;      ///< of the middle of the new strips, which stays level
        double angle_rad;  ///< of the new strips
        double share;      ///< of the strip that is formed
    };
    [[nodiscard]] std::vector<PartBody> bodies(const Moment& moment) const;
    [[nodiscard]] PartBody panelBody(std::size_t panel, const Moment& moment) const;
    [[nodiscard]] PartBody stripBody(std::size_t bend, const Moment& moment) const;
    [[nodiscard]] Moment moment(double angle_rad, double share) const;
    [[nodiscard]] Moment pressMoment(double angle_rad, double share) const;
    [[nodiscard]] std::vector<Slab> newStrip(const Bend& bend, bool parent_held, const Moment& moment) const;
    [[nodiscard]] Rigid swing(double angle_rad, double share) const;
    void findSides();
    void findFrame();

    const PartShapes& shapes_;
    BrakeInSetup brake_;
    FoldCase fold_;
    std::vector<bool> moving_;           ///< by panel
    std::vector<Rigid> poses_;           ///< blank to fold frame before the swing, by panel
    std::optional<VeeBearing> bearing_;  ///< of a press brake in a V
    double length_mm_ = 0;
};

}  // namespace tinwright::report
