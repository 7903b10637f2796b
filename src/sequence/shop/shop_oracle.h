// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <tuple>
#include <unordered_map>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/sequence/states/oracle.h>

namespace tinwright {

/// Shop time of what happens between two folds.
struct Handling {
    bool turned = false;  ///< about anything but the nose line
    double turn_deg = 0;
    bool flip = false;
};

/// Answers the search's questions about one part on one leaf brake: possibility from the fold engine, cost from the
/// shop's times. For every stroke some set-ups are weighed: what stands already, if it does; the string of fewest
/// pieces; and what is shared, since what a later stroke needs anyway may do from the start.
class ShopOracle final : public FoldOracle {
public:
    /// `radii_mm`: as FoldEngine.
    ShopOracle(const Part& part, const Shop& shop, const BrakeInSetup& brake, Demand demand = Demand::kPossible,
               const std::vector<double>& radii_mm = {});

    [[nodiscard]] std::size_t bendCount() const override { return part_->bends.size(); }
    [[nodiscard]] const std::vector<FoldMove>& moves(BendMask formed) override;
    [[nodiscard]] const std::vector<FoldMove>& listed(BendMask formed) override;
    [[nodiscard]] const FoldMove& answered(BendMask formed, std::size_t index) override;
    [[nodiscard]] bool answersQuickly(BendMask formed, std::size_t index) override;
    [[nodiscard]] bool isAnswered(BendMask formed, std::size_t index) override {
        return moves_.at(formed)->at(index).handle < kTakesLong;
    }
    [[nodiscard]] std::vector<FoldMove> strokes(BendMask formed) override;
    [[nodiscard]] std::vector<BendMask> lines(BendMask formed) override;
    [[nodiscard]] StepCost cost(BendMask formed, MachineState before, const FoldMove& move) override;
    /// What stands already where it does and costs no more than a set-up of its own; else that, or one that is shared.
    [[nodiscard]] std::vector<StepCost> costs(BendMask formed, MachineState before, const FoldMove& move,
                                              std::int64_t most_ms) override;
    bool share(const std::vector<MachineState>& after) override;
    /// What is shared, and sharing it on another oracle of the same part and brake.
    [[nodiscard]] std::vector<Setup> shared() const;
    void share(const std::vector<Setup>& setups);
    [[nodiscard]] std::uint64_t heldBytes() const override;
    [[nodiscard]] std::uint32_t setUp(MachineState machine_state) const override {
        return stands_[machine_state].setup;
    }
    [[nodiscard]] std::unique_ptr<RestBound> restBound(const std::vector<StepFamily>& families,
                                                       BendMask start) override;
    [[nodiscard]] std::int64_t timeLowerBound_ms(BendId bend) const override;
    [[nodiscard]] std::int32_t piecesLowerBound(BendId) const override { return 1; }
    [[nodiscard]] bool linesNeverCoincide() const override { return never_coincide_; }
    [[nodiscard]] BendMask mayShareStroke(BendId bend) const override { return may_share_stroke_[bend.index()]; }

    [[nodiscard]] std::uint32_t kind(BendId bend) const override { return kinds_[bend.index()]; }
    [[nodiscard]] ForbiddenStroke why(BendMask formed, BendMask bends, std::uint8_t hold) override;

    [[nodiscard]] FoldEngine& engine() { return engine_; }
    [[nodiscard]] Stroke strokeOf(const FoldMove& move) const;
    /// The result with which a step is made that leaves `after`.
    [[nodiscard]] const StrokeResult& made(const FoldMove& move, MachineState after);
    [[nodiscard]] Handling handling(BendMask formed, MachineState before, const FoldMove& move);

