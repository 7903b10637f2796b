// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include <tinwright/geometry/planar.h>

namespace tinwright {

/// Gives points that are within a micrometre of one another the same number, in the order they come.
class DxfPoints {
public:
    static constexpr double kSame_mm = 1e-3;

    std::size_t numberOf(const Vec2& point);
    [[nodiscard]] const Vec2& at(std::size_t number) const { return points_[number]; }
    [[nodiscard]] std::size_t size() const { return points_.size(); }

    /// Numbers of points strictly within a straight line, within a micrometre of it, from its start on.
    [[nodiscard]] std::vector<std::size_t> within(const Vec2& from, const Vec2& to) const;
    /// To be called when no more points come, before within().
    void sort();

private:
    using Cell = std::pair<std::int64_t, std::int64_t>;
    std::vector<Vec2> points_;
    std::map<Cell, std::vector<std::size_t>> cells_;
    std::vector<std::size_t> by_x_;
    std::vector<std::size_t> by_y_;
};

}  // namespace tinwright
