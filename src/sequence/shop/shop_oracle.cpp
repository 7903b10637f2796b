// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/shop_oracle.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>

#include <Eigen/Geometry>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/geometry/box.h>

#include "shop/flange_kinds.h"
#include "shop/shop_rest_bound.h"
#include "shop/stations.h"

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
    for (const SetupPiece& piece : setup.pieces)
        key.insert(key.end(), {static_cast<long long>(piece.bar.value), piece.at.lo, piece.at.hi});
    return key;
}

/// Turn of the part from one pose to another, whose nose lines differ. Rolling it about the nose line, as laying it
/// down again, is none; everything else is: a part that stands on edge is rolled about the other axis, and the angle is
/// that by which its base turns in its own plane.
double turnBetween_deg(const Eigen::Matrix3d& from, const Eigen::Matrix3d& to, bool flip, bool face_up) {
    const Eigen::Vector3d nose_from = from.row(0).transpose();
    const Eigen::Vector3d nose_to = to.row(0).transpose();
    Eigen::Matrix3d change = to * from.transpose();
    if (flip) change = change * Eigen::Vector3d(1, -1, -1).asDiagonal();  // flipped over the nose line, then turned
    double turn_rad = std::atan2(change(1, 0) - change(0, 1), change(0, 0) + change(1, 1));
    if (std::abs(turn_rad) < 1e-6) {
        const double sense = face_up ? -1 : 1;  // the nose goes round the part the other way
        const Eigen::Vector3d normal = nose_from.cross(nose_to);
        turn_rad = std::copysign(std::atan2(normal.norm(), nose_from.dot(nose_to)), sense * normal.z());
    }
    const double turn_deg = std::round(turn_rad * 180.0 / std::numbers::pi * 1000) / 1000 + 0.0;  // no minus zero
    return turn_deg <= -180 ? 180 : turn_deg;
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
        const auto same =
            std::find_if(gone.begin(), gone.end(), [&](const SetupPiece& old) { return old.bar == piece->bar; });
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

ShopOracle::ShopOracle(const Part& part, const Shop& shop, const BrakeInSetup& brake, Demand demand,
                       const std::vector<double>& radii_mm)
    : part_(&part),
      times_(&shop.times),
      brake_(brake),
      engine_(part, shop, brake, demand, radii_mm),
      setups_(1),
      poses_(1, Eigen::Matrix3d::Zero()),
      stands_(1) {
    setup_ids_.emplace(keyOf(Setup{}), SetupId{0});
    kinds_ = flangeKinds(part);
    forbidden_by_bend_.resize(2 * part.bends.size());
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        BendMask mask = 0;
        for (std::size_t k = 0; k < part.bends.size(); ++k) {
            if (engine_.mayShareStroke(idAt<BendId>(std::min(i, k)), idAt<BendId>(std::max(i, k))))
                mask |= bit(idAt<BendId>(k));
        }
        never_coincide_ = never_coincide_ && mask == bit(idAt<BendId>(i));
        may_share_stroke_.push_back(mask);
    }
}

Stroke ShopOracle::strokeOf(const FoldMove& move) const {
    Stroke stroke{{}, move.hold, move.whole_group};
    for (std::size_t i = 0; i < part_->bends.size(); ++i) {
        if (contains(move.bends, idAt<BendId>(i))) stroke.bends.push_back(idAt<BendId>(i));
    }
    return stroke;
}

const std::vector<FoldMove>& ShopOracle::moves(BendMask formed) {
    const std::vector<FoldMove>& list = listed(formed);
    for (std::size_t i = 0; i < list.size(); ++i) static_cast<void>(answered(formed, i));
    return list;
}

const std::vector<FoldMove>& ShopOracle::listed(BendMask formed) {
    auto& slot = moves_[formed];
    if (slot) return *slot;
    slot = std::make_unique<std::vector<FoldMove>>(strokes(formed));
    for (FoldMove& move : *slot) move.handle = kUnasked;
    return *slot;
}

