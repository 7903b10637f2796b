// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>
#include <tinwright/part/model/pose.h>

#include "scene/shapes.h"
#include "scene/sheet_motion.h"

namespace tinwright::report {

/// A stroke to be drawn.
struct FoldCase {
    BendMask formed = 0;  ///< before it
    Stroke stroke;
    Angle set_angle;  ///< the swing's end
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
    [[nodiscard]] double punchDown_mm(Angle angle) const { return motion_->punchDown_mm(angle); }
    /// The same when the part has sprung back between punch and die.
    [[nodiscard]] double punchDownAfter_mm() const { return punchDown_mm(part().bend(fold_.stroke.first()).angle); }

    /// What of the new strips lies where it lay until it is reached.
    [[nodiscard]] RollsFrom rollsFrom() const { return motion_->rollsFrom(); }

    [[nodiscard]] const FoldCase& fold() const { return fold_; }
    [[nodiscard]] const Part& part() const { return shapes_.part; }
    [[nodiscard]] const BrakeInSetup& brake() const { return brake_; }
    [[nodiscard]] double thickness_mm() const { return shapes_.part.thickness_mm; }
    /// Along the machine, from 0: where the strips of the stroke end.
    [[nodiscard]] double length_mm() const { return length_mm_; }
    [[nodiscard]] bool isNew(BendId bend) const;
    [[nodiscard]] bool movingPanel(PanelId panel) const { return moving_[panel.index()]; }

private:
    [[nodiscard]] std::vector<PartBody> bodies(const SheetMoment& moment) const;
    [[nodiscard]] PartBody panelBody(std::size_t panel, const SheetMoment& moment) const;
    [[nodiscard]] PartBody stripBody(std::size_t bend, const SheetMoment& moment) const;
    void findSides();
    void findFrame();

    const PartShapes& shapes_;
    BrakeInSetup brake_;
    FoldCase fold_;
    std::vector<bool> moving_;  ///< by panel
    std::unique_ptr<const SheetMotion> motion_;
    std::vector<Rigid> poses_;  ///< blank to fold frame before the swing, by panel
    double length_mm_ = 0;
};

}  // namespace tinwright::report
