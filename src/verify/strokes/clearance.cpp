// SPDX-License-Identifier: GPL-3.0-or-later
#include "strokes/clearance.h"

#include <fmt/format.h>

#include <algorithm>

#include "solids/inset.h"
#include "strokes/course.h"

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

class Claim {
public:
    Claim(const Scene& scene, std::vector<std::string>& wrong)
        : scene_(scene),
          leaf_(scene.machine.leaf ? &*scene.machine.leaf : nullptr),
          held_moves_(scene.setting.stroke().both_sides_move),
          wrong_(wrong),
          steps_(stepsOf(scene)),
          by_(scene.step->clearance_mm - kSlack_mm) {}

    void check() {
        if (by_ <= 0) return;
        if (!held_moves_) {
            const Course still_held = courseOf(scene_, kMotions[0], steps_);
            for (const Body* tool : scene_.machine.tools()) heldAgainst(*tool, still_held);
            if (leaf_) heldAgainstLeaf(still_held.held);
        }
        for (const Motion& motion : kMotions) {
            const Course course = courseOf(scene_, motion, steps_);
            for (const Body* tool : scene_.machine.tools()) {
                if (held_moves_) heldAgainst(*tool, course);
                movingAgainst(*tool, course);
            }
            if (leaf_ && held_moves_) heldAgainstLeaf(course.held);
            if (leaf_) movingAgainstLeaf(motion, course.moving);
            movingAgainstHeld(course);
        }
    }

private:
    [[nodiscard]] bool touchesByIntention(const Body& part_body, const Body& tool, bool moves) const {
        return scene_.setting.machine->touchesByIntention(part_body, tool, moves);
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
    [[nodiscard]] static bool lapsOverDie(const Body& part_body, const Body& tool) {
        return tool.kind == BodyKind::kDie && standsOnSheet(part_body);
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

    void heldAgainstLeaf(const Track& held_track) {
        const Body& leaf = leaf_->body();
        const std::vector<Solid> larger = grownSolids(leaf.shape.whole, by_);
        const Track track = leaf_->track(steps_);
        for (const Body& held : scene_.part.held) {
            // The clamped sheet ends next to the hinge; only what of it is in front of the nose line counts.
            const bool flat = held.lie == Lie::kInPlane;
            const auto solids = flat ? inFrontOf(held, 0, scene_.setting.stroke().thickness_mm) : held.whole;
            say(held, leaf, firstOf(solids, held_track, larger, track, steps_.last));
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
        const Body& leaf = leaf_->body();
        SolidAtStep solids;
        for (std::size_t i = 0; i <= steps_.last; ++i)
            solids.push_back(grownSolids(leaf_->pushedBack(motion, steps_.rad(i), 0), by_));
        const Prism& rest = leaf.shape.whole.front();
        const Solid bound = toSolid({grown(rest.section, 1.1 * by_), rest.lo_mm - by_, rest.hi_mm + by_, rest.frame});
        const Track leaf_track = leaf_->track(steps_);
        for (const Body& body : scene_.part.moving) {
            if (scene_.setting.machine->liesOverLeaf(body)) continue;  // the leaf bears on the sheet over it
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
    const SwungLeaf* leaf_;  // nullptr: the machine has none
    bool held_moves_;
    std::vector<std::string>& wrong_;
    Steps steps_;
    double by_;
    std::vector<std::pair<const Body*, const Body*>> seen_;
};

}  // namespace

void checkClearance(const Scene& scene, std::vector<std::string>& wrong) { Claim(scene, wrong).check(); }

}  // namespace tinwright::replay
