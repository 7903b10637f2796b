// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

namespace tinwright::report {

/// What is marked on a blank for one bend.
struct BendMark {
    BendId bend;
    std::size_t fold = 0;      ///< its place in the order, from 1; 0: no plan, or folded already
    Vec2 from = Vec2::Zero();  ///< bend line
    Vec2 to = Vec2::Zero();
    bool has_sight = false;
    Vec2 sight_from = Vec2::Zero();
    Vec2 sight_to = Vec2::Zero();
    std::string edge;     ///< the edge that both are measured from; empty: none is parallel
    double line_mm = 0;   ///< bend line from that edge
    double sight_mm = 0;  ///< sight line from that edge, as the plan says
};

/// In the order of the folds, bends without a fold last. `plan` may be null. Sight lines are
/// marked for kinds of brake that bends are set by them on.
[[nodiscard]] std::vector<BendMark> bendMarks(const Part& part, const BrakeInSetup& brake, const Plan* plan);

/// A hole of the blank as it is dimensioned.
struct CutOutMark {
    bool round = false;
    Vec2 centre = Vec2::Zero();
    Vec2 least = Vec2::Zero();
    Vec2 most = Vec2::Zero();
    std::string words;  ///< "ø7", "38 x 22"
};
[[nodiscard]] std::vector<CutOutMark> cutOutMarks(const Part& part);

/// The corners of an outline that a rule is put to: not those that stand in for a curve.
[[nodiscard]] std::vector<Vec2> sharpCorners(const Polygon& outline);

/// Name of an edge that lies on the line x = place (axis 0) or y = place (axis 1); empty when none does.
[[nodiscard]] std::string edgeOn(const Part& part, int axis, double place_mm);

}  // namespace tinwright::report
