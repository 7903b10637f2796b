// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/ids.h>
#include <tinwright/base/stroke.h>
#include <tinwright/brake/machines/brake.h>
#include <tinwright/part/model/part.h>

/// What a person has settled beforehand: which side is held, what comes first, with which tools. The rest is planned.
///
///     PlanOptions options;
///     options.pins.holds = {holdOn(part, bit(side_back), face)};
///     options.pins.tools.vee_mm = 16;
///     const BrakeResult result = planOnBrake(part, shop, brake, options);
namespace tinwright {

/// A bend is made only with this side held.
struct HoldPin {
    BendId bend;
    Side hold = Side::kParent;
    PanelId panel;  ///< on that side, by which it was named
    friend bool operator==(const HoldPin&, const HoldPin&) = default;
};

/// `then` is not folded before `first`; both may be made in one stroke.
struct BeforePin {
    BendId first;
    BendId then;
    friend bool operator==(const BeforePin&, const BeforePin&) = default;
};

/// Tools that may be used. Bars are those of leaf brakes, punches and the V those of press brakes: a pin that speaks of
/// the other kind leaves a brake as it is.
struct ToolPins {
    std::optional<double> vee_mm;           ///< opening of the only V
    std::vector<std::string> bars;          ///< ids of the only bars; empty: all
    std::vector<std::string> without_bars;  ///< ids of those that stay in the rack
    std::vector<std::string> punches;       ///< ids of the only punches; empty: all
    [[nodiscard]] bool any() const { return vee_mm || !bars.empty() || !without_bars.empty() || !punches.empty(); }
    friend bool operator==(const ToolPins&, const ToolPins&) = default;
};

struct Pins {
    std::vector<HoldPin> holds;   ///< one of a bend at most
    std::vector<BendMask> first;  ///< the first strokes, in this order; each forms just these bends
    std::vector<BeforePin> before;
    ToolPins tools;
    /// Something of the order or the holds is settled.
    [[nodiscard]] bool ofOrder() const { return !holds.empty() || !first.empty() || !before.empty(); }
    [[nodiscard]] bool any() const { return ofOrder() || tools.any(); }
    friend bool operator==(const Pins&, const Pins&) = default;
};

/// The side of a bend on which a panel lies in the tree of panels, bends of this stroke cut: of the bend of the stroke
/// that is nearest to the panel. Precondition: the stroke is not empty.
[[nodiscard]] HoldPin holdOn(const Part& part, BendMask stroke, PanelId panel);

/// The brake with those tools alone that the pins leave it.
[[nodiscard]] Brake withTools(const Brake& brake, const ToolPins& pins);

/// Upper tools are left to it, and dies where it needs them: planning asks for both.
[[nodiscard]] bool hasTools(const Brake& brake);

}  // namespace tinwright
