// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Small parts, a small brake and sound plans for them, put together by hand.

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/verify/replay/verify.h>

namespace tinwright::hand_made {

inline constexpr double kThickness_mm = 1.0;
inline constexpr double kNose_mm = 1.0;

inline Polygon rectangle(double x0, double y0, double x1, double y1) {
    return {Vec2(x0, y0), Vec2(x1, y0), Vec2(x1, y1), Vec2(x0, y1)};
}

/// A part with one panel, without bends.
inline Part sheetPart(const Polygon& outline) {
    Part part;
    part.name = "test";
    part.material = "mild-steel";
    part.thickness_mm = kThickness_mm;
    part.panels.push_back({"base", {outline, {}}});
    return part;
}

/// A flange on the straight edge from a to b of a panel, sheet on the left of a to b; its panel reaches `before`
/// and `after` past the edge's ends.
inline void addFlange(Part& part, std::uint32_t parent, const std::string& name, const Vec2& a, const Vec2& b,
                      double length_mm, bool up = true, double angle_deg = 90, double before = 0, double after = 0) {
    Bend bend;
    bend.name = name;
    bend.parent = PanelId{parent};
    bend.child = idAt<PanelId>(part.panels.size());
    bend.along = (b - a).normalized();
    bend.toward_child = Vec2(bend.along.y(), -bend.along.x());
    bend.angle = Angle::degrees(angle_deg);
    bend.up = up;
    bend.inside_radius_mm = kNose_mm;
    bend.allowance_mm = bend.angle.rad() * (kNose_mm + 0.4 * part.thickness_mm);
    bend.origin = a + 0.5 * bend.allowance_mm * bend.toward_child;
    bend.spans = {{0, (b - a).norm()}};
    const Vec2 from = a + bend.allowance_mm * bend.toward_child - before * bend.along;
    const Vec2 to = b + bend.allowance_mm * bend.toward_child + after * bend.along;
    const Vec2 out = length_mm * bend.toward_child;
    part.panels.push_back({name, {{from, from + out, to + out, to}, {}}});
    part.bends.push_back(bend);
}

/// Section of a bar with a 45° nose of the brake's radius, `height` high and `depth` deep.
inline Polygon noseProfile(double height_mm, double depth_mm) {
    Polygon profile{Vec2(depth_mm, 0), Vec2(depth_mm, height_mm)};
    const auto onNose = [](double deg) {
        const double a = deg * std::numbers::pi / 180.0;
        return Vec2(kNose_mm - kNose_mm * std::sin(a), kNose_mm - kNose_mm * std::cos(a));
    };
    const Vec2 end = onNose(135);
    profile.push_back(end + Vec2(height_mm - end.y(), height_mm - end.y()));
    for (int deg = 135; deg >= 0; deg -= 9) profile.push_back(onNose(deg));
    return profile;
}

inline Bar bar(const std::string& id, double width_mm, int count = 1, double end_relief_mm = 0) {
    Bar result;
    result.id = id;
    result.width_mm = width_mm;
    result.clamp_depth_mm = 60;
    result.height_mm = 25;
    result.profile = noseProfile(25, 60);
    result.end_relief_mm = end_relief_mm;
    result.end_relief_height_mm = end_relief_mm > 0 ? 5 : 0;
    result.count = count;
    return result;
}

/// Loose bars, nothing overhead, open ends.
inline Brake brakeWith(std::vector<Bar> bars) {
    Brake brake;
    brake.name = "test folder";
    brake.length_mm = 600;
    brake.leaf().leaf_faces = {{"full", 25, 25}};
    brake.leaf().nose_radius_mm = kNose_mm;
    brake.leaf().bed = rectangle(0, -80, 100, 0);
    brake.leaf().bars = std::move(bars);
    return brake;
}

inline ExitMove pieceUp(int piece, double z_mm = 100) { return {ExitMove::Kind::kPieceUp, piece, {{0, 0, z_mm, 0}}}; }
inline ExitMove partUp() { return {ExitMove::Kind::kPartUp, -1, {{0, 0, 150, 0}}}; }
inline ExitMove partForward() { return {ExitMove::Kind::kPartForward, -1, {{0, -250, 0, 0}}}; }

/// One bend folded to 90°, parent held; pieces out upwards, then the part.
inline FoldStep foldOf(const Part& part, std::uint32_t bend, std::vector<PlacedTool> bars) {
    FoldStep step;
    step.stroke.bends = bit(BendId{bend});
    step.held = {part.bends[bend].parent};
    step.drawn_face_up = part.bends[bend].up;
    step.part_x_mm = 100;
    step.leaf_face = "full";
    step.tools = std::move(bars);
    for (int i = 0; i < static_cast<int>(step.tools.size()); ++i) {
        step.tools_out.push_back(i);
        step.way_out.push_back(pieceUp(i));
    }
    step.tools_in.assign(step.tools_out.rbegin(), step.tools_out.rend());
    step.way_in = step.way_out;
    step.way_in.push_back(partUp());
    step.way_out.push_back(partUp());
    step.covered_share = 1.0;
    step.angle = part.bends[bend].angle;
    step.set_angle = step.angle + Angle::degrees(3);
    return step;
}

inline Plan planOf(std::vector<FoldStep> folds) {
    Plan plan;
    plan.rank = 1;
    plan.tight = true;
    plan.folds = std::move(folds);
    return plan;
}

/// Base 100 x 60 with a front flange 30 long.
inline Part lPart() {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30);
    return part;
}

/// The same with walls 20 high at both ends: bends 0 left, 1 right, 2 front.
inline Part trayPart() {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "left", Vec2(0, 60), Vec2(0, 0), 20);
    addFlange(part, 0, "right", Vec2(100, 0), Vec2(100, 60), 20);
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30);
    return part;
}

inline std::vector<ReplayFinding> verified(const Part& part, const Brake& brake, const Plan& plan, BendMask formed = 0,
                                           const Shop& shop = {}) {
    // On a press brake the V of its first die.
    const BrakeInSetup used =
        brake.isPress() ? inVee(brake, brake.press().dies.front().vee, kNose_mm) : inSetup(brake, part.thickness_mm);
    return verifyPlan(part, shop, used, plan, formed);
}

/// All findings as one text, for messages and searches.
inline std::string textOf(const std::vector<ReplayFinding>& findings) {
    std::string text;
    for (const ReplayFinding& finding : findings) text += std::to_string(finding.fold) + ": " + finding.words + "\n";
    return text;
}

}  // namespace tinwright::hand_made
