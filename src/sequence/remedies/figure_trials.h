// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>
#include <tinwright/sequence/remedies/machine_needs.h>

#include "remedies/machine_figures.h"

namespace tinwright {

/// A figure, and what a changed brake has.
struct Wanted {
    FigureOf of;
    double value = 0;
    bool taken_back = false;  ///< it was found to be as near as the others let it be
    [[nodiscard]] bool isOther() const { return value != of.has; }
};

/// A brake with other figures, and pieces of any width besides.
struct ChangedBrake {
    std::vector<Wanted> wanted;     ///< each of the brake's figures
    std::vector<double> widths_mm;  ///< of the pieces, when kPieceWidth is another; empty: all that may be of use

    [[nodiscard]] bool isOther(MachineFigure figure) const;
    [[nodiscard]] bool isAnyOther() const;
    [[nodiscard]] bool isOnlyOther(std::size_t index) const;
};

/// Plans of one part on a brake with other figures, each made once, within an allowance of work.
class FigureTrials {
public:
    FigureTrials(const Part& part, const Shop& shop, const BrakeInSetup& brake, const NeedsOptions& options);

    /// The brake as it is.
    [[nodiscard]] ChangedBrake unchanged() const;
    /// In the V in use.
    [[nodiscard]] BrakeInSetup setupOf(const ChangedBrake& changed) const;

    /// Whether an order works in the V in use.
    [[nodiscard]] bool goes(const ChangedBrake& changed);
    enum class Answer {
        kGoes,
        kRefused,   ///< in every V that suits the sheet
        kNotKnown,  ///< it does in none, but some were left undecided
    };
    /// In any V: that in which it does is in use from then on.
    [[nodiscard]] Answer somewhere(const ChangedBrake& changed);

    [[nodiscard]] std::uint64_t work() const { return work_; }
    /// A plan was left undecided, or not made for want of work.
    [[nodiscard]] bool leftOpen() const { return left_open_; }

private:
    // That in the V in use first, or in the one most like it.
    [[nodiscard]] std::vector<BrakeInSetup> setupsOf(const ChangedBrake& changed) const;
    Verdict verdict(const ChangedBrake& changed, const BrakeInSetup& setup);
    Verdict planned(const ChangedBrake& changed, BrakeInSetup setup);

    const Part& part_;
    const Shop& shop_;
    BrakeInSetup brake_;
    const NeedsOptions& options_;
    std::vector<FigureOf> figures_;
    Vee in_use_;                                    // of a press brake
    std::map<std::vector<double>, Verdict> known_;  // by V, values and widths
    std::uint64_t work_ = 0;
    bool left_open_ = false;
};

}  // namespace tinwright
