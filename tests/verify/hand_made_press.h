// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <variant>
#include <vector>

// A small press brake and sound plans for it, put together by hand.

#include <tinwright/brake/tooling/die_profile.h>
#include <tinwright/brake/tooling/punch_profile.h>

#include "hand_made.h"

namespace tinwright::hand_made {

inline constexpr Vee kVee{8, Angle::degrees(85), 1};
inline constexpr double kDieHeight_mm = 60;

inline Tool pressPiece(const std::string& id, double width_mm, double height_mm, Polygon profile) {
    return {id, width_mm, height_mm, std::move(profile), 1};
}

inline Punch punch(const std::string& id, double width_mm, double tip_radius_mm = 0.8) {
    const PunchSection section{Angle::degrees(85), tip_radius_mm, 65, 16, {}};
    return {pressPiece(id, width_mm, section.height_mm, punchSection(section)), tip_radius_mm, {}, 0};
}

/// Hollow in front.
inline Punch gooseneck(const std::string& id, double width_mm) {
    PunchThroat throat;
    throat.depth_mm = 30;
    throat.from_mm = 12;
    throat.to_mm = 85;
    throat.deepest_from_mm = 45;
    throat.deepest_to_mm = 65;
    throat.neck_mm = 20;
    const PunchSection section{Angle::degrees(85), 0.8, 105, 24, throat};
    return {pressPiece(id, width_mm, section.height_mm, punchSection(section)), section.tip_radius_mm, {}, 0};
}

inline Punch horned(Punch piece, bool at_left) {
    piece.horn = Horn{30, 15, at_left};
    return piece;
}

inline Die die(const std::string& id, double width_mm, const Vee& vee = kVee, double height_mm = kDieHeight_mm) {
    return {pressPiece(id, width_mm, height_mm, dieSection({{{vee, 0, {}}}, height_mm, 28}, 0)), vee, {}, 0};
}

/// Ram 80 deep, bed 60 deep, no side frames, open ends.
inline Brake pressWith(const std::vector<std::variant<Punch, Die>>& pieces) {
    Brake brake;
    brake.name = "test press brake";
    brake.length_mm = 600;
    PressBrake press;
    press.bed = rectangle(-30, -300, 30, 0);
    press.ram = rectangle(-40, 0, 40, 300);
    press.open_height_mm = 230;
    press.stroke_mm = 120;
    for (const auto& piece : pieces) {
        if (const Punch* punch = std::get_if<Punch>(&piece)) press.punches.push_back(*punch);
        if (const Die* die = std::get_if<Die>(&piece)) press.dies.push_back(*die);
    }
    brake.kind = press;
    return brake;
}

inline ExitMove outOfVee(double up_mm = 8) {
    return {ExitMove::Kind::kPartForward, -1, {{0, 0, up_mm, 0}, {0, -400, up_mm, 0}}};
}
inline ExitMove offLeft() { return {ExitMove::Kind::kPartAlong, -1, {{-900, 0, 0, 0}}}; }

/// One bend folded with its child at the back (so what it is folded from hangs in front), the ram up by 60, the part
/// lifted out of the V and drawn forward.
inline FoldStep pressFold(const Part& part, std::uint32_t bend, std::vector<PlacedTool> pieces,
                          Side at_back = Side::kChild) {
    FoldStep step;
    step.stroke.bends = bit(BendId{bend});
    step.stroke.hold = at_back;
    step.held = {at_back == Side::kChild ? part.bends[bend].child : part.bends[bend].parent};
    step.drawn_face_up = part.bends[bend].up;
    step.part_x_mm = 200;
    step.tools = std::move(pieces);
    step.lift_in_mm = step.lift_out_mm = 60;
    step.way_in = step.way_out = {outOfVee()};
    step.covered_share = 1.0;
    step.angle = part.bends[bend].angle;
    step.set_angle = step.angle + Angle::degrees(3);
    return step;
}

}  // namespace tinwright::hand_made
