// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <compare>
#include <numbers>

namespace tinwright {

/// An angle that knows its unit: made and read only by name.
class Angle {
public:
    constexpr Angle() = default;
    [[nodiscard]] static constexpr Angle degrees(double deg) { return Angle(deg * std::numbers::pi / 180.0); }
    [[nodiscard]] static constexpr Angle radians(double rad) { return Angle(rad); }
    [[nodiscard]] constexpr double deg() const { return rad_ * 180.0 / std::numbers::pi; }
    [[nodiscard]] constexpr double rad() const { return rad_; }

    friend constexpr auto operator<=>(Angle, Angle) = default;
    friend constexpr Angle operator+(Angle a, Angle b) { return Angle(a.rad_ + b.rad_); }
    friend constexpr Angle operator-(Angle a, Angle b) { return Angle(a.rad_ - b.rad_); }

private:
    explicit constexpr Angle(double rad) : rad_(rad) {}
    double rad_ = 0.0;
};

/// Sine and cosine that are exact at multiples of a right angle, so that a square box is exactly square.
struct SinCos {
    double sin;
    double cos;
};
[[nodiscard]] SinCos sinCos(Angle angle);

}  // namespace tinwright
