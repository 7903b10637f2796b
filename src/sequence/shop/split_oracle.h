// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <tuple>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/sequence/states/oracle.h>

#include "shop/shop_oracle.h"

namespace tinwright {

/// Answers the search's questions about one part on two brakes: a fold is possible when it is on one of them. What
/// stands on a brake stays there while the part is on the other; carrying the part over takes the shop's time.
class SplitOracle final : public FoldOracle {
public:
    static constexpr std::size_t kBrakes = 2;
    struct On {
        BrakeInSetup brake;
        BendMask may = 0;  ///< bends that may be made on it
    };
    /// `radii_mm`: as FoldEngine; for bends that either brake may make it is empty, and each takes all bends to have
    /// its own.
    SplitOracle(const Part& part, const Shop& shop, const std::array<On, kBrakes>& on,
                const std::vector<double>& radii_mm, const Material* material);

    [[nodiscard]] std::size_t bendCount() const override { return oracles_[0]->bendCount(); }
    [[nodiscard]] const std::vector<CandidateStroke>& candidates(BendMask formed) override;
    [[nodiscard]] std::vector<BendMask> lines(BendMask formed) override { return oracles_[0]->lines(formed); }
    [[nodiscard]] StepCost cost(BendMask formed, MachineState before, const CandidateStroke& candidate) override;
    [[nodiscard]] std::vector<StepCost> costs(BendMask formed, MachineState before, const CandidateStroke& candidate,
                                              std::int64_t most_ms) override;
    [[nodiscard]] std::uint64_t heldBytes() const override {
        return oracles_[0]->heldBytes() + oracles_[1]->heldBytes();
    }
    [[nodiscard]] std::int64_t timeLowerBound_ms(BendId bend) const override {
        return oracles_[0]->timeLowerBound_ms(bend);
    }
    using FoldOracle::spoilsLowerBound;
    [[nodiscard]] Spoils spoilsLowerBound(BendId bend) override;
    [[nodiscard]] bool linesNeverCoincide() const override { return oracles_[0]->linesNeverCoincide(); }
    [[nodiscard]] BendMask mayShareStroke(BendId bend) const override { return oracles_[0]->mayShareStroke(bend); }
    [[nodiscard]] std::uint32_t kind(BendId bend) const override { return oracles_[0]->kind(bend); }
    [[nodiscard]] ForbiddenStroke why(BendMask formed, const Stroke& stroke) override;

    /// The brake on which a step was made that leaves `after`, and how it stands there.
    [[nodiscard]] std::size_t brakeOf(MachineState after) const { return stands_[after].on; }
    [[nodiscard]] MachineState standingOn(std::size_t brake, MachineState machine_state) const {
        return stands_[machine_state].each[brake];
    }
    [[nodiscard]] ShopOracle& on(std::size_t brake) { return *oracles_[brake]; }
    [[nodiscard]] const CandidateStroke& candidateOn(std::size_t brake, const CandidateStroke& candidate) const {
        return *known_[candidate.handle].on[brake];
    }

private:
    // A stroke, with what it is to each brake that may make it.
    struct Known {
        std::array<std::optional<CandidateStroke>, kBrakes> on;
    };
    struct Stand {
        std::size_t on = kBrakes;  // none yet
        std::array<MachineState, kBrakes> each{};
        friend auto operator<=>(const Stand&, const Stand&) = default;
    };
    MachineState intern(const Stand& stand);
    [[nodiscard]] bool mayMake(std::size_t brake, BendMask bends) const { return (bends & ~may_[brake]) == 0; }

    std::array<std::unique_ptr<ShopOracle>, kBrakes> oracles_;
    std::array<BendMask, kBrakes> may_{};
    std::int64_t carry_ms_;
    std::map<BendMask, std::vector<CandidateStroke>> candidates_;
    std::deque<Known> known_;    // by handle
    std::vector<Stand> stands_;  // 0: nothing stands anywhere
    std::map<Stand, MachineState> stand_ids_;
};

}  // namespace tinwright
