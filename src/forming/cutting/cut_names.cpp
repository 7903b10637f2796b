// SPDX-License-Identifier: GPL-3.0-or-later
#include "cutting/cut_names.h"

#include <tinwright/geometry/box.h>

namespace tinwright::forming {

namespace {

constexpr double kSameCutOut_mm = 1e-4;

std::string nameOf(const Part& part, const Polygon& hole, const CutPlan& plan) {
    const Eigen::AlignedBox2d box = boxOf(hole);
    for (const NamedCutOut& cut_out : part.cut_outs) {
        if (isSameBox(boxOf(cut_out.outline), box, kSameCutOut_mm)) return cut_out.name;
    }
    for (const DrilledHole& drilled : plan.drilled) {
        if ((box.center() - drilled.centre).norm() < 0.1) return "the pilot of " + drilled.name;
    }
    return "a hole";
}

}  // namespace

std::vector<NamedLoop> namedHoles(const Part& part, const Region& path, const CutPlan& plan) {
    std::vector<NamedLoop> loops;
    for (const Polygon& hole : path.holes) loops.push_back({nameOf(part, hole, plan), &hole});
    return loops;
}

}  // namespace tinwright::forming
