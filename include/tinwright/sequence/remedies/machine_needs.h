// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/shop/material.h>
#include <tinwright/part/model/part.h>

/// When no machine of a shop makes a part: what a machine would need, as figures to look for.
namespace tinwright {

/// A figure of a machine.
enum class MachineFigure {
    kLength,         ///< of bed and leaf, or of bed and ram
    kLeafAngle,      ///< to which the leaf swings, in degrees
    kClampDepth,     ///< of bars, nose to back: at most
    kBarHeight,      ///< of loose bars: at most
    kOpening,        ///< lift of the beam
    kGapBehindNose,  ///< from the nose line back to the beam
    kPieceWidth,     ///< bars, or punches, that come together to any width
    kOpenHeight,     ///< punch seat to die seat with the ram up; the stroke grows by as much
    kPunchHeight,    ///< tip to seat, of punches of one section
    kPunchThroat,    ///< how deep the hollow of goosenecks of one section is behind the tip, with the same neck
    kVeeAngle,       ///< of all dies without a jaw, and of straight punches: at most
    kThroat,         ///< from the bend line back to the side frames
    kFrames,         ///< between the side frames
    kHemThickness,   ///< of sheet whose hems the clamp, or the jaws of dies, close
};

/// One figure that has to be another than that of the brake; all of them are least values but clamp depth, bar height
/// and the angle of a V.
struct FigureNeed {
    MachineFigure figure = MachineFigure::kLength;
    double has = 0;    ///< of the brake; mm, or degrees
    double needs = 0;  ///< a whole number of steps
    double step = 1;
    std::string like;  ///< of tools of one section, when the machine has others besides: the first of them
};

/// Figures that have to be other ones together. None of them can be left out; one step nearer to that of the brake,
/// with the others as they are told, no order works: all of this is planned again, in every V that suits the sheet.
struct NeedsWay {
    std::vector<FigureNeed> figures;
    std::vector<double> piece_widths_mm;  ///< with kPieceWidth: the pieces that it was planned with
};

/// A brake of the shop with as few other figures as do it.
struct MachineNeeds {
    BrakeInSetup brake;  ///< in everything else like that one
    bool found = false;  ///< false: none, even with every figure as good as can be, or it could not be proven within
                         ///< the work allowed
    bool cut_short = false;  ///< the work was spent, or a plan undecided, before one was found
    /// Each does alone: single figures, tools first; where no single one does, one way of several.
    std::vector<NeedsWay> ways;
    /// Of a press brake in the V of the first way: what its longest bend takes by the published chart; none: not a
    /// press brake, or the metal's strength is not known.
    std::optional<double> force_kn;
    std::uint64_t work = 0;
};

struct NeedsOptions {
    std::uint64_t max_states = 2'000;  ///< of each plan
    std::uint64_t max_work = 40'000;   ///< planWork() of all together
    double time_limit_s = 20;          ///< of each plan
    BendMask formed = 0;
    const Material* material = nullptr;  ///< for the force; nullptr: not known
};

/// Looks for what a brake like this one would need. Precondition: no order is known to work on it.
[[nodiscard]] MachineNeeds machineNeeds(const Part& part, const Shop& shop, const BrakeInSetup& brake,
                                        const NeedsOptions& options);

}  // namespace tinwright