const FoldMove& ShopOracle::answered(BendMask formed, std::size_t index) {
    FoldMove& move = moves_.at(formed)->at(index);
    if (move.handle < kTakesLong) return move;
    const Stroke stroke = strokeOf(move);
    return keep(formed, move, stroke, engine_.check(formed, stroke));
}

bool ShopOracle::answersQuickly(BendMask formed, std::size_t index) {
    FoldMove& move = moves_.at(formed)->at(index);
    if (move.handle != kUnasked) return move.handle != kTakesLong;
    const Stroke stroke = strokeOf(move);
    if (auto result = engine_.checkQuickly(formed, stroke)) {
        keep(formed, move, stroke, std::move(*result));
        return true;
    }
    move.handle = kTakesLong;
    return false;
}

const FoldMove& ShopOracle::keep(BendMask formed, FoldMove& move, const Stroke& stroke, StrokeResult result) {
    move.handle = static_cast<std::uint32_t>(known_.size());
    move.answer = answerOf(result.answer);
    known_.push_back({formed, stroke, std::move(result), 0, -1, -1, 0, 0});
    known_.back().setup = internSetup(known_.back().fresh.setup);
    return move;
}

std::vector<FoldMove> ShopOracle::strokes(BendMask formed) {
    std::vector<FoldMove> list;
    bool all = true;
    for (const Stroke& stroke : engine_.strokes(formed, all))
        list.push_back({stroke.mask(), static_cast<std::uint8_t>(stroke.hold), stroke.whole_line});
    all_listed_ = all_listed_ && all;
    return list;
}

std::vector<BendMask> ShopOracle::lines(BendMask formed) {
    std::vector<BendMask> masks;
    for (const std::vector<BendId>& line : engine_.lines(formed)) masks.push_back(Stroke{line, 0, true}.mask());
    return masks;
}

/// What was found before is told again where it holds: it is general, and asked for over and over.
ForbiddenStroke ShopOracle::why(BendMask formed, BendMask bends, std::uint8_t hold) {
    std::vector<ForbiddenStroke>& known =
        forbidden_by_bend_[2 * static_cast<std::size_t>(std::countr_zero(bends)) + hold];
    const ForbiddenStroke* least = nullptr;
    for (const ForbiddenStroke& forbidden : known) {
        if (!forbidden.holdsIn(formed) || !forbidden.means(bends) || (forbidden.mask & bends) != 0) continue;
        if (least == nullptr || std::popcount(forbidden.mask) < std::popcount(least->mask)) least = &forbidden;
    }
    if (least != nullptr) return *least;
    const ForbiddenStroke forbidden = findWhy(formed, bends, hold);
    const bool general = (forbidden.mask | forbidden.bends | forbidden.not_with) != allFormed(*part_);  // else it is
                                                                                                        // told of this
                                                                                                        // very state
    if (general && forbidden.hold == hold && (forbidden.bends & -forbidden.bends) == (bends & -bends))
        known.push_back(forbidden);
    return forbidden;
}

ForbiddenStroke ShopOracle::findWhy(BendMask formed, BendMask bends, std::uint8_t hold) {
    const Stroke stroke = strokeOf({bends, hold});
    if (auto apart = engine_.conflictSetOfLine(formed, stroke.bends, hold)) return *apart;
    const std::vector<FoldMove>& list = listed(formed);
    for (std::size_t i = 0; i < list.size(); ++i) {
        if (list[i].bends == bends && list[i].hold == hold && answered(formed, i).answer == FoldAnswer::kImpossible)
            return engine_.conflictSet(formed, stroke);
    }
    return FoldOracle::why(formed, bends, hold);  // undecided, or a stroke of a long line that is not tried
}

std::int64_t ShopOracle::timeLowerBound_ms(BendId) const { return times_->fold_ms + times_->gauge_ms; }

StepCost ShopOracle::cost(BendMask, MachineState before, const FoldMove& move) {
    return finished(choose(before, move, kNever_ms), known_[move.handle]);
}

