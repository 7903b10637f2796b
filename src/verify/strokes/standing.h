// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/part.h>

#include "solids/bodies.h"
#include "solids/sheet.h"

namespace tinwright::replay {

/// The part as one fold finds it: hems that are formed are closed, and the panels beside them reach to the strip of the
/// closed hem; those still to come have the strip and the angle of their first fold. Without hems it is the part as it
/// is.
class Standing {
public:
    /// `formed`: in the order in which they were. `radii_mm`: inside radii by bend, of hems those of their first fold.
    Standing(const Part& part, const Shop& shop, const BrakeInSetup& brake, std::vector<double> radii_mm,
             const std::vector<BendId>& formed);

    [[nodiscard]] const PartOnBrake& onBrake() const { return *part_; }
    [[nodiscard]] const Part& part() const { return part_->part(); }
    [[nodiscard]] const Sheet& sheet() const { return sheet_; }
    [[nodiscard]] const std::vector<Shape>& panels() const { return panels_; }
    /// Folds a bend that is no hem, or a hem as far as its first fold.
    void form(BendId bend) { sheet_.form(bend, part_->bend(bend).angle); }

private:
    std::unique_ptr<const PartOnBrake> part_;  // where it is stays the same when this is moved
    Sheet sheet_;
    std::vector<Shape> panels_;
};

/// Inside radii with all hems closed.
[[nodiscard]] std::vector<double> closedRadii(const Part& part, std::vector<double> radii_mm);

}  // namespace tinwright::replay
