// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <deque>
#include <map>
#include <memory>
#include <tuple>
#include <unordered_map>
#include <vector>

#include <tinwright/fold/fold_engine.h>
#include <tinwright/sequence/oracle.h>

namespace tinwright {

/// Shop time of what happens between two folds.
struct Handling {
    double turn_deg = 0;
    bool flip = false;
};

/// Answers the search's questions about one part on one leaf brake: possibility from the fold engine, cost from the shop's
/// times. For every stroke two set-ups are weighed: what stands already, if it does, and the string of fewest pieces.
class LeafOracle final : public FoldOracle {
public:
    LeafOracle(const Part& part, const Shop& shop, const LeafBrake& brake, Demand demand = Demand::kPossible);

    [[nodiscard]] std::size_t bendCount() const override { return part_->bends.size(); }
    [[nodiscard]] const std::vector<FoldMove>& moves(BendMask formed) override;
    [[nodiscard]] std::vector<BendMask> lines(BendMask formed) override;
    [[nodiscard]] StepCost cost(BendMask formed, Standing before, const FoldMove& move) override;
    [[nodiscard]] std::int64_t leastTime_ms(BendId bend) const override;
    [[nodiscard]] std::int32_t leastPieces(BendId) const override { return 1; }
    [[nodiscard]] bool linesNeverJoin() const override { return never_join_; }
    [[nodiscard]] BendMask mayJoin(BendId bend) const override { return may_join_[bend.index()]; }

    [[nodiscard]] FoldEngine& engine() { return engine_; }
    [[nodiscard]] Stroke strokeOf(const FoldMove& move) const;
    /// The result with which a step is made: that of the standing set-up or a new one.
    [[nodiscard]] const StrokeResult& made(BendMask formed, Standing before, const FoldMove& move);
    [[nodiscard]] Handling handling(BendMask formed, Standing before, const FoldMove& move) const;
    /// False when some line had so many bends that not all of its subsets were listed.
    [[nodiscard]] bool allStrokesListed() const { return all_listed_; }

private:
    // What stands and how the part was left.
    struct Stand {
        Setup setup;
        Eigen::Matrix3d machine_from_base;
        bool drawn_face_up = true;
    };
    struct Step {
        StrokeResult result;
        StepCost cost;
    };
    using StepKey = std::tuple<BendMask, Standing, BendMask, std::uint8_t>;

    const Step& step(BendMask formed, Standing before, const FoldMove& move);
    [[nodiscard]] StepCost price(BendMask formed, Standing before, const FoldMove& move, const StrokeResult& result) const;
    [[nodiscard]] std::int64_t clearance_um(BendMask formed, const Stroke& stroke, std::uint32_t handle);
    Standing intern(Stand stand);

    const Part* part_;
    const Times* times_;
    FoldEngine engine_;
    bool all_listed_ = true;
    bool never_join_ = true;
    std::vector<BendMask> may_join_;
    std::unordered_map<BendMask, std::unique_ptr<std::vector<FoldMove>>> moves_;
    std::deque<StrokeResult> results_;               // by FoldMove::handle
    std::vector<Stand> stands_;                      // by Standing; 0 is nothing
    std::map<std::vector<long long>, Standing> stand_ids_;
    std::map<StepKey, Step> steps_;
    std::vector<std::int64_t> clearances_um_;        // of results_, -1 where not asked yet
};

/// Pieces to put in or take out, and to shift, from one set-up to the next.
[[nodiscard]] std::size_t piecesHandled(const Setup& from, const Setup& to);

}  // namespace tinwright
