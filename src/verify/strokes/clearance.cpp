// SPDX-License-Identifier: GPL-3.0-or-later
#include "strokes/clearance.h"

#include <fmt/format.h>

#include <algorithm>

#include "machine/tools.h"
#include "solids/inset.h"
#include "strokes/steps.h"

namespace tinwright::replay {

namespace {

constexpr double kSlack_mm = 0.02;

std::vector<Solid> grownSolids(const std::vector<Prism>& prisms, double by_mm) {
    std::vector<Solid> solids;
    for (const Prism& prism : prisms) {
        for (const Prism& larger : grownPrisms(prism, by_mm)) solids.push_back(toSolid(larger));
    }
    return solids;
}

// What of a convex polygon is where something that is linear in its points is not over 0.
template <class Value>
Polygon notOver(const Polygon& polygon, Value value) {
    Polygon kept;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Vec2& a = polygon[i];
        const Vec2& b = polygon[(i + 1) % polygon.size()];
        const double at_a = value(a);
        const double at_b = value(b);
        if (at_a <= 0) kept.push_back(a);
        if ((at_a < 0 && at_b > 0) || (at_a > 0 && at_b < 0)) kept.push_back(a + (b - a) * (at_a / (at_a - at_b)));
    }
    return kept;
}

// The solids of a body in the plane of the clamped sheet, as far as they lie in front of y = limit.
std::vector<Solid> inFrontOf(const Body& body, double limit_mm, double thickness_mm) {
    std::vector<Solid> solids;
    for (const Prism& p : body.shape.whole) {
        Polygon seen;
        for (const Vec2& corner : p.section) seen.push_back((p.frame * Vec3(corner.x(), corner.y(), 0)).head<2>());
        const Polygon kept = notOver(seen, [&](const Vec2& point) { return point.y() - limit_mm; });
        if (kept.size() >= 3) solids.push_back(prism(kept, 0, thickness_mm, Rigid::Identity()));
    }
    return solids;
}

// Nothing of it is under the clamped sheet's lower face before the swing: it stands on the sheet, so to speak.
bool standsOnSheet(const Body& body) { return boxOf(body).min().z() > -0.05; }

// What of it is over its own sheet alone, on one side of the strip: it cannot come to what the sheet lies on, see the
// machine model.
bool overOwnSheet(const Body& body, double half_strip_mm) {
    const Box box = boxOf(body);
    return standsOnSheet(body) && (box.max().y() <= -half_strip_mm || box.min().y() >= half_strip_mm);
}

// The half of a die that is on the other side of the bend than what lies at the back (in front): y <= 0 (y >= 0). Of
// other tools none.
std::vector<Prism> otherHalf(const Body& tool, bool at_back) {
    std::vector<Prism> half;
    if (tool.kind != BodyKind::kDie) return half;
    for (Prism prism : tool.shape.whole) {
        prism.section = notOver(prism.section, [&](const Vec2& corner) {
            return (at_back ? 1 : -1) * (prism.frame * Vec3(corner.x(), corner.y(), 0)).y();
        });
        if (prism.section.size() >= 3) half.push_back(std::move(prism));
    }
    return half;
}

bool touchesInPress(const Body& part_body, const Body& tool, const Bending& stroke) {
    switch (tool.kind) {
        case BodyKind::kBar: return part_body.lie == Lie::kInPlane;
        case BodyKind::kDie: return overOwnSheet(part_body, 0.5 * stroke.allowance_mm - 1e-3);
        case BodyKind::kFrame: return true;  // how close a part may come to a frame is the overhang's matter
        default: return false;
    }
}

bool touchesOnLeafBrake(const Body& part_body, const Body& tool, bool moves) {
    const bool in_plane = part_body.lie == Lie::kInPlane;
    if (tool.kind == BodyKind::kBed && !moves && standsOnSheet(part_body))
        return true;  // as near as the sheet is thick
    switch (tool.kind) {
        case BodyKind::kBar: return in_plane || (part_body.lie == Lie::kLeavesDownward && !moves);
        case BodyKind::kBed: return in_plane || part_body.lie == Lie::kLeavesUpward;
        case BodyKind::kFrame: return true;  // how close a part may come to a frame is the overhang's matter
        default: return false;
    }
}

class Claim {
public:
    Claim(const Scene& scene, std::vector<std::string>& wrong)
        : scene_(scene), wrong_(wrong), steps_(scene), by_(scene.step->clearance_mm - kSlack_mm) {}

    void check() {
        if (by_ <= 0) return;
        const auto tools = scene_.machine.tools();
        const bool press = scene_.brake->isPress();
        if (!press) {
            for (const Body* tool : tools) heldAgainst(*tool, courseOf(scene_, kMotions[0], steps_));
            heldAgainstLeaf();
        }
        for (const Motion& motion : kMotions) {
            const Course course = courseOf(scene_, motion, steps_);
            for (const Body* tool : tools) {
                if (press) heldAgainst(*tool, course);
                movingAgainst(*tool, course);
            }
            if (!press) movingAgainstLeaf(motion, course.moving);
            movingAgainstHeld(course);
        }
    }

private:
    [[nodiscard]] bool touchesByIntention(const Body& part_body, const Body& tool, bool moves) const {
        return scene_.brake->isPress() ? touchesInPress(part_body, tool, scene_.setting.stroke)
                                       : touchesOnLeafBrake(part_body, tool, moves);
    }

