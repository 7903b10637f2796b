// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include <tinwright/base/angle.h>
#include <tinwright/brake/shop/cutting.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// By how much sheet, cutting, setting and bending come out off, plus or minus each. Does not change once made.
struct Tolerances {
    std::optional<double> thickness_mm;    ///< of the sheet; none: 7 % of it (common practice for cold-rolled sheet)
    std::optional<double> cutting_mm;      ///< place of a cut edge; none: workingTolerance_mm
    double bend_line_mm = 0.25;            ///< place of the sight line under the nose (common practice, set by eye)
    Angle bend_angle = Angle::degrees(1);  ///< of a bend made to a stop (common practice)
};

/// What a cut edge may be off by where the shop says nothing: ISO 2768-1 class m for the size, or ISO 9013 for the
/// shop's way of cutting where that is more. Nothing for sizes that neither covers.
[[nodiscard]] std::optional<double> workingTolerance_mm(std::optional<CutProcess> process, double thickness_mm,
                                                        double size_mm);

/// What a cut edge may be off by, plus or minus, over a size that it is cut to.
struct CutEdges {
    std::optional<double> told_mm;  ///< the shop's figure, whatever the size
    std::optional<CutProcess> process;
    double thickness_mm = 0;
    /// Else workingTolerance_mm; of sizes that it does not cover that of the nearest which it does.
    [[nodiscard]] double over_mm(double size_mm) const;
};

/// The tolerances as they bear on one part: every combination of deviations within them is a part that may come out.
struct ToleranceBox {
    double thickness_mm = 0;
    std::vector<double> cutting_mm;  ///< by panel: of every cut edge, by the panel's greatest size unless the shop says
    CutEdges cut;                    ///< of an edge over one size
    double bend_line_mm = 0;
    Angle bend_angle;
    std::vector<double> formed_lines_mm;  ///< by bend, of the line of one that is formed; empty: bend_line_mm of all
    [[nodiscard]] double formedLine_mm(BendId bend) const {
        return formed_lines_mm.empty() ? bend_line_mm : formed_lines_mm[bend.index()];
    }
    [[nodiscard]] double leastCutting_mm() const;
    [[nodiscard]] double mostCutting_mm() const;
};
[[nodiscard]] ToleranceBox toleranceBox(const Tolerances& tolerances, const Part& part,
                                        std::optional<CutProcess> process);

}  // namespace tinwright
