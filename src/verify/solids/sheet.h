// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/base/angle.h>
#include <tinwright/base/ids.h>
#include <tinwright/part/model/part.h>

#include "solids/solid.h"

namespace tinwright::replay {

/// The sheet as it goes through the shop: it starts as the flat blank and is folded bend after bend, each fold
/// turning all that lies beyond it in space as it stands. (The planner composes poses down the tree instead;
/// the two must agree whatever the order.) Panel 0 stays where it is.
class Sheet {
public:
    /// Inside radii by bend. `part` must outlive the sheet.
    Sheet(const Part& part, std::vector<double> radii_mm);

    /// Folds one bend that is still flat. What lies on the child's side is rolled round the arc.
    void form(BendId bend, Angle angle);

    [[nodiscard]] const Part& part() const { return *part_; }
    [[nodiscard]] double radius_mm(BendId bend) const { return radii_[bend.index()]; }
    [[nodiscard]] bool formed(BendId bend) const { return contains(formed_, bend); }
    [[nodiscard]] const Rigid& spaceFromBlank(PanelId panel) const { return poses_[panel.index()]; }
    /// Panels on the child's side of a bend.
    [[nodiscard]] std::vector<PanelId> beyond(BendId bend) const;

private:
    const Part* part_;
    std::vector<double> radii_;
    BendMask formed_ = 0;
    std::vector<Rigid> poses_;
};

}  // namespace tinwright::replay
