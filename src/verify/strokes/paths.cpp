// SPDX-License-Identifier: GPL-3.0-or-later
#include "strokes/paths.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "solids/shapes.h"
#include "strokes/course.h"

namespace tinwright::replay {

namespace {

constexpr double kPathFarOff_mm = 3000.0;

using Place = ExitMove::Point;

Rigid poseOf(const Place& place) {
    Rigid pose = Rigid::Identity();
    pose.translate(Vec3(place.x_mm, place.y_mm, place.z_mm));
    pose.rotate(Eigen::AngleAxisd(place.tilt_deg * std::numbers::pi / 180.0, Vec3::UnitX()));  // y towards z
    return pose;
}

Place between(const Place& a, const Place& b, double share) {
    const auto mix = [&](double from, double to) { return from + share * (to - from); };
    return {mix(a.x_mm, b.x_mm), mix(a.y_mm, b.y_mm), mix(a.z_mm, b.z_mm), mix(a.tilt_deg, b.tilt_deg),
            mix(a.ram_mm, b.ram_mm)};
}

// One straight stretch of a path in steps of at most `step_mm` for every point within `reach_mm` of the tilt axis.
Track stretch(const Place& a, const Place& b, double step_mm, double reach_mm) {
    const double go = Vec3(b.x_mm - a.x_mm, b.y_mm - a.y_mm, b.z_mm - a.z_mm).norm();
    const double turn = std::abs(b.tilt_deg - a.tilt_deg) * std::numbers::pi / 180.0;
    const double count = std::max(1.0, std::ceil((go + turn * reach_mm) / std::max(0.01, step_mm)));
    Track track{{}, 0, 0, turn / count, go / count};
    for (double i = 0; i <= count; ++i) track.poses.push_back(poseOf(between(a, b, i / count)));
    return track;
}

double reachOf(const std::vector<Solid>& solids) {
    double reach = 0;
    for (const Solid& solid : solids) {
        const Vec3 far = solid.box.min().cwiseAbs().cwiseMax(solid.box.max().cwiseAbs());
        reach = std::max(reach, std::hypot(far.y(), far.z()));
    }
    return reach;
}

// Something in the way: where it stands, as it is or shrunk.
struct Obstacle {
    std::string name;
    const std::vector<Solid>* solids = nullptr;
    Rigid pose = Rigid::Identity();
    bool is_upper = false;  ///< goes up and down with the ram, from that pose
};

/// The place of a body as an obstacle sees it that goes up and down meanwhile.
Place seenFrom(const Obstacle& obstacle, Place place) {
    if (obstacle.is_upper) place.z_mm -= place.ram_mm;
    return place;
}

struct Meeting {
    std::string name;
    Place place;
};

std::optional<Meeting> meetsOnStretch(const std::vector<Solid>& body, const Place& a, const Place& b,
                                      const std::vector<Obstacle>& obstacles, double step_mm) {
    const double reach = reachOf(body);
    for (const Obstacle& obstacle : obstacles) {
        const Track track = stretch(seenFrom(obstacle, a), seenFrom(obstacle, b), step_mm, reach);
        const std::size_t last = track.poses.size() - 1;
        const Track stands{{obstacle.pose}, 0, 0, 0, 0};
        for (const Solid& one : body) {
            for (const Solid& other : *obstacle.solids) {
                const auto met = firstMeeting(one, track, other, stands, last);
                if (met)
                    return Meeting{obstacle.name, between(a, b, static_cast<double>(*met) / static_cast<double>(last))};
            }
        }
    }
    return std::nullopt;
}

std::string placeText(const Place& place) {
    return fmt::format("x {:.2f}, y {:.2f}, z {:.2f}, tilt {:.2f}°, the ram moved by {:.2f}", place.x_mm, place.y_mm,
                       place.z_mm, place.tilt_deg, place.ram_mm);
}

// The part in one of its two states, and how far dies and bed have come up.
struct AtRest {
    std::vector<Solid> part;
    double rise_mm = 0;
};

// One way out: what still stands, and the part as it lies.
class Way {
public:
    Way(const Scene& scene, const char* name, double lift_mm, AtRest at_rest, std::vector<std::string>& wrong)
        : scene_(scene),
          rules_(scene.setting.machine->wayRules()),
          name_(name),
          lift_(lift_mm),
          part_(std::move(at_rest.part)),
          rise_(at_rest.rise_mm),
          wrong_(wrong),
          stands_(scene.machine.bars.size(), true) {}

