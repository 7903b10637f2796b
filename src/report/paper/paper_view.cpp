// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/paper_view.h"

#include <fmt/format.h>

namespace tinwright::report {

Polygon PaperView::operator()(const Polygon& ring) const {
    Polygon drawn;
    drawn.reserve(ring.size());
    for (const Vec2& point : ring) drawn.push_back((*this)(point));
    return drawn;
}

Region PaperView::operator()(const Region& region) const {
    Region drawn{(*this)(region.outline), {}};
    for (const Polygon& hole : region.holes) drawn.holes.push_back((*this)(hole));
    return drawn;
}

double usualScale(const Vec2& size_mm, const Vec2& room_mm) {
    // ISO 5455 names 1, 2 and 5 with powers of ten; the steps between them keep a drawing from becoming half as large
    // as could be.
    for (const double decade : {1.0, 10.0, 100.0}) {
        for (const double less : {0.5, 0.75, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0}) {
            const double scale = 1 / (less * decade);
            if (size_mm.x() * scale <= room_mm.x() && size_mm.y() * scale <= room_mm.y()) return scale;
        }
    }
    return 1 / 500.0;
}

std::string scaleText(double scale) {
    return scale >= 1 ? fmt::format("{:.3g}:1", scale) : fmt::format("1:{:.3g}", 1 / scale);
}

Box boxAround(const std::vector<Vec2>& points) {
    if (points.empty()) return {};
    Box box{points.front(), points.front()};
    for (const Vec2& point : points) box = {box.least.cwiseMin(point), box.most.cwiseMax(point)};
    return box;
}

PaperView centredView(const Box& model, const Box& paper, double scale, bool mirrored) {
    return {0.5 * (model.least + model.most), 0.5 * (paper.least + paper.most), scale, mirrored};
}

}  // namespace tinwright::report
