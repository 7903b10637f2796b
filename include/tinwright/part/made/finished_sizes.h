// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include <tinwright/base/stroke.h>
#include <tinwright/part/edges/leg_end.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// A size of the finished part: a panel, from the face of its neighbour at one bend to its edge or to that face of
/// what is folded at the other end.
struct FinishedSize {
    PanelId panel;
    BendId bend;
    Side side = Side::kChild;  ///< of the bend that the panel is on
    LegEnd end;
    double outside_mm = 0;
    double inside_mm = 0;
};

/// All of them with every bend folded, by bend; what lies between two bends once. Radius as legSize_mm().
[[nodiscard]] std::vector<FinishedSize> finishedSizes(const Part& part, double inside_radius_mm = -1.0);

/// The same size of two parts that differ in where bend lines lie.
struct SizeChange {
    FinishedSize drawn;
    FinishedSize now;
    [[nodiscard]] double by_mm() const { return now.outside_mm - drawn.outside_mm; }
};

/// Those that differ by 0.005 mm or more, outside or inside.
[[nodiscard]] std::vector<SizeChange> sizeChanges(const Part& drawn, const Part& now, double inside_radius_mm = -1.0);

/// How much farther out than drawn, square to the bend and along the panel on the other side, the end of a leaning
/// flange stands on its outside face. None: nothing to measure to.
[[nodiscard]] std::optional<double> leansOut_mm(const Part& drawn, const Part& now, BendId bend, BendMask formed,
                                                double inside_radius_mm = -1.0);

}  // namespace tinwright