    void say(const Body& a, const Body& b, std::optional<std::size_t> step) {
        if (!step) return;
        const auto pair = std::pair(&a, &b);
        if (std::find(seen_.begin(), seen_.end(), pair) != seen_.end()) return;
        seen_.push_back(pair);
        wrong_.push_back(fmt::format("{} comes nearer to {} than the clearance of {:.3f} mm at {:.2f}°", a.name, b.name,
                                     scene_.step->clearance_mm, steps_.deg(*step)));
    }

    // Sheet that laps the strip lies on its own half of a die as all sheet does; from the other half it has to keep
    // away.
    [[nodiscard]] bool lapsOverDie(const Body& part_body, const Body& tool) const {
        return scene_.brake->isPress() && tool.kind == BodyKind::kDie && standsOnSheet(part_body);
    }

    void heldAgainst(const Body& tool, const Course& course) {
        const std::vector<Solid> larger = grownSolids(tool.shape.whole, by_);
        const std::vector<Solid> other_half = grownSolids(otherHalf(tool, true), by_);
        for (const Body& held : scene_.part.held) {
            if (touchesByIntention(held, tool, false)) continue;
            say(held, tool,
                firstOf(held.whole, course.held, lapsOverDie(held, tool) ? other_half : larger, course.of(tool),
                        steps_.last));
        }
    }

    void heldAgainstLeaf() {
        const Body& leaf = *scene_.machine.leaf;
        const std::vector<Solid> larger = grownSolids(leaf.shape.whole, by_);
        const Track track = leafTrack(scene_, steps_);
        for (const Body& held : scene_.part.held) {
            // The clamped sheet ends next to the hinge; only what of it is in front of the nose line counts.
            const bool flat = held.lie == Lie::kInPlane;
            const auto solids = flat ? inFrontOf(held, 0, scene_.setting.stroke.thickness_mm) : held.whole;
            say(held, leaf, firstOf(solids, still(), larger, track, steps_.last));
        }
    }

    void movingAgainst(const Body& tool, const Course& course) {
        const std::vector<Solid> larger = grownSolids(tool.shape.whole, by_);
        const std::vector<Solid> other_half = grownSolids(otherHalf(tool, false), by_);
        for (const Body& body : scene_.part.moving) {
            if (touchesByIntention(body, tool, true)) continue;
            // What stands on the moving sheet starts as near to the bed as the held side does; it may come back to
            // the bed from above when it has swung over.
            const bool from_above =
                tool.carrier == Carrier::kGround && tool.kind == BodyKind::kBed && standsOnSheet(body);
            const std::size_t skipped = from_above ? steps_.last / 3 : 0;
            Track rest = course.moving;
            rest.poses.erase(rest.poses.begin(), rest.poses.begin() + static_cast<std::ptrdiff_t>(skipped));
            const auto met = firstOf(body.whole, rest, lapsOverDie(body, tool) ? other_half : larger, course.of(tool),
                                     steps_.last - skipped);
            if (met) say(body, tool, *met + skipped);
        }
    }

    void movingAgainstLeaf(const Motion& motion, const Track& track) {
        const Body& leaf = *scene_.machine.leaf;
        SolidAtStep solids;
        for (std::size_t i = 0; i <= steps_.last; ++i) {
            const double back = leafBack_mm(scene_.setting.stroke, motion, steps_.rad(i));
            solids.push_back(grownSolids(leafPrisms(scene_.brake, *scene_.step, scene_.setting, back, 0), by_));
        }
        const Prism& rest = leaf.shape.whole.front();
        const Solid bound = toSolid({grown(rest.section, 1.1 * by_), rest.lo_mm - by_, rest.hi_mm + by_, rest.frame});
        const Track leaf_track = leafTrack(scene_, steps_);
        for (const Body& body : scene_.part.moving) {
            if (standsOnSheet(body)) continue;  // the leaf bears on the sheet under it
            say(body, leaf, firstOf(body.whole, track, {bound}, leaf_track, steps_.last, &solids));
        }
    }

    void movingAgainstHeld(const Course& course) {
        for (const Body& body : scene_.part.moving) {
            const std::vector<Solid> larger = grownSolids(body.shape.whole, by_);
            for (const Body& held : scene_.part.held) {
                if (body.lie == Lie::kInPlane && held.lie == Lie::kInPlane) continue;  // joined by the bend
                if (scene_.finished->drawnClose(body.member, held.member)) continue;
                say(body, held, firstOf(larger, course.moving, held.whole, course.held, steps_.last));
            }
        }
    }

    const Scene& scene_;
    std::vector<std::string>& wrong_;
    Steps steps_;
    double by_;
    std::vector<std::pair<const Body*, const Body*>> seen_;
};

}  // namespace

void checkClearance(const Scene& scene, std::vector<std::string>& wrong) { Claim(scene, wrong).check(); }

}  // namespace tinwright::replay
