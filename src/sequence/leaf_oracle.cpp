// SPDX-License-Identifier: GPL-3.0-or-later
#include "leaf_oracle.h"

#include <algorithm>
#include <cmath>
#include <numbers>


namespace tinwright {

namespace {

// A pose as integers, so that equal ones get one id whatever way they were reached.
void appendPose(std::vector<long long>& key, const Eigen::Matrix3d& pose) {
    for (int i = 0; i < 9; ++i) key.push_back(std::llround(pose(i / 3, i % 3) * 1e6));
}

FoldAnswer answerOf(StrokeAnswer answer) {
    switch (answer) {
        case StrokeAnswer::kPossible: return FoldAnswer::kPossible;
        case StrokeAnswer::kUndecided: return FoldAnswer::kUndecided;
        case StrokeAnswer::kImpossible: break;
    }
    return FoldAnswer::kImpossible;
}

}  // namespace

std::size_t piecesHandled(const Setup& from, const Setup& to) {
    std::vector<SetupPiece> gone = from.pieces;
    std::vector<SetupPiece> come;
    for (const SetupPiece& piece : to.pieces) {  // what stays where it is costs nothing
        const auto same = std::find(gone.begin(), gone.end(), piece);
        same == gone.end() ? come.push_back(piece) : static_cast<void>(gone.erase(same));
    }
    std::size_t shifted = 0;
    for (auto piece = come.begin(); piece != come.end();) {  // a piece that is only shifted is handled once
        const auto same = std::find_if(gone.begin(), gone.end(), [&](const SetupPiece& old) { return old.bar == piece->bar; });
        if (same == gone.end()) {
            ++piece;
            continue;
        }
        gone.erase(same);
        piece = come.erase(piece);
        ++shifted;
    }
    return gone.size() + come.size() + shifted;
}

LeafOracle::LeafOracle(const Part& part, const Shop& shop, const LeafBrake& brake, Demand demand)
    : part_(&part), times_(&shop.times), engine_(part, shop, brake, demand), stands_(1, Stand{{}, Eigen::Matrix3d::Zero(), true}) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        BendMask mask = 0;
        for (std::size_t k = 0; k < part.bends.size(); ++k) {
            if (engine_.mayJoin(idAt<BendId>(std::min(i, k)), idAt<BendId>(std::max(i, k)))) mask |= bit(idAt<BendId>(k));
        }
        never_join_ = never_join_ && mask == bit(idAt<BendId>(i));
        may_join_.push_back(mask);
    }
}

Stroke LeafOracle::strokeOf(const FoldMove& move) const {
    Stroke stroke{{}, move.hold, move.whole_group};
    for (std::size_t i = 0; i < part_->bends.size(); ++i) {
        if (contains(move.bends, idAt<BendId>(i))) stroke.bends.push_back(idAt<BendId>(i));
    }
    return stroke;
}

const std::vector<FoldMove>& LeafOracle::moves(BendMask formed) {
    auto& slot = moves_[formed];
    if (slot) return *slot;
    auto list = std::make_unique<std::vector<FoldMove>>();
    bool all = true;
    for (const Stroke& stroke : engine_.strokes(formed, all)) {
        results_.push_back(engine_.check(formed, stroke));
        list->push_back({stroke.mask(), static_cast<std::uint8_t>(stroke.hold), stroke.whole_line, answerOf(results_.back().answer),
                         static_cast<std::uint32_t>(results_.size() - 1)});
    }
    all_listed_ = all_listed_ && all;
    return *(slot = std::move(list));
}

std::vector<BendMask> LeafOracle::lines(BendMask formed) {
    std::vector<BendMask> masks;
    for (const std::vector<BendId>& line : engine_.lines(formed)) masks.push_back(Stroke{line, 0, true}.mask());
    return masks;
}

std::int64_t LeafOracle::leastTime_ms(BendId) const { return times_->fold_ms + times_->gauge_ms; }

StepCost LeafOracle::cost(BendMask formed, Standing before, const FoldMove& move) { return step(formed, before, move).cost; }

const StrokeResult& LeafOracle::made(BendMask formed, Standing before, const FoldMove& move) { return step(formed, before, move).result; }