    /// How a part lies for a stroke, but for rolling it about the nose line.
    struct Lie {
        std::array<long long, 3> nose{};  ///< its direction in the base panel, in thousandths
        bool drawn_face_up = true;
        friend auto operator<=>(const Lie&, const Lie&) = default;
    };
    [[nodiscard]] Lie lieOf(BendMask formed, BendId bend, int hold);
    [[nodiscard]] Lie lieAfter(MachineState machine_state) const;
    /// Turning and flipping from one to the other. No less by way of a third.
    [[nodiscard]] std::int64_t handlingTime_ms(const Lie& from, const Lie& to) const;
    [[nodiscard]] const Setup& setupOf(MachineState machine_state) const {
        return setups_[stands_[machine_state].setup];
    }
    [[nodiscard]] const Part& part() const { return *part_; }
    [[nodiscard]] const Times& times() const { return *times_; }
    /// False when some line had so many bends that not all of its subsets were listed.
    [[nodiscard]] bool allStrokesListed() const { return all_listed_; }

private:
    using SetupId = std::uint32_t;
    // What stands and how the part was left.
    struct Stand {
        SetupId setup = 0;
        std::uint32_t pose = 0;
        bool drawn_face_up = true;
    };
    // A move of a state, with all that does not depend on what stands; by FoldMove::handle.
    struct Known {
        BendMask formed = 0;
        Stroke stroke;
        StrokeResult fresh;  // with a set-up of its own
        SetupId setup = 0;
        std::int64_t clearance_um = -1;  // of `fresh`, -1 where not asked yet
        std::int64_t gauge_ms = -1;      // what gauging it takes, the same; of `fresh`, so that it hangs on state and
                                         // stroke alone
        std::uint32_t pose_before = 0;   // how the part lies, from 1; 0: not asked yet
        std::uint32_t pose_after = 0;
    };
    // A move made with what stands already.
    struct Kept {
        StrokeResult result;
        std::int64_t clearance_um = -1;
    };
    // One set-up to make a move with.
    struct Choice {
        const StrokeResult* result = nullptr;
        SetupId setup = 0;
        std::int64_t* clearance_um = nullptr;  // where it is remembered
        StepCost cost;
    };
    // The handles of moves that are not answered yet: never asked, or left open since the answer takes long.
    static constexpr std::uint32_t kUnasked = ~std::uint32_t{0};
    static constexpr std::uint32_t kTakesLong = kUnasked - 1;
    const FoldMove& keep(BendMask formed, FoldMove& move, const Stroke& stroke, StrokeResult result);

    [[nodiscard]] Choice choose(MachineState before, const FoldMove& move, std::int64_t most_ms);
    [[nodiscard]] Choice freshChoice(MachineState before, const FoldMove& move);
    [[nodiscard]] std::optional<Choice> keptChoice(MachineState before, const FoldMove& move, SetupId setup,
                                                   std::int64_t most_ms);
    [[nodiscard]] std::int64_t priceLowerBound_ms(MachineState before, Known& known, SetupId setup);
    [[nodiscard]] std::int64_t hemTime_ms(const Known& known) const;
    [[nodiscard]] std::int64_t gaugeTime_ms(Known& known);
    [[nodiscard]] StepCost finished(const Choice& choice, const Known& known);
    [[nodiscard]] StepCost price(MachineState before, Known& known, const StrokeResult& result, SetupId setup);
    [[nodiscard]] Kept& kept(const FoldMove& move, SetupId setup);
    [[nodiscard]] Handling handlingOf(MachineState before, const Known& known);
    [[nodiscard]] Handling handlingOf(std::uint32_t pose_from, bool face_from, std::uint32_t pose_to, bool face_to);
    [[nodiscard]] std::int64_t clearance_um(const Known& known, const StrokeResult& result, std::int64_t& remembered);
    [[nodiscard]] std::size_t handled(SetupId from, SetupId to);
    [[nodiscard]] ForbiddenStroke findWhy(BendMask formed, BendMask bends, std::uint8_t hold);
    void shareStations(const std::vector<MachineState>& after);
    void lay(Known& known);
    [[nodiscard]] static Lie lie(const Eigen::Matrix3d& pose, bool drawn_face_up);
    SetupId internSetup(const Setup& setup);
    std::uint32_t internPose(const Eigen::Matrix3d& pose);
    MachineState intern(const Stand& stand);

    const Part* part_;
    const Times* times_;
    BrakeInSetup brake_;
    FoldEngine engine_;
    bool all_listed_ = true;
    bool never_coincide_ = true;
    std::vector<BendMask> may_share_stroke_;
    std::vector<std::uint32_t> kinds_;
    std::unordered_map<BendMask, std::unique_ptr<std::vector<FoldMove>>> moves_;  // looked up only, never walked
    std::deque<Known> known_;
    std::vector<Setup> setups_;  // by SetupId; 0 is nothing
    std::map<std::vector<long long>, SetupId> setup_ids_;
    std::vector<Eigen::Matrix3d> poses_;  // 0 is none
    std::map<std::array<long long, 9>, std::uint32_t> pose_ids_;
    std::vector<Stand> stands_;                                    // by Standing; 0 is nothing
    std::vector<std::vector<ForbiddenStroke>> forbidden_by_bend_;  // by the first bend and how it is held
    std::vector<SetupId> shared_;                                  // may be set up for any move
    std::map<std::tuple<SetupId, std::uint32_t, bool>, MachineState> stand_ids_;
    std::unordered_map<std::uint64_t, Kept> kept_;            // by handle and set-up; looked up only
    std::unordered_map<std::uint64_t, Handling> handling_;    // by poses and faces; looked up only
    std::unordered_map<std::uint64_t, std::size_t> handled_;  // by set-ups; looked up only
};

/// Pieces to put in or take out, and to shift, from one set-up to the next.
[[nodiscard]] std::size_t piecesHandled(const Setup& from, const Setup& to);

}  // namespace tinwright
