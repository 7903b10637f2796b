// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/machine_states.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <Eigen/Geometry>

namespace tinwright {

namespace {

std::vector<long long> keyOf(const Setup& setup) {
    std::vector<long long> key{static_cast<long long>(setup.face)};
    for (const SetupPiece& piece : setup.pieces)
        key.insert(key.end(), {static_cast<long long>(piece.tool.value), piece.at.lo, piece.at.hi});
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

}  // namespace

/// The direction of the nose line in the base, to a thousandth: a stroke rolls the part about it at most, and nobody
/// turns a part by less.
Orientation orientationOf(const Eigen::Matrix3d& pose, bool drawn_face_up) {
    Orientation orientation{{}, drawn_face_up};
    for (int i = 0; i < 3; ++i) orientation.nose[static_cast<std::size_t>(i)] = std::llround(pose(0, i) * 1e3);
    return orientation;
}

MachineStates::MachineStates() : setups_(1), poses_(1, Eigen::Matrix3d::Zero()), states_(1) {
    setup_ids_.emplace(keyOf(Setup{}), SetupId{0});
}

MachineStates::SetupId MachineStates::idOf(const Setup& setup) {
    const auto [entry, is_new] = setup_ids_.try_emplace(keyOf(setup), static_cast<SetupId>(setups_.size()));
    if (is_new) setups_.push_back(setup);
    return entry->second;
}

/// Poses as whole millionths, so that equal ones get one id whatever way they were reached.
MachineStates::PoseId MachineStates::idOf(const Eigen::Matrix3d& pose) {
    std::array<long long, 9> key{};
    for (int i = 0; i < 9; ++i) key[static_cast<std::size_t>(i)] = std::llround(pose(i / 3, i % 3) * 1e6);
    const auto [entry, is_new] = pose_ids_.try_emplace(key, static_cast<PoseId>(poses_.size()));
    if (is_new) poses_.push_back(pose);
    return entry->second;
}

MachineState MachineStates::idOf(SetupId setup, PoseId pose, bool drawn_face_up) {
    const auto [entry, is_new] =
        state_ids_.try_emplace({setup, pose, drawn_face_up}, static_cast<MachineState>(states_.size()));
    if (is_new) states_.push_back({setup, pose, drawn_face_up});
    return entry->second;
}

Orientation MachineStates::orientationIn(MachineState state) const {
    return orientationOf(poses_[states_[state].pose], states_[state].drawn_face_up);
}

std::size_t MachineStates::handled(SetupId from, SetupId to) {
    if (from == to) return 0;
    const auto [entry, is_new] = handled_.try_emplace(pairKey(from, to), 0);
    if (is_new) entry->second = piecesHandled(setups_[from].pieces, setups_[to].pieces);
    return entry->second;
}

Handling MachineStates::handling(MachineState before, PoseId pose, bool drawn_face_up) {
    if (before == kNothingSetUp) return {};
    const State& state = states_[before];
    const bool flip = state.drawn_face_up != drawn_face_up;
    const auto [entry, is_new] =
        handling_.try_emplace(pairKey(4 * state.pose + (flip ? 2 : 0) + (drawn_face_up ? 1 : 0), pose));
    Handling& how = entry->second;
    if (!is_new) return how;
    const Eigen::Matrix3d& from = poses_[state.pose];
    const Eigen::Matrix3d& to = poses_[pose];
    how.flip = flip;
    how.turned = orientationOf(from, state.drawn_face_up).nose != orientationOf(to, drawn_face_up).nose;
    if (how.turned) how.turn_deg = turnBetween_deg(from, to, flip, drawn_face_up);
    return how;
}

}  // namespace tinwright
