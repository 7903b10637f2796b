// SPDX-License-Identifier: GPL-3.0-or-later
// Tools that come together round a hem, the part that comes and goes between them, and the returns on their way down.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "closing/closing_scene.h"
#include "solids/motion.h"
#include "solids/shapes.h"
#include "strokes/course.h"

namespace tinwright::replay {

namespace {

constexpr double kClosingFarOff_mm = 3000.0;

// Straight from where something is, in steps no longer than asked for.
Track straight(const Vec3& way, double step_mm) {
    const double count = std::max(1.0, std::ceil(way.norm() / std::max(0.01, step_mm)));
    Track track{{}, 0, 0, 0, way.norm() / count};
    for (double i = 0; i <= count; ++i) track.poses.push_back(Rigid(Eigen::Translation3d(way * (i / count))));
    return track;
}

void toolsMove(const ClosingScene& scene, std::vector<std::string>& wrong) {
    for (const UpperTool& tool : scene.tools.upper) {
        const Track track = straight(Vec3(0, 0, tool.rises_mm), scene.options.path_step_mm);
        for (const Body& body : scene.closed.others) {
            const auto met = firstOf(tool.body.shrunk, track, body.whole, still(), track.poses.size() - 1);
            if (!met) continue;
            wrong.push_back(fmt::format("{} meets {} {:.2f} mm over where it closes the hem", tool.body.name, body.name,
                                        track.at(*met).translation().z()));
        }
    }
}

// All of the part in one state against all that stands open.
void partMoves(const ClosingScene& scene, const PartClosing& part, const Vec3& way, const char* name,
               std::vector<std::string>& wrong) {
    const Track track = straight(way, scene.options.path_step_mm);
    const auto check = [&](const Body& tool, const Rigid& at) {
        for (const auto* list : {&part.others, &part.returns, &part.strips}) {
            for (const Body& body : *list) {
                const auto met = firstOf(body.whole, track, tool.shrunk, still(at), track.poses.size() - 1);
                if (met)
                    wrong.push_back(fmt::format("{}: {} meets {}, {:.2f} mm on its way", name, body.name, tool.name,
                                                track.at(*met).translation().norm()));
            }
        }
    };
    for (const Body& tool : scene.tools.lower) check(tool, Rigid::Identity());
    for (const UpperTool& tool : scene.tools.upper) {
        if (!tool.taken_off) check(tool.body, raised(tool.rises_mm));
    }
}

// A return in the frame of the closing: where it is after the first fold, and how it is to go.
struct Fall {
    Vec3 edge_from;  ///< its near edge, in the middle of the sheet
    Vec3 edge_to;
    Vec3 axis;
    double turn_rad = 0;
};

Fall fallOf(const ClosingScene& scene, BendId id) {
    const Bend& bend = scene.hems.folded->part().bend(id);
    const Rigid from = scene.setting.fold_from_space * scene.hems.folded->sheet().spaceFromBlank(bend.child);
    const Rigid to = scene.setting.fold_from_space * scene.hems.closed->sheet().spaceFromBlank(bend.child);
    const Vec2 near = bend.origin + 0.5 * bend.allowance_mm * bend.toward_child;
    const Vec3 edge(near.x(), near.y(), 0.5 * scene.hems.part->thickness_mm);
    const Eigen::AngleAxisd turn(to.linear() * from.linear().transpose());
    return {from * edge, to * edge, turn.axis(), turn.angle()};
}

std::size_t stepsOf(double turn_rad, double step_deg) {
    return std::max<std::size_t>(
        1, static_cast<std::size_t>(std::ceil(turn_rad * 180 / std::numbers::pi / std::max(0.01, step_deg))));
}

// The near edge stays where it is, is at its place already, or goes there while the return turns: shares of its way at
// both ends.
struct EdgeWay {
    double from;
    double to;
};
constexpr EdgeWay kEdgeWays[] = {{0, 0}, {0, 1}, {1, 1}, {0.5, 0.5}};

Track trackOf(const Fall& fall, const EdgeWay& way, std::size_t last) {
    const double count = static_cast<double>(last);
    const Vec3 edge_way = fall.edge_to - fall.edge_from;
    Track track{{},
                fall.edge_from.y(),
                fall.edge_from.z(),
                fall.turn_rad / count,
                edge_way.norm() * std::abs(way.to - way.from) / count};
    for (std::size_t i = 0; i <= last; ++i) {
        const double share = static_cast<double>(i) / count;
        Rigid pose = Rigid::Identity();
        pose.translate(Vec3(fall.edge_from + (way.from + share * (way.to - way.from)) * edge_way));
        pose.rotate(Eigen::AngleAxisd(share * fall.turn_rad, fall.axis));
        pose.translate(Vec3(-fall.edge_from));
        track.poses.push_back(pose);
    }
    return track;
}

// What a return can meet: its parent is where it is to lie.
std::vector<const Body*> othersThan(const ClosingScene& scene, BendId hem) {
    std::vector<const Body*> others;
    for (const Body& body : scene.closed.others) {
        if (body.member != scene.hems.part->bend(hem).parent.index()) others.push_back(&body);
    }
    return others;
}

bool carries(const ClosingScene& scene, BendId hem, const Body& body) {
    const std::vector<PanelId> beyond = scene.hems.closed->sheet().beyond(hem);
    const std::size_t panels = scene.hems.part->panels.size();
    const std::size_t panel =
        body.member < panels ? body.member : scene.hems.part->bends[body.member - panels].parent.index();
    return std::find(beyond.begin(), beyond.end(), idAt<PanelId>(panel)) != beyond.end();
}

void returnFalls(const ClosingScene& scene, BendId hem, std::vector<std::string>& wrong) {
    const Fall fall = fallOf(scene, hem);
    const std::size_t last = stepsOf(fall.turn_rad, scene.options.angle_step_deg);
    const double first_deg = scene.step.angle.deg();
    for (const Body& body : scene.folded.returns) {
        if (!carries(scene, hem, body)) continue;
        for (const Body* other : othersThan(scene, hem)) {
            for (const EdgeWay& way : kEdgeWays) {
                const auto met = firstOf(body.shrunk, trackOf(fall, way, last), other->whole, still(), last);
                if (!met) continue;
                const double turned_deg =
                    fall.turn_rad * 180 / std::numbers::pi * static_cast<double>(*met) / static_cast<double>(last);
                wrong.push_back(fmt::format("{} meets {} at {:.2f}°", body.name, other->name, first_deg + turned_deg));
                break;
            }
        }
    }
}

// The strip between first fold and closed, when angle, radius and strip change together.
Bend betweenFolds(const Bend& first, const Bend& closed, double share) {
    Bend bend = first;
    const auto mix = [&](double from, double to) { return from + share * (to - from); };
    bend.angle = Angle::degrees(mix(first.angle.deg(), closed.angle.deg()));
    bend.inside_radius_mm = mix(first.inside_radius_mm, closed.inside_radius_mm);
    bend.allowance_mm = mix(first.allowance_mm, closed.allowance_mm);
    return bend;
}

void stripFalls(const ClosingScene& scene, BendId hem, std::vector<std::string>& wrong) {
    constexpr double kStep_deg = 1;
    const Part& folded = scene.hems.folded->part();
    const Bend& first = folded.bend(hem);
    const Bend& closed = scene.hems.closed->part().bend(hem);
    const Rigid from_parent = scene.setting.fold_from_space * scene.hems.closed->sheet().spaceFromBlank(first.parent);
    const std::size_t last = stepsOf(closed.angle.rad() - first.angle.rad(), kStep_deg);
    std::vector<const Body*> others = othersThan(scene, hem);
    for (std::size_t i = 0; i <= last; ++i) {
        const Bend bend = betweenFolds(first, closed, static_cast<double>(i) / static_cast<double>(last));
        const Body strip =
            makeBody("bend " + bend.name, BodyKind::kStrip,
                     moved(rolledStrip(folded, bend, bend.angle, bend.inside_radius_mm, false), from_parent));
        std::erase_if(others, [&](const Body* other) {
            const bool met = firstOf(strip.shrunk, still(), other->whole, still(), 0).has_value();
            if (met) wrong.push_back(fmt::format("{} meets {} at {:.2f}°", strip.name, other->name, bend.angle.deg()));
            return met;
        });
    }
}

// Closed, with what the wider strip of the first fold took from the panels.
void liesClosed(const ClosingScene& scene, BendId hem, std::vector<std::string>& wrong) {
    for (const Body& body : scene.closed.returns) {
        if (!carries(scene, hem, body)) continue;
        for (const Body* other : othersThan(scene, hem)) {
            if (firstOf(body.shrunk, still(), other->whole, still(), 0))
                wrong.push_back(fmt::format("{} meets {} when the hem is closed", body.name, other->name));
        }
    }
}

}  // namespace

void checkReturns(const ClosingScene& scene, std::vector<std::string>& wrong) {
    for (const BendId hem : scene.hems.bends) {
        returnFalls(scene, hem, wrong);
        stripFalls(scene, hem, wrong);
        liesClosed(scene, hem, wrong);
    }
}

void checkComings(const ClosingScene& scene, std::vector<std::string>& wrong) {
    const bool up = scene.step.closing->lifted_out;
    const Vec3 way = up ? Vec3(0, 0, kClosingFarOff_mm) : Vec3(0, -kClosingFarOff_mm, 0);
    toolsMove(scene, wrong);
    partMoves(scene, scene.folded, way, "way in, told backwards", wrong);
    partMoves(scene, scene.closed, way, "way out", wrong);
}

}  // namespace tinwright::replay