std::vector<StepCost> ShopOracle::costs(BendMask, MachineState before, const FoldMove& move, std::int64_t most_ms) {
    const Choice best = choose(before, move, most_ms);
    const Known& known = known_[move.handle];
    std::vector<StepCost> costs;
    if (best.cost.time_ms <= most_ms) costs.push_back(finished(best, known));
    if (before != kNothingSetUp && best.setup == stands_[before].setup)
        return costs;  // what stands can be changed when it does not do
    for (const SetupId setup : shared_) {
        if (setup == best.setup || setup == known.setup) continue;
        const std::optional<Choice> other = keptChoice(before, move, setup, most_ms);
        if (other && other->cost.time_ms <= most_ms) costs.push_back(finished(*other, known));
    }
    return costs;
}

bool ShopOracle::share(const std::vector<MachineState>& after) {
    constexpr std::size_t kMostAdded = 4;
    const std::size_t before = shared_.size();
    for (const MachineState machine_state : after) {
        const SetupId setup = stands_[machine_state].setup;
        const bool known = std::find(shared_.begin(), shared_.end(), setup) != shared_.end();
        if (!known && shared_.size() < before + kMostAdded) shared_.push_back(setup);
    }
    if (brake_->isPress()) shareStations(after);
    return shared_.size() > before;
}

/// Between stations there is room for the part to be laid beside the tools of the next.
void ShopOracle::shareStations(const std::vector<MachineState>& after) {
    std::vector<Setup> setups;
    for (auto machine_state = after.rbegin(); machine_state != after.rend(); ++machine_state)
        setups.push_back(setupOf(*machine_state));  // those of the first order come first
    const double part_mm = boxOf(part_->blank.outline).sizes().norm();
    for (const Setup& stations : stationsOf(*brake_, setups, micronCeil(part_mm))) {
        const SetupId setup = internSetup(stations);
        if (std::find(shared_.begin(), shared_.end(), setup) == shared_.end()) shared_.push_back(setup);
    }
}

/// Measured on ladders, whose groups lie differently in nearly every state: records of groups are what takes the
/// memory.
std::uint64_t ShopOracle::heldBytes() const {
    constexpr std::uint64_t kBytesPerRecord = 3'500;
    constexpr std::uint64_t kBytesPerPair = 250;
    constexpr std::uint64_t kBytesPerMove = 700;
    const FoldEngine::Work work = engine_.work();
    return work.records * kBytesPerRecord + work.pairs * kBytesPerPair + (known_.size() + kept_.size()) * kBytesPerMove;
}

std::vector<Setup> ShopOracle::shared() const {
    std::vector<Setup> setups;
    for (const SetupId setup : shared_) setups.push_back(setups_[setup]);
    return setups;
}

void ShopOracle::share(const std::vector<Setup>& setups) {
    for (const Setup& setup : setups) shared_.push_back(internSetup(setup));
}

const StrokeResult& ShopOracle::made(const FoldMove& move, MachineState after) {
    const SetupId setup = stands_[after].setup;
    const Known& known = known_[move.handle];
    return setup == known.setup ? known.fresh : kept(move, setup).result;
}

Handling ShopOracle::handling(BendMask, MachineState before, const FoldMove& move) {
    Known& known = known_[move.handle];
    lay(known);
    return handlingOf(before, known);
}

ShopOracle::Choice ShopOracle::freshChoice(MachineState before, const FoldMove& move) {
    Known& known = known_[move.handle];
    return {&known.fresh, known.setup, &known.clearance_um, price(before, known, known.fresh, known.setup)};
}

/// Nothing when the set-up does not do, is tight where the string of fewest pieces is not, or takes more than that
/// anyway.
std::optional<ShopOracle::Choice> ShopOracle::keptChoice(MachineState before, const FoldMove& move, SetupId setup,
                                                         std::int64_t most_ms) {
    Known& known = known_[move.handle];
    if (priceLowerBound_ms(before, known, setup) > most_ms) return std::nullopt;
    Kept& as_it_stands = kept(move, setup);
    if (as_it_stands.result.answer != StrokeAnswer::kPossible) return std::nullopt;
    return Choice{&as_it_stands.result, setup, &as_it_stands.clearance_um,
                  price(before, known, as_it_stands.result, setup)};
}

