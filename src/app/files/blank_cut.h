// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/brake/shop/cutting.h>
#include <tinwright/forming/cutting/cut_plan.h>

#include "options/choices.h"

namespace tinwright::app {

/// What is asked for of the kerf.
struct KerfChoice {
    bool shops_kerf = false;         ///< move outlines by half the shop's kerf
    std::optional<double> width_mm;  ///< or by half of this one
    [[nodiscard]] bool asked() const { return shops_kerf || width_mm; }
};

/// What a shop's way of cutting makes of the drawing of a blank.
struct BlankCut {
    std::optional<CutPlan> plan;    ///< none: the shop does not say how it cuts
    std::optional<Region> cut;      ///< what layer CUT has instead of the blank; none: the blank
    std::optional<double> kerf_mm;  ///< that outlines are moved for; none: they are the finished edge
    std::vector<std::string> notes;
};

/// `cutting`: of the shop, when there is one that says it. Issues: "blank.kerf" when outlines are to be moved and
/// nothing says by how much; those of kerfPath().
[[nodiscard]] Result<BlankCut> blankCut(const KerfChoice& kerf, const JobChoice& job, const Part& part,
                                        const std::optional<Cutting>& cutting);

/// Centres for layer DRILL.
[[nodiscard]] std::vector<Vec2> drillCentres(const BlankCut& cut);
/// Lines of the command's output: process, kerf, drill list, what to look out for.
[[nodiscard]] std::string cutText(const BlankCut& cut);
/// Lines that go into the drawing as comments.
[[nodiscard]] std::vector<std::string> cutComments(const Part& part, const BlankCut& cut);

}  // namespace tinwright::app
