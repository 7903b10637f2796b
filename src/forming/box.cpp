// SPDX-License-Identifier: GPL-3.0-or-later
#include "box.h"

namespace tinwright::forming {

Box boxOf(const Polygon& polygon) {
    Box box{polygon.front(), polygon.front()};
    for (const Vec2& point : polygon) {
        box.least = box.least.cwiseMin(point);
        box.most = box.most.cwiseMax(point);
    }
    return box;
}

bool isSame(const Box& a, const Box& b, double tolerance_mm) {
    return (a.least - b.least).norm() < tolerance_mm && (a.most - b.most).norm() < tolerance_mm;
}

}  // namespace tinwright::forming