/// Without asking whether it does, and how part and bars come out.
std::int64_t ShopOracle::priceLowerBound_ms(MachineState before, Known& known, SetupId setup) {
    const Handling how = handlingOf(before, known);
    return times_->fold_ms + hemTime_ms(known) + gaugeTime_ms(known) + (how.turned ? times_->turn_ms : 0) +
           (how.flip ? times_->flip_ms : 0) +
           static_cast<std::int64_t>(handled(stands_[before].setup, setup)) * times_->piece_ms;
}

/// Hems are closed with the parent in front: a part that was held by it is turned round for that.
std::int64_t ShopOracle::hemTime_ms(const Known& known) const {
    if (!part_->bend(known.stroke.bends[0]).hem) return 0;
    return times_->hem_ms + (known.stroke.hold == 0 ? times_->turn_ms : 0);
}

/// On a press brake it is set by its back gauge: from the flat sheet's edge where there is one to be had (common
/// practice: from an unbent edge).
std::int64_t ShopOracle::gaugeTime_ms(Known& known) {
    if (known.gauge_ms >= 0) return known.gauge_ms;
    known.gauge_ms = times_->gauge_ms;
    if (brake_->isPress() && brake_->press().gauge && known.fresh.answer == StrokeAnswer::kPossible) {
        const std::optional<GaugeStop> stop = engine_.gauge(known.formed, known.stroke, known.fresh).stop;
        known.gauge_ms += stop ? std::min(stop->bends_between * times_->gauge_formed_ms, times_->gauge_sight_ms)
                               : times_->gauge_sight_ms;
    }
    return known.gauge_ms;
}

ShopOracle::Choice ShopOracle::choose(MachineState before, const FoldMove& move, std::int64_t most_ms) {
    lay(known_[move.handle]);
    const Choice fresh = freshChoice(before, move);
    const SetupId machine_state = stands_[before].setup;
    if (before == kNothingSetUp || machine_state == fresh.setup) return fresh;
    const std::optional<Choice> as_it_stands = keptChoice(before, move, machine_state, most_ms);
    const auto key = [](const Choice& choice) { return std::pair(choice.cost.time_ms, choice.cost.pieces); };
    return as_it_stands && key(*as_it_stands) < key(fresh) ? *as_it_stands : fresh;
}

StepCost ShopOracle::finished(const Choice& choice, const Known& known) {
    StepCost cost = choice.cost;
    cost.clearance_um = clearance_um(known, *choice.result, *choice.clearance_um);
    cost.after = intern({choice.setup, known.pose_after, part_->bend(known.stroke.bends[0]).up});
    return cost;
}

ShopOracle::Kept& ShopOracle::kept(const FoldMove& move, SetupId setup) {
    const auto [entry, is_new] = kept_.try_emplace(pairKey(move.handle, setup));
    const Known& known = known_[move.handle];
    if (is_new)
        entry->second.result = engine_.checkWithSetup(known.formed, known.stroke, setups_[setup], known.fresh.tight);
    return entry->second;
}

std::int64_t ShopOracle::clearance_um(const Known& known, const StrokeResult& result, std::int64_t& remembered) {
    if (remembered < 0) remembered = micronFloor(engine_.clearance(known.formed, known.stroke, result).gap_mm);
    return remembered;
}

StepCost ShopOracle::price(MachineState before, Known& known, const StrokeResult& result, SetupId setup) {
    StepCost cost;
    cost.time_ms = priceLowerBound_ms(before, known, setup);
    if (setups_[stands_[before].setup].leaf_face != result.setup.leaf_face) cost.time_ms += times_->leaf_face_ms;
    if (!result.plain_ways) cost.time_ms += times_->way_out_ms;
    cost.pieces = static_cast<std::int32_t>(result.setup.pieces.size());
    cost.tight = result.tight;
    return cost;
}

