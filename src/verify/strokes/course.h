// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "solids/bodies.h"
#include "solids/steps.h"
#include "solids/track.h"
#include "strokes/stroke.h"

namespace tinwright::replay {

/// The angles at which a stroke is looked at.
[[nodiscard]] Steps stepsOf(const Scene& scene);

/// Where both sides of the sheet and all tools but the leaf are during a stroke, or at one moment of it.
struct Course {
    Track held;
    Track moving;
    Track ground;
    Track lower;  ///< of tools that come up under the sheet
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
