// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "webs/web.h"

namespace tinwright::forming {

/// What a leg with cut-outs comes to when it is swung, or held.
struct WebTrouble {
    std::string id;  ///< "web.folds", "web.bows", "web.land"
    Severity severity = Severity::kWarning;
    std::size_t cut_out = 0;            ///< into Leg::cut_outs
    std::optional<WebSection> section;  ///< swung
    double land_mm = 0;                 ///< held: sheet between nose and cut-out
    Angle bow;                          ///< swung, when it does not fold
};

/// A set of the leg past the bend that is seen; under the first figure nothing is said.
inline constexpr double kBowNoted_deg = 0.2;
inline constexpr double kBowWarned_deg = 0.5;

[[nodiscard]] std::optional<WebTrouble> swungTrouble(const Leg& leg, const LegLoad& load,
                                                     const std::optional<Strength>& strength);

/// How the held side is clamped.
struct HeldLoad {
    double nose_mm = 0;  ///< how far before the panel the nose line stands: the nose radius
    double land_mm = 0;  ///< least depth that a bar clamps
    double hardening = 1;
    double thickness_mm = 0;
};
[[nodiscard]] std::optional<WebTrouble> heldTrouble(const Leg& leg, const HeldLoad& load);

[[nodiscard]] std::array<Vec2, 2> sectionOnBlank(const Leg& leg, const WebSection& section);
/// From the bend line, where the section is nearest to it.
[[nodiscard]] double distance_mm(const WebSection& section);
[[nodiscard]] std::vector<Figure> sectionFigures(const WebSection& section, const std::optional<Strength>& strength,
                                                 double thickness_mm);

using LegTrouble = std::function<std::optional<WebTrouble>(const Leg&)>;
/// Adds what cures a leg, smallest change first, each computed again by `again`: no warning is left.
void addWebCures(const Part& part, const Leg& leg, const WebTrouble& trouble, BendId bend, Side side,
                 const LegTrouble& again, Finding& finding);

}  // namespace tinwright::forming
