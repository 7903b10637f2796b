// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>

/// What a plan takes, added up from its folds as they are told. The search prices with the same sum what it tries, so
/// that whoever has the folds and the shop's times comes to the time that is told.
namespace tinwright {

/// What the sheet lies against while a back gauge sets it.
struct GaugeWork {
    int bends_between = 0;  ///< formed bends from there to the bend line
    bool by_sight = false;  ///< nothing: a sight line is scribed and set by
};

/// What is done for one fold, besides folding it and setting the sight line or gauge.
struct FoldActions {
    std::size_t pieces = 0;  ///< put in, taken out or shifted
    bool leaf_face = false;  ///< another is put on
    bool packed = false;     ///< strips are laid under the sheet, the setback is set for them and back again
    Care care;
    bool turned = false;       ///< the part, in the plane of the bed
    bool flipped = false;      ///< the other face up
    bool special_way = false;  ///< FoldStep::plain_ways is false
    GaugeWork gauge;
    bool closes_hem = false;
    bool turned_for_hem = false;
    bool carried = false;  ///< from another brake
};

/// Into what a fold's time falls.
enum class TimeShare { kFold, kGauge, kPieces, kLeafFace, kPacking, kCare, kTurn, kFlip, kWay, kHem, kCarry };
inline constexpr std::size_t kTimeShares = 11;
using TimeShares = std::array<long long, kTimeShares>;

/// By TimeShare, from the shop's times.
[[nodiscard]] TimeShares timeShares_ms(const Times& times, const FoldActions& actions);
/// Their sum.
[[nodiscard]] long long foldTime_ms(const Times& times, const FoldActions& actions);

/// The gauging of a fold as it is told.
[[nodiscard]] GaugeWork gaugeWork(const std::optional<GaugeStop>& stop, const std::optional<GaugeTrouble>& trouble);

/// What the folds of a plan do one after the other, each on its brake. The first on a brake finds it empty, a leaf
/// brake with its first face, and the part lying as it is wanted.
[[nodiscard]] std::vector<FoldActions> foldActions(const std::vector<BrakeInSetup>& brakes,
                                                   const std::vector<FoldStep>& folds);
/// The same with all of them on one brake.
[[nodiscard]] std::vector<FoldActions> foldActions(const BrakeInSetup& brake, const std::vector<FoldStep>& folds);

/// The sum over all folds.
[[nodiscard]] long long planTime_ms(const Times& times, const std::vector<FoldActions>& folds);

}  // namespace tinwright
