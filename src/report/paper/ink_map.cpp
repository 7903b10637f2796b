// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/ink_map.h"

#include <algorithm>
#include <cmath>

namespace tinwright::report {
namespace {

constexpr double kCell_mm = 0.5;

std::size_t cells(double length_mm) { return static_cast<std::size_t>(std::max(1.0, std::ceil(length_mm / kCell_mm))); }

std::size_t index(double place_mm, std::size_t count) {
    return static_cast<std::size_t>(std::clamp(place_mm / kCell_mm, 0.0, static_cast<double>(count)));
}

}  // namespace

InkMap::InkMap(const Vec2& size_mm)
    : columns_(cells(size_mm.x())), rows_(cells(size_mm.y())), sums_((columns_ + 1) * (rows_ + 1), 0) {}

void InkMap::add(const Vec2& from, const Vec2& to) {
    const int steps = std::max(1, static_cast<int>(std::ceil((to - from).norm() / (0.7 * kCell_mm))));
    for (int i = 0; i <= steps; ++i) {
        const Vec2 point = from + (to - from) * (static_cast<double>(i) / steps);
        const std::size_t x = index(point.x(), columns_ - 1);
        const std::size_t y = index(point.y(), rows_ - 1);
        sums_[cell(x + 1, y + 1)] = 1;
    }
}

void InkMap::sum() {
    for (std::size_t y = 1; y <= rows_; ++y) {
        for (std::size_t x = 1; x <= columns_; ++x) {
            sums_[cell(x, y)] += sums_[cell(x - 1, y)] + sums_[cell(x, y - 1)] - sums_[cell(x - 1, y - 1)];
        }
    }
}

double InkMap::under(const Box& box) const {
    const std::size_t x0 = index(box.least.x(), columns_);
    const std::size_t y0 = index(box.least.y(), rows_);
    const std::size_t x1 = std::min(columns_, index(box.most.x(), columns_) + 1);
    const std::size_t y1 = std::min(rows_, index(box.most.y(), rows_) + 1);
    if (x1 <= x0 || y1 <= y0) return 0;
    return kCell_mm * (sums_[cell(x1, y1)] - sums_[cell(x0, y1)] - sums_[cell(x1, y0)] + sums_[cell(x0, y0)]);
}

}  // namespace tinwright::report
