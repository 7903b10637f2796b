// SPDX-License-Identifier: GPL-3.0-or-later
#include "entities/dxf_points.h"

#include <algorithm>
#include <cmath>

namespace tinwright {

std::size_t DxfPoints::numberOf(const Vec2& point) {
    const Cell cell{static_cast<std::int64_t>(std::floor(point.x() / kSame_mm)),
                    static_cast<std::int64_t>(std::floor(point.y() / kSame_mm))};
    for (std::int64_t dx = -1; dx <= 1; ++dx) {
        for (std::int64_t dy = -1; dy <= 1; ++dy) {
            const auto found = cells_.find({cell.first + dx, cell.second + dy});
            if (found == cells_.end()) continue;
            for (const std::size_t number : found->second) {
                if ((points_[number] - point).norm() <= kSame_mm) return number;
            }
        }
    }
    cells_[cell].push_back(points_.size());
    points_.push_back(point);
    return points_.size() - 1;
}

void DxfPoints::sort() {
    for (std::size_t i = 0; i < points_.size(); ++i) by_x_.push_back(i);
    by_y_ = by_x_;
    std::sort(by_x_.begin(), by_x_.end(),
              [&](std::size_t a, std::size_t b) { return points_[a].x() < points_[b].x(); });
    std::sort(by_y_.begin(), by_y_.end(),
              [&](std::size_t a, std::size_t b) { return points_[a].y() < points_[b].y(); });
}

std::vector<std::size_t> DxfPoints::within(const Vec2& from, const Vec2& to) const {
    const Vec2 d = to - from;
    const double length = d.norm();
    if (length <= 2 * kSame_mm) return {};
    // The axis along which the line is short leaves fewer points to look at.
    const int axis = std::abs(d.x()) < std::abs(d.y()) ? 0 : 1;
    const std::vector<std::size_t>& order = axis == 0 ? by_x_ : by_y_;
    const double low = std::min(from[axis], to[axis]) - kSame_mm, high = std::max(from[axis], to[axis]) + kSame_mm;
    auto it = std::lower_bound(order.begin(), order.end(), low,
                               [&](std::size_t i, double value) { return points_[i][axis] < value; });
    std::vector<std::pair<double, std::size_t>> found;
    for (; it != order.end() && points_[*it][axis] <= high; ++it) {
        const Vec2 p = points_[*it] - from;
        const double along = d.dot(p) / length, off = std::abs(d.x() * p.y() - d.y() * p.x()) / length;
        if (off <= kSame_mm && along > kSame_mm && along < length - kSame_mm) found.push_back({along, *it});
    }
    std::sort(found.begin(), found.end());
    std::vector<std::size_t> numbers;
    for (const auto& [along, number] : found) numbers.push_back(number);
    return numbers;
}

}  // namespace tinwright
