// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/brake/plan/trouble.h>
#include <tinwright/brake/shop/material.h>

namespace tinwright {

struct StrokeTrouble {
    Spoils spoils;
    Care care;
};

/// What strokes on one brake spoil and what care they want: what foldFindings() says of them, without the words, for a
/// search that asks about thousands. What is the same in every state is worked out once. For one thread.
///
///     StrokeTroubles troubles(part, shop, brake, material);
///     const StrokeTrouble trouble = troubles.of(step, formed);   // equals what foldFindings(..., step, formed) spoil
class StrokeTroubles {
public:
    /// Part, shop and material outlive it. `material`: as partFindings().
    StrokeTroubles(const Part& drawn, const Shop& shop, const BrakeInSetup& brake, const Material* material);

    /// Of a step only `stroke`, `held`, `leaf_face`, `tools` and `covered_share` are looked at.
    [[nodiscard]] StrokeTrouble of(const FoldStep& step, BendMask formed);
    /// The least that a stroke spoils which makes this bend with that side held, whatever stands; the sum over the
    /// bends of a stroke is the least of the stroke.
    [[nodiscard]] Spoils least(BendId bend, Side held);
    /// With the better side held.
    [[nodiscard]] Spoils least(BendId bend) { return std::min(least(bend, Side::kParent), least(bend, Side::kChild)); }

private:
    [[nodiscard]] Spoils leastOf(BendId bend, Side held);
    [[nodiscard]] Spoils web(BendId bend, Side held, std::size_t face);
    [[nodiscard]] std::size_t faceNamed(const std::string& name) const;

    PartOnBrake part_;
    const Shop& shop_;
    BrakeInSetup brake_;
    const Material* material_;
    std::size_t faces_ = 0;                     // of a leaf brake
    std::vector<std::optional<Spoils>> web_;    // by bend and side held, then by face
    std::vector<std::optional<Spoils>> least_;  // by bend and side held
};

}  // namespace tinwright
