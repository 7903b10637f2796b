// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "solids/bodies.h"
#include "solids/track.h"
#include "strokes/stroke.h"

namespace tinwright::replay {

/// The angles looked at: 0 to the set angle in equal steps no wider than asked for.
struct Steps {
    explicit Steps(const Scene& scene);
    [[nodiscard]] double rad(std::size_t i) const { return static_cast<double>(i) * step_rad; }
    [[nodiscard]] double deg(std::size_t i) const;
    std::size_t last = 0;
    double step_rad = 0;
};

[[nodiscard]] Track movingTrack(const Scene& scene, const Motion& motion, const Steps& steps);
[[nodiscard]] Track leafTrack(const Scene& scene, const Steps& steps);

/// Where both sides of the sheet and all tools but the leaf are during a stroke, or at one moment of it.
struct Course {
    Track held;
    Track moving;
    Track ground;
    Track lower;  ///< what comes up with the dies of a press brake
    [[nodiscard]] const Track& of(const Body& tool) const { return tool.carrier == Carrier::kLower ? lower : ground; }
};
[[nodiscard]] Course courseOf(const Scene& scene, const Motion& motion, const Steps& steps);
/// At the set angle, where all motions agree; and sprung back to the wanted angle.
[[nodiscard]] Course courseAtEnd(const Scene& scene);
[[nodiscard]] Course courseSprung(const Scene& scene);

/// The first step at which two lists of solids meet.
[[nodiscard]] std::optional<std::size_t> firstOf(const std::vector<Solid>& a, const Track& track_a,
                                                 const std::vector<Solid>& b, const Track& track_b, std::size_t last,
                                                 const SolidAtStep* inside_b = nullptr);

}  // namespace tinwright::replay
