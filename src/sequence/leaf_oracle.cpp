// SPDX-License-Identifier: GPL-3.0-or-later
#include "leaf_oracle.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "flange_kinds.h"


namespace tinwright {

namespace {

FoldAnswer answerOf(StrokeAnswer answer) {
    switch (answer) {
        case StrokeAnswer::kPossible: return FoldAnswer::kPossible;
        case StrokeAnswer::kUndecided: return FoldAnswer::kUndecided;
        case StrokeAnswer::kImpossible: break;
    }
    return FoldAnswer::kImpossible;
}

std::vector<long long> keyOf(const Setup& setup) {
    std::vector<long long> key{static_cast<long long>(setup.leaf_face)};
    for (const SetupPiece& piece : setup.pieces) key.insert(key.end(), {static_cast<long long>(piece.bar.value), piece.at.lo, piece.at.hi});
    return key;
}

std::uint64_t pairKey(std::uint32_t a, std::uint32_t b) { return (std::uint64_t{a} << 32) | b; }

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
    : part_(&part), times_(&shop.times), engine_(part, shop, brake, demand), setups_(1), poses_(1, Eigen::Matrix3d::Zero()), stands_(1) {
    setup_ids_.emplace(keyOf(Setup{}), SetupId{0});
    kinds_ = flangeKinds(part);
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
        known_.push_back({formed, stroke, engine_.check(formed, stroke), 0, -1, 0, 0});
        known_.back().setup = internSetup(known_.back().fresh.setup);
        list->push_back({stroke.mask(), static_cast<std::uint8_t>(stroke.hold), stroke.whole_line, answerOf(known_.back().fresh.answer),
                         static_cast<std::uint32_t>(known_.size() - 1)});
    }
    all_listed_ = all_listed_ && all;
    return *(slot = std::move(list));
}

std::vector<FoldMove> LeafOracle::strokes(BendMask formed) {
    std::vector<FoldMove> list;
    bool all = true;
    for (const Stroke& stroke : engine_.strokes(formed, all)) list.push_back({stroke.mask(), static_cast<std::uint8_t>(stroke.hold), stroke.whole_line});
    all_listed_ = all_listed_ && all;
    return list;
}

std::vector<BendMask> LeafOracle::lines(BendMask formed) {
    std::vector<BendMask> masks;
    for (const std::vector<BendId>& line : engine_.lines(formed)) masks.push_back(Stroke{line, 0, true}.mask());
    return masks;
}

ForbiddenStroke LeafOracle::why(BendMask formed, BendMask bends, std::uint8_t hold) {
    const Stroke stroke = strokeOf({bends, hold});
    if (auto apart = engine_.blameLine(formed, stroke.bends, hold)) return *apart;
    for (const FoldMove& move : moves(formed)) {
        if (move.bends == bends && move.hold == hold && move.answer == FoldAnswer::kImpossible) return engine_.blame(formed, stroke);
    }
    return FoldOracle::why(formed, bends, hold);  // undecided, or a stroke of a long line that is not tried
}

std::int64_t LeafOracle::leastTime_ms(BendId) const { return times_->fold_ms + times_->gauge_ms; }

StepCost LeafOracle::cost(BendMask, Standing before, const FoldMove& move) { return step(before, move).cost; }

const StrokeResult& LeafOracle::made(BendMask, Standing before, const FoldMove& move) { return *step(before, move).result; }

Handling LeafOracle::handling(BendMask, Standing before, const FoldMove& move) {
    Known& known = known_[move.handle];
    lay(known);
    return handlingOf(before, known);
}

LeafOracle::Step LeafOracle::step(Standing before, const FoldMove& move) {
    Known& known = known_[move.handle];
    lay(known);
    Step chosen{&known.fresh, price(before, known, known.fresh, known.setup)};
    SetupId setup = known.setup;
    std::int64_t* clearance = &known.clearance_um;
    const SetupId standing = stands_[before].setup;
    if (before != kNothingStanding && standing != known.setup) {
        Kept& as_it_stands = kept(move, standing);
        if (as_it_stands.result.answer == StrokeAnswer::kPossible && as_it_stands.result.tight <= known.fresh.tight) {
            const StepCost cost = price(before, known, as_it_stands.result, standing);
            if (std::pair(cost.time_ms, cost.pieces) < std::pair(chosen.cost.time_ms, chosen.cost.pieces)) {
                chosen = {&as_it_stands.result, cost};
                setup = standing;
                clearance = &as_it_stands.clearance_um;
            }
        }
    }
    chosen.cost.clearance_um = clearance_um(known, *chosen.result, *clearance);
    chosen.cost.after = intern({setup, known.pose_after, part_->bend(known.stroke.bends[0]).up});
    return chosen;
}

LeafOracle::Kept& LeafOracle::kept(const FoldMove& move, SetupId setup) {
    const auto [entry, is_new] = kept_.try_emplace(pairKey(move.handle, setup));
    const Known& known = known_[move.handle];
    if (is_new) entry->second.result = engine_.checkStanding(known.formed, known.stroke, setups_[setup]);
    return entry->second;
}

std::int64_t LeafOracle::clearance_um(const Known& known, const StrokeResult& result, std::int64_t& remembered) {
    if (remembered < 0) remembered = micronFloor(engine_.clearance(known.formed, known.stroke, result).gap_mm);
    return remembered;
}

StepCost LeafOracle::price(Standing before, const Known& known, const StrokeResult& result, SetupId setup) {
    const Handling how = handlingOf(before, known);
    StepCost cost;
    cost.time_ms = times_->fold_ms + times_->gauge_ms;
    if (how.turn_deg != 0) cost.time_ms += times_->turn_ms;
    if (how.flip) cost.time_ms += times_->flip_ms;
    cost.time_ms += static_cast<std::int64_t>(handled(stands_[before].setup, setup)) * times_->piece_ms;
    if (setups_[stands_[before].setup].leaf_face != result.setup.leaf_face) cost.time_ms += times_->leaf_face_ms;
    if (!result.plain_ways) cost.time_ms += times_->way_out_ms;
    cost.pieces = static_cast<std::int32_t>(result.setup.pieces.size());
    cost.tight = result.tight;
    return cost;
}

std::size_t LeafOracle::handled(SetupId from, SetupId to) {
    if (from == to) return 0;
    const auto [entry, is_new] = handled_.try_emplace(pairKey(from, to), 0);
    if (is_new) entry->second = piecesHandled(setups_[from], setups_[to]);
    return entry->second;
}

void LeafOracle::lay(Known& known) {
    if (known.pose_before != 0) return;
    known.pose_before = internPose(engine_.machineFromBase(known.formed, known.stroke, false));
    known.pose_after = internPose(engine_.machineFromBase(known.formed, known.stroke, true));
}

Handling LeafOracle::handlingOf(Standing before, const Known& known) {
    if (before == kNothingStanding) return {};
    const Stand& stand = stands_[before];
    const bool flip = part_->bend(known.stroke.bends[0]).up != stand.drawn_face_up;
    const auto [entry, is_new] = handling_.try_emplace(pairKey(2 * stand.pose + (flip ? 1 : 0), known.pose_before));
    Handling& how = entry->second;
    if (!is_new) return how;
    how.flip = flip;
    Eigen::Matrix3d change = poses_[known.pose_before] * poses_[stand.pose].transpose();
    if (how.flip) change = change * Eigen::Vector3d(1, -1, -1).asDiagonal();  // flipped over the nose line, then turned
    const double turn = std::atan2(change(1, 0) - change(0, 1), change(0, 0) + change(1, 1)) * 180.0 / std::numbers::pi;
    how.turn_deg = std::round(turn * 1000) / 1000 + 0.0;  // no minus zero
    if (how.turn_deg <= -180) how.turn_deg = 180;
    return how;
}

LeafOracle::SetupId LeafOracle::internSetup(const Setup& setup) {
    const auto [entry, is_new] = setup_ids_.try_emplace(keyOf(setup), static_cast<SetupId>(setups_.size()));
    if (is_new) setups_.push_back(setup);
    return entry->second;
}

/// Poses as whole millionths, so that equal ones get one id whatever way they were reached.
std::uint32_t LeafOracle::internPose(const Eigen::Matrix3d& pose) {
    std::array<long long, 9> key{};
    for (int i = 0; i < 9; ++i) key[static_cast<std::size_t>(i)] = std::llround(pose(i / 3, i % 3) * 1e6);
    const auto [entry, is_new] = pose_ids_.try_emplace(key, static_cast<std::uint32_t>(poses_.size()));
    if (is_new) poses_.push_back(pose);
    return entry->second;
}

Standing LeafOracle::intern(const Stand& stand) {
    const auto [entry, is_new] = stand_ids_.try_emplace({stand.setup, stand.pose, stand.drawn_face_up}, static_cast<Standing>(stands_.size()));
    if (is_new) stands_.push_back(stand);
    return entry->second;
}

}  // namespace tinwright
