// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>

#include "machine/replayed_machine.h"
#include "solids/sheet.h"

namespace tinwright::replay {

/// A stretch of the fold's bends along the machine, in the fold's frame.
struct Span {
    BendId bend;
    double lo_mm = 0;
    double hi_mm = 0;
};

/// The stretches of one bend, where the blank of its panel lies so in the fold's frame.
[[nodiscard]] std::vector<Span> spansOf(const Bend& bend, BendId id, const Rigid& fold_from_blank);

/// How the part lies in the brake for one fold.
struct Setting {
    Rigid fold_from_space = Rigid::Identity();
    std::vector<bool> moving;  ///< by panel
    std::vector<Span> spans;   ///< ascending in x
    std::shared_ptr<const ReplayedMachine> machine;

    [[nodiscard]] const Bending& stroke() const { return machine->stroke(); }
};

/// Works out the setting from the sheet as it is, and says in `wrong` whatever in the step contradicts it.
/// False when the fold cannot be replayed at all. The setting keeps `step`.
[[nodiscard]] bool setUp(const Sheet& sheet, const Shop& shop, const BrakeInSetup& brake, const FoldStep& step,
                         Setting& setting, std::vector<std::string>& wrong);

}  // namespace tinwright::replay
