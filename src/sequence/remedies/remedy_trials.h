// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/sequence/remedies/remedies.h>

namespace tinwright {

/// What remedies are tried with: plans within an allowance of work. A stage gets its share of what is left, so that the
/// first kinds do not starve the last.
class RemedyTrials {
public:
    RemedyTrials(const Part& part, const Shop& shop, std::size_t brake, const BrakeResult& as_drawn,
                 const RemedyOptions& options)
        : part_(part),
          shop_(shop),
          brake_(brake),
          as_drawn_on_(as_drawn.brake),
          as_drawn_(suitabilityOf(as_drawn)),
          full_reasons_(as_drawn.reasons),
          options_(options) {}

    [[nodiscard]] const Part& part() const { return part_; }
    [[nodiscard]] const Shop& shop() const { return shop_; }
    [[nodiscard]] std::size_t brakeIndex() const { return brake_; }
    [[nodiscard]] const BrakeInSetup& brake() const { return as_drawn_on_; }
    [[nodiscard]] const Suitability& asDrawn() const { return as_drawn_; }
    [[nodiscard]] const RemedyOptions& options() const { return options_; }

    /// Plans the part as drawn as its versions are planned, so that their reasons can be compared.
    void compareReasons() { as_drawn_.reasons = planWithReasons(part_).reasons; }
    /// What stood in the way when the part was planned in full.
    [[nodiscard]] const std::vector<Reason>& fullReasons() const { return full_reasons_; }

    /// From here on a share of what is left may be spent.
    void beginStage(double share) {
        stage_end_ = work_ + static_cast<std::uint64_t>(
                                 share * static_cast<double>(options_.max_work - std::min(work_, options_.max_work)));
    }
    [[nodiscard]] bool spent() const { return work_ >= stage_end_; }
    [[nodiscard]] std::uint64_t left() const { return spent() ? 0 : stage_end_ - work_; }
    /// Undecided when the stage's share is spent.
    Suitability plan(const Part& part, const std::vector<BrakeInSetup>& setups, BendMask formed) {
        return plan(part, setups, formed, false);
    }
    Suitability plan(const Part& part, BendMask formed) { return plan(part, {as_drawn_on_}, formed); }
    Suitability plan(const Part& part) { return plan(part, options_.formed); }
    /// And what stands in its way when it does not go.
    Suitability planWithReasons(const Part& part) { return plan(part, {as_drawn_on_}, options_.formed, true); }
    /// With the best order of all, and so what it takes.
    Suitability planInFull(const Part& part);
    /// Plans made by others.
    void add(std::size_t plans, std::uint64_t work, bool cut_short);

    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] std::uint64_t work() const { return work_; }
    [[nodiscard]] bool cutShort() const { return cut_short_; }

private:
    Suitability plan(const Part& part, const std::vector<BrakeInSetup>& setups, BendMask formed, bool tell_reasons,
                     bool verdict_only = true);

    const Part& part_;
    const Shop& shop_;
    std::size_t brake_;
    BrakeInSetup as_drawn_on_;
    Suitability as_drawn_;
    std::vector<Reason> full_reasons_;
    const RemedyOptions& options_;
    std::uint64_t work_ = 0;
    std::uint64_t stage_end_ = 0;
    std::size_t count_ = 0;
    bool cut_short_ = false;
};

/// One stage each: what it finds, the cheapest first.
[[nodiscard]] std::vector<Remedy> otherBrakes(RemedyTrials& trials);
/// Of an order that spoils something.
[[nodiscard]] std::vector<Remedy> cutOutRemedies(RemedyTrials& trials, const BrakeResult& as_drawn);
[[nodiscard]] std::vector<Remedy> dimensionRemedies(RemedyTrials& trials, const TweakedPart& tweaks,
                                                    std::vector<Suggestion>& other_reasons);
[[nodiscard]] std::vector<Remedy> twoDimensionRemedies(RemedyTrials& trials, const TweakedPart& tweaks,
                                                       const std::vector<Suggestion>& other_reasons);
[[nodiscard]] std::vector<Remedy> openCornerRemedies(RemedyTrials& trials);
[[nodiscard]] std::vector<Remedy> barRemedies(RemedyTrials& trials);
[[nodiscard]] std::vector<Remedy> weldedBendRemedies(RemedyTrials& trials);

}  // namespace tinwright
