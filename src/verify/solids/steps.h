// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace tinwright::replay {

/// The angles looked at: 0 to the set angle in equal steps no wider than asked for.
struct Steps {
    Steps(double set_rad, double widest_deg) {
        last = static_cast<std::size_t>(std::ceil(set_rad / (std::max(0.01, widest_deg) * std::numbers::pi / 180.0)));
        step_rad = set_rad / static_cast<double>(last);
    }
    [[nodiscard]] double rad(std::size_t i) const { return static_cast<double>(i) * step_rad; }
    [[nodiscard]] double deg(std::size_t i) const { return rad(i) * 180.0 / std::numbers::pi; }
    std::size_t last = 0;
    double step_rad = 0;
};

}  // namespace tinwright::replay