const LeafOracle::Step& LeafOracle::step(BendMask formed, Standing before, const FoldMove& move) {
    const auto [entry, is_new] = steps_.try_emplace({formed, before, move.bends, move.hold});
    Step& chosen = entry->second;
    if (!is_new) return chosen;
    const Stroke stroke = strokeOf(move);
    chosen.result = results_[move.handle];
    chosen.cost = price(formed, before, move, chosen.result);
    bool is_new_setup = true;
    if (before != kNothingStanding && !(stands_[before].setup == chosen.result.setup)) {
        const StrokeResult standing = engine_.checkStanding(formed, stroke, stands_[before].setup);
        if (standing.answer == StrokeAnswer::kPossible && standing.tight <= chosen.result.tight) {
            const StepCost cost = price(formed, before, move, standing);
            if (std::pair(cost.time_ms, cost.pieces) < std::pair(chosen.cost.time_ms, chosen.cost.pieces)) {
                chosen.result = standing;
                chosen.cost = cost;
                is_new_setup = false;
            }
        }
    }
    chosen.cost.clearance_um = is_new_setup ? clearance_um(formed, stroke, move.handle)
                                            : micronFloor(engine_.clearance(formed, stroke, chosen.result).gap_mm);
    chosen.cost.after = intern({chosen.result.setup, engine_.machineFromBase(formed, stroke, true), part_->bend(stroke.bends[0]).up});
    return chosen;
}

std::int64_t LeafOracle::clearance_um(BendMask formed, const Stroke& stroke, std::uint32_t handle) {
    clearances_um_.resize(results_.size(), -1);
    std::int64_t& known = clearances_um_[handle];
    if (known < 0) known = micronFloor(engine_.clearance(formed, stroke, results_[handle]).gap_mm);
    return known;
}

StepCost LeafOracle::price(BendMask formed, Standing before, const FoldMove& move, const StrokeResult& result) const {
    const Stand& stand = stands_[before];
    const Handling how = handling(formed, before, move);
    StepCost cost;
    cost.time_ms = times_->fold_ms + times_->gauge_ms;
    if (how.turn_deg != 0) cost.time_ms += times_->turn_ms;
    if (how.flip) cost.time_ms += times_->flip_ms;
    cost.time_ms += static_cast<std::int64_t>(piecesHandled(stand.setup, result.setup)) * times_->piece_ms;
    if (stand.setup.leaf_face != result.setup.leaf_face) cost.time_ms += times_->leaf_face_ms;
    if (!result.plain_ways) cost.time_ms += times_->way_out_ms;
    cost.pieces = static_cast<std::int32_t>(result.setup.pieces.size());
    cost.tight = result.tight;
    return cost;
}

Handling LeafOracle::handling(BendMask formed, Standing before, const FoldMove& move) const {
    if (before == kNothingStanding) return {};
    const Stand& stand = stands_[before];
    const Stroke stroke = strokeOf(move);
    Handling how;
    how.flip = part_->bend(stroke.bends[0]).up != stand.drawn_face_up;
    Eigen::Matrix3d change = engine_.machineFromBase(formed, stroke, false) * stand.machine_from_base.transpose();
    if (how.flip) change = change * Eigen::Vector3d(1, -1, -1).asDiagonal();  // flipped over the nose line, then turned
    const double turn = std::atan2(change(1, 0) - change(0, 1), change(0, 0) + change(1, 1)) * 180.0 / std::numbers::pi;
    how.turn_deg = std::round(turn * 1000) / 1000;
    if (how.turn_deg <= -180) how.turn_deg = 180;
    return how;
}

Standing LeafOracle::intern(Stand stand) {
    std::vector<long long> key{static_cast<long long>(stand.setup.leaf_face), stand.drawn_face_up ? 1 : 0};
    for (const SetupPiece& piece : stand.setup.pieces) {
        key.insert(key.end(), {static_cast<long long>(piece.bar.value), piece.at.lo, piece.at.hi});
    }
    appendPose(key, stand.machine_from_base);
    const auto [entry, is_new] = stand_ids_.try_emplace(std::move(key), static_cast<Standing>(stands_.size()));
    if (is_new) stands_.push_back(std::move(stand));
    return entry->second;
}

}  // namespace tinwright
