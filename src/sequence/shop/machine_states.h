// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <map>
#include <tuple>
#include <unordered_map>
#include <vector>

#include <Eigen/Core>

#include <tinwright/fold/setup/stroke.h>
#include <tinwright/sequence/states/oracle.h>

namespace tinwright {

/// Two numbers as one, for tables.
[[nodiscard]] constexpr std::uint64_t pairKey(std::uint32_t a, std::uint32_t b) { return (std::uint64_t{a} << 32) | b; }

/// What is done with the part between two folds.
struct Handling {
    bool turned = false;  ///< about anything but the nose line
    double turn_deg = 0;
    bool flip = false;
};

/// How a part lies for a stroke, but for rolling it about the nose line.
struct Orientation {
    std::array<long long, 3> nose{};  ///< its direction in the base panel, in thousandths
    bool drawn_face_up = true;
    friend auto operator<=>(const Orientation&, const Orientation&) = default;
};
/// `pose`: how the base panel is turned in the machine frame.
[[nodiscard]] Orientation orientationOf(const Eigen::Matrix3d& pose, bool drawn_face_up);

/// Machine states by number: what stands, and how the part was left. Equal ones have one number whatever way they were
/// reached. What it takes to come from one to another is worked out once.
class MachineStates {
public:
    using SetupId = std::uint32_t;  ///< 0 is nothing
    using PoseId = std::uint32_t;   ///< 0 is none

    MachineStates();

    [[nodiscard]] SetupId idOf(const Setup& setup);
    [[nodiscard]] PoseId idOf(const Eigen::Matrix3d& pose);
    /// What a stroke leaves.
    [[nodiscard]] MachineState idOf(SetupId setup, PoseId pose, bool drawn_face_up);

    [[nodiscard]] const Setup& setup(SetupId id) const { return setups_[id]; }
    [[nodiscard]] SetupId setupIn(MachineState state) const { return states_[state].setup; }
    [[nodiscard]] Orientation orientationIn(MachineState state) const;

    /// Pieces put in, taken out or shifted.
    [[nodiscard]] std::size_t handled(SetupId from, SetupId to);
    /// Of the part, for a stroke for which it lies so.
    [[nodiscard]] Handling handling(MachineState before, PoseId pose, bool drawn_face_up);

private:
    struct State {
        SetupId setup = 0;
        PoseId pose = 0;
        bool drawn_face_up = true;
    };
    std::vector<Setup> setups_;
    std::map<std::vector<long long>, SetupId> setup_ids_;
    std::vector<Eigen::Matrix3d> poses_;
    std::map<std::array<long long, 9>, PoseId> pose_ids_;
    std::vector<State> states_;
    std::map<std::tuple<SetupId, PoseId, bool>, MachineState> state_ids_;
    std::unordered_map<std::uint64_t, Handling> handling_;    // by poses and faces; looked up only
    std::unordered_map<std::uint64_t, std::size_t> handled_;  // by set-ups; looked up only
};

}  // namespace tinwright