    void replay(const std::vector<ExitMove>& moves) {
        checkLift();
        raise();
        for (const ExitMove& move : moves) {
            if (part_is_out_) return say("something moves after the part has left");
            if (move.piece < 0) {
                movePart(move);
            } else if (!movePiece(move)) {
                return;
            }
        }
        if (!part_is_out_) say("the part does not come out");
    }

    [[nodiscard]] const std::vector<int>& piecesOut() const { return pieces_out_; }

private:
    void say(const std::string& what) { wrong_.push_back(fmt::format("{}: {}", name_, what)); }

    void checkLift() {
        for (const std::string& fault : scene_.setting.machine->liftFaults(lift_, rise_)) say(fault);
    }

    // Beam and pieces go up together, or ram and punches.
    void raise() {
        if (lift_ <= 0) return;
        const std::vector<Obstacle> part{{"the part", &part_, Rigid::Identity(), false}};
        for (const Body* body : scene_.machine.tools()) {
            if (body->carrier != Carrier::kUpper) continue;
            const auto met = meetsOnStretch(body->shrunk, {}, raised(), part, scene_.options.path_step_mm);
            if (met) say(fmt::format("{} meets {} when it rises, at {}", body->name, met->name, placeText(met->place)));
        }
    }

    [[nodiscard]] Place raised() const { return {0, 0, lift_, 0}; }

    // Where a tool is while things move.
    [[nodiscard]] Place placeOf(const Body& tool) const {
        switch (tool.carrier) {
            case Carrier::kUpper: return raised();
            case Carrier::kLower: return {0, 0, rise_, 0};
            case Carrier::kGround: break;
        }
        return {};
    }

    // Tools as they stand, without the piece that moves. Exactly one body of a pair is to be shrunk.
    [[nodiscard]] std::vector<Obstacle> tools(int but_piece, bool shrunk) const {
        std::vector<Obstacle> obstacles;
        const auto add = [&](const Body& body) {
            obstacles.push_back({body.name, shrunk ? &body.shrunk : &body.whole, poseOf(placeOf(body)),
                                 body.carrier == Carrier::kUpper});
        };
        for (const Body* tool : scene_.machine.tools()) {
            if (tool->piece < 0 || (tool->piece != but_piece && stands_[static_cast<std::size_t>(tool->piece)]))
                add(*tool);
        }
        if (scene_.machine.leaf) add(scene_.machine.leaf->body());
        return obstacles;
    }

    void movePart(const ExitMove& move) {
        if (!rules_.at_back && !move.path.empty() && move.path.back().y_mm > 0)
            say(fmt::format("the part comes out at the back of {}", scene_.setting.machine->name()));
        checkRam(move);
        follow(part_, "the part", {}, move, tools(-1, true));
        part_is_out_ = true;
    }

    // Only a ram goes up and down while the part is moved, and no further than it goes.
    void checkRam(const ExitMove& move) {
        for (const Place& place : move.path) {
            if (place.ram_mm == 0) continue;
            if (!rules_.ram_travels) return say("the beam moves while the part is taken out");
            for (const std::string& fault : scene_.setting.machine->liftFaults(lift_ + place.ram_mm, rise_)) say(fault);
        }
    }

    bool movePiece(const ExitMove& move) {
        const auto index = static_cast<std::size_t>(move.piece);
        if (index >= stands_.size() || !stands_[index]) {
            say(fmt::format("piece {} is not there to be taken out", move.piece));
            return false;
        }
        const Body& bar = scene_.machine.bars[index];
        if (!rules_.pieces) {
            say(fmt::format("{} stays where it stands while the part is in {}", bar.name,
                            scene_.setting.machine->name()));
            return false;
        }
        if (!rules_.in_place) say(fmt::format("{} cannot be taken out in place on this brake", bar.name));
        std::vector<Obstacle> obstacles = tools(move.piece, false);
        // A piece hangs in its beam; a section that reaches into it is how it is held, not a collision.
        std::erase_if(obstacles, [&](const Obstacle& o) {
            return o.name == "beam" && meetsOnStretch(bar.shrunk, raised(), raised(), {o}, 1.0);
        });
        obstacles.push_back({"the part", &part_, Rigid::Identity(), false});
        follow(bar.shrunk, bar.name, raised(), move, obstacles);
        stands_[index] = false;
        pieces_out_.push_back(move.piece);
        return true;
    }

    void follow(const std::vector<Solid>& body, const std::string& name, Place at, const ExitMove& move,
                const std::vector<Obstacle>& obstacles) {
        if (const auto met = meetsOnStretch(body, at, at, obstacles, 1.0)) {
            return say(fmt::format("{} meets {} where it stands", name, met->name));
        }
        for (const Place& next : move.path) {
            if (const auto met = meetsOnStretch(body, at, next, obstacles, scene_.options.path_step_mm)) {
                return say(fmt::format("{} meets {} on its way, at {}", name, met->name, placeText(met->place)));
            }
            at = next;
        }
        if (!isFree(body, at, obstacles))
            say(fmt::format("{} is not free at the end of its way, at {}", name, placeText(at)));
    }

