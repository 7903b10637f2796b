// SPDX-License-Identifier: GPL-3.0-or-later
#include "cut_names.h"

namespace tinwright::forming {

namespace {

struct Box {
    Vec2 low = Vec2::Zero(), high = Vec2::Zero();
};

Box boxOf(const Polygon& polygon) {
    Box box{polygon.front(), polygon.front()};
    for (const Vec2& p : polygon) {
        box.low = box.low.cwiseMin(p);
        box.high = box.high.cwiseMax(p);
    }
    return box;
}

bool isSame(const Box& a, const Box& b) { return (a.low - b.low).norm() < 1e-4 && (a.high - b.high).norm() < 1e-4; }

std::string nameOf(const Part& part, const Polygon& hole, const CutPlan& plan) {
    const Box box = boxOf(hole);
    for (const NamedCutOut& cut_out : part.cut_outs) {
        if (isSame(boxOf(cut_out.outline), box)) return cut_out.name;
    }
    for (const DrilledHole& drilled : plan.drilled) {
        if ((0.5 * (box.low + box.high) - drilled.centre).norm() < 0.1) return "the pilot of " + drilled.name;
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
