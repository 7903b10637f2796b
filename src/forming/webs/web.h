// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "checks/checks.h"
#include "measures/chords.h"
#include "measures/leg.h"
#include "metal/strength.h"

/// The limit analysis of a leg with cut-outs (src/forming/NOTES.md). Moments are in units of the plastic moment of a
/// narrow strip, sigma t²/4 for each mm, so that nothing but the hardening depends on the metal.
namespace tinwright::forming {

/// What acts on a leg while it is swung.
struct LegLoad {
    double leaf_mm = 0;    ///< y where it is pushed: by the tip of the leaf's face, or by the shoulder of a V
    double hardening = 1;  ///< flow stress of the bend line over yield of the web
    double thickness_mm = 0;
};

/// A line along which the leg might fold instead of along the bend.
struct WebSection {
    CutLine line;
    Stretch across;           ///< of the line: over the leg, cut-outs included
    double demand_mm = 0;     ///< moment about the line
    double capacity_mm = 0;   ///< what its webs carry when they yield altogether
    double net_mm = 0;        ///< of sheet
    double gross_mm = 0;      ///< of sheet and cut-outs
    std::size_t cut_out = 0;  ///< into Leg::cut_outs: the one that takes most of it

    [[nodiscard]] double ratio() const { return demand_mm / capacity_mm; }
};

/// Cut-outs that take less of a section are left to the rules of distance.
inline constexpr double kNoticeableShare = 0.15;
/// A web narrower than this many thicknesses can shrink sideways as it bends and carries no more than a narrow strip;
/// common practice.
inline constexpr double kWideOver = 8;

/// Plastic moment of a web in units of a narrow strip's for each mm.
[[nodiscard]] double webCapacity_mm(double width_mm, double thickness_mm);

/// The section with the largest ratio of moment to capacity among all straight lines through cut-outs that were looked
/// at; none when there is none with a noticeable cut-out and a moment.
[[nodiscard]] std::optional<WebSection> worstSection(const Leg& leg, const LegLoad& load);

/// One section. Nothing when it would cut through the bend itself.
[[nodiscard]] std::optional<WebSection> sectionAt(const Leg& leg, const LegLoad& load, const CutLine& line);

/// The set that stays beside a cut-out when a web yields in part: elastic, perfectly plastic bending of lines parallel
/// to the bend, summed over the cut-out. 0 without a modulus.
[[nodiscard]] Angle residualBow(const Leg& leg, const LegLoad& load, const Strength& strength, std::size_t cut_out);

/// Longest window behind a strip of sheet of some depth that cannot be clamped: the strip carries the moment to the
/// window's ends by torsion, at most sigma/√3 · t² (3 d - t) / 6 (plastic torsion of a rectangle, Nadai's sand heap).
[[nodiscard]] double longestWindow_mm(double land_mm, double thickness_mm, double hardening);

}  // namespace tinwright::forming