    // Free: from here it can be carried away straight in some direction; not to a back where nobody stands.
    [[nodiscard]] bool isFree(const std::vector<Solid>& body, const Place& at,
                              const std::vector<Obstacle>& obstacles) const {
        std::vector<Vec3> directions{{0, 0, 1}, {0, -1, 0}, {-1, 0, 0}, {1, 0, 0}};
        if (rules_.at_back) directions.emplace_back(0, 1, 0);
        return std::any_of(directions.begin(), directions.end(), [&](const Vec3& direction) {
            Place far = at;
            far.x_mm += kPathFarOff_mm * direction.x();
            far.y_mm += kPathFarOff_mm * direction.y();
            far.z_mm += kPathFarOff_mm * direction.z();
            return !meetsOnStretch(body, at, far, obstacles, scene_.options.path_step_mm);
        });
    }

    const Scene& scene_;
    WayRules rules_;
    const char* name_;
    double lift_;
    std::vector<Solid> part_;
    double rise_;
    std::vector<std::string>& wrong_;
    std::vector<bool> stands_;
    std::vector<int> pieces_out_;
    bool part_is_out_ = false;
};

void append(std::vector<Solid>& solids, const Shape& shape) {
    for (const Prism& prism : shape.whole) solids.push_back(toSolid(prism));
}

std::vector<Body> flatOwnStrips(const Scene& scene) {
    std::vector<Body> bodies;
    for (const BendId id : bendsIn(scene.step->stroke.bends)) {
        const Bend& bend = scene.sheet->part().bend(id);
        const Rigid fold_from_blank = scene.setting.fold_from_space * scene.sheet->spaceFromBlank(bend.parent);
        const Shape shape = flatStrip(scene.sheet->part(), bend);
        bodies.push_back(makeBody("bend " + bend.name, BodyKind::kStrip, moved(shape, fold_from_blank)));
    }
    return bodies;
}

// The whole part: both sides where they lie, this fold's strips where the held side does.
std::vector<Solid> partSolids(const Scene& scene, const Rigid& held, const Rigid& moving,
                              const std::vector<Body>& own) {
    std::vector<Solid> solids;
    for (const Body& body : scene.part.held) append(solids, moved(body.shape, held));
    for (const Body& body : scene.part.moving) append(solids, moved(body.shape, moving));
    for (const Body& body : own) append(solids, moved(body.shape, held));
    return solids;
}

AtRest flatAtRest(const Scene& scene) {
    return {partSolids(scene, Rigid::Identity(), Rigid::Identity(), flatOwnStrips(scene)), 0};
}

AtRest sprungAtRest(const Scene& scene) {
    const Course sprung = courseSprung(scene);
    const std::vector<Body> own = ownStrips(*scene.sheet, *scene.step, scene.setting, scene.step->angle);
    return {partSolids(scene, sprung.held.at(0), sprung.moving.at(0), own), sprung.lower.at(0).translation().z()};
}

bool eachOnce(std::vector<int> order, std::size_t count) {
    std::sort(order.begin(), order.end());
    const bool in_range = order.empty() || (order.front() >= 0 && static_cast<std::size_t>(order.back()) < count);
    return in_range && std::adjacent_find(order.begin(), order.end()) == order.end();
}

// What comes out last on the way told backwards goes in first; pieces put in before the part is there come before.
void checkOrderIn(const FoldStep& step, const std::vector<int>& out, std::vector<std::string>& wrong) {
    const bool ends_alike =
        out.size() <= step.tools_in.size() && std::equal(out.begin(), out.end(), step.tools_in.rbegin());
    if (!ends_alike || !eachOnce(step.tools_in, step.tools.size())) {
        wrong.push_back("the order in which bars are put in is not that of the way in");
    }
}

}  // namespace

void checkWays(const Scene& scene, std::vector<std::string>& wrong) {
    const FoldStep& step = *scene.step;
    Way in(scene, "way in, told backwards", step.lift_in_mm, flatAtRest(scene), wrong);
    in.replay(step.way_in);
    checkOrderIn(step, in.piecesOut(), wrong);
    Way out(scene, "way out", step.lift_out_mm, sprungAtRest(scene), wrong);
    out.replay(step.way_out);
    if (out.piecesOut() != step.tools_out)
        wrong.push_back("the order in which bars come out is not that of the way out");
}

}  // namespace tinwright::replay
