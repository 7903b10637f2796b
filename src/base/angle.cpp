// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/base/angle.h>

#include <cmath>

namespace tinwright {

SinCos sinCos(Angle angle) {
    const double quarters = angle.rad() / (std::numbers::pi / 2.0);
    const double nearest = std::round(quarters);
    if (std::abs(quarters - nearest) > 1e-14 * (1.0 + std::abs(nearest))) {
        return {std::sin(angle.rad()), std::cos(angle.rad())};
    }
    static constexpr SinCos kQuadrant[4] = {{0, 1}, {1, 0}, {0, -1}, {-1, 0}};
    const auto quadrant = static_cast<long long>(nearest) & 3LL;
    return kQuadrant[quadrant];
}

}  // namespace tinwright