std::size_t ShopOracle::handled(SetupId from, SetupId to) {
    if (from == to) return 0;
    const auto [entry, is_new] = handled_.try_emplace(pairKey(from, to), 0);
    if (is_new) entry->second = piecesHandled(setups_[from], setups_[to]);
    return entry->second;
}

void ShopOracle::lay(Known& known) {
    if (known.pose_before != 0) return;
    known.pose_before = internPose(engine_.machineFromBase(known.formed, known.stroke, false));
    known.pose_after = internPose(engine_.machineFromBase(known.formed, known.stroke, true));
}

Handling ShopOracle::handlingOf(MachineState before, const Known& known) {
    if (before == kNothingSetUp) return {};
    const Stand& stand = stands_[before];
    return handlingOf(stand.pose, stand.drawn_face_up, known.pose_before, part_->bend(known.stroke.bends[0]).up);
}

Handling ShopOracle::handlingOf(std::uint32_t pose_from, bool face_from, std::uint32_t pose_to, bool face_to) {
    const bool flip = face_from != face_to;
    const auto [entry, is_new] =
        handling_.try_emplace(pairKey(4 * pose_from + (flip ? 2 : 0) + (face_to ? 1 : 0), pose_to));
    Handling& how = entry->second;
    if (!is_new) return how;
    how.flip = flip;
    how.turned = lie(poses_[pose_from], face_from).nose != lie(poses_[pose_to], face_to).nose;
    if (how.turned) how.turn_deg = turnBetween_deg(poses_[pose_from], poses_[pose_to], flip, face_to);
    return how;
}

ShopOracle::Lie ShopOracle::lieOf(BendMask formed, BendId bend, int hold) {
    return lie(engine_.machineFromBase(formed, {{bend}, hold, false}, false), part_->bend(bend).up);
}

ShopOracle::Lie ShopOracle::lieAfter(MachineState machine_state) const {
    return lie(poses_[stands_[machine_state].pose], stands_[machine_state].drawn_face_up);
}

/// The direction of the nose line in the base, to a thousandth: a stroke rolls the part about it at most, and nobody
/// turns a part by less.
ShopOracle::Lie ShopOracle::lie(const Eigen::Matrix3d& pose, bool drawn_face_up) {
    Lie lie{{}, drawn_face_up};
    for (int i = 0; i < 3; ++i) lie.nose[static_cast<std::size_t>(i)] = std::llround(pose(0, i) * 1e3);
    return lie;
}

std::int64_t ShopOracle::handlingTime_ms(const Lie& from, const Lie& to) const {
    return (from.nose != to.nose ? times_->turn_ms : 0) +
           (from.drawn_face_up != to.drawn_face_up ? times_->flip_ms : 0);
}

std::unique_ptr<RestBound> ShopOracle::restBound(const std::vector<StepFamily>& families, BendMask start) {
    return std::make_unique<ShopRestBound>(*this, families, start);
}

ShopOracle::SetupId ShopOracle::internSetup(const Setup& setup) {
    const auto [entry, is_new] = setup_ids_.try_emplace(keyOf(setup), static_cast<SetupId>(setups_.size()));
    if (is_new) setups_.push_back(setup);
    return entry->second;
}

/// Poses as whole millionths, so that equal ones get one id whatever way they were reached.
std::uint32_t ShopOracle::internPose(const Eigen::Matrix3d& pose) {
    std::array<long long, 9> key{};
    for (int i = 0; i < 9; ++i) key[static_cast<std::size_t>(i)] = std::llround(pose(i / 3, i % 3) * 1e6);
    const auto [entry, is_new] = pose_ids_.try_emplace(key, static_cast<std::uint32_t>(poses_.size()));
    if (is_new) poses_.push_back(pose);
    return entry->second;
}

MachineState ShopOracle::intern(const Stand& stand) {
    const auto [entry, is_new] = stand_ids_.try_emplace({stand.setup, stand.pose, stand.drawn_face_up},
                                                        static_cast<MachineState>(stands_.size()));
    if (is_new) stands_.push_back(stand);
    return entry->second;
}

}  // namespace tinwright
