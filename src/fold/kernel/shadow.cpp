// SPDX-License-Identifier: GPL-3.0-or-later
#include "kernel/shadow.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "kernel/gap_bound.h"

namespace tinwright {

namespace {

// A span is not split again once the motion within it is known this closely: what is then neither clear nor witnessed
// stays in the outer set alone. Turning itself costs nothing here, the gap over a span is exact in it.
constexpr double kDrift_mm = 0.01;
// For x the tool is grown by all that a point may stray within the span; where the motion is not known closer than its
// spread, half of that is fine enough.
constexpr double kStray_mm = 0.05;
constexpr double kStrayOfMargin = 0.3;
// The outer set may reach this far past what is witnessed before a span is split for it.
constexpr Micron kXResolution_um = 300;
// A turning solid narrower than this along x is in the outer set whole or not at all (slices of arcs, edges of walls).
constexpr double kNarrow_mm = 2.0;
constexpr int kMaxShadowSpans = 4000;
constexpr double kMoment_rad = 1e-3;  // shorter spans are not searched for a moment that witnesses

// Moments that are looked at before spans are: what they witness need not be found again span by span.
constexpr int kFirstLooks = 16;

// Over its whole motion the solid stays in a ring about the centre; rings that do not meet need no look at angles.
bool ringsApart(const RadiusRange& solid, const RadiusRange& tool, double margin_mm) {
    return solid.least_mm - margin_mm > tool.most_mm || tool.least_mm - margin_mm > solid.most_mm;
}

bool clearOver(const SeenSection& seen, const Motion& motion, const Convex2& tool, double margin_mm,
               const MotionSpan& span, int depth, AxisHint& hint) {
    const double need = margin_mm + kRounding_mm;
    if (spanGap(*seen.section, span.all(), tool, motion.centre(), need, hint) > need) return true;
    if (depth == 0 || span.half_rad() == 0) return false;
    return clearOver(seen, motion, tool, margin_mm, span.firstHalf(), depth - 1, hint) &&
           clearOver(seen, motion, tool, margin_mm, span.secondHalf(), depth - 1, hint);
}

class Sweep {
public:
    Sweep(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool, double margin_mm, Shadow& shadow)
        : seen_(seen),
          motion_(motion),
          tool_(tool),
          margin_mm_(margin_mm),
          shadow_(shadow),
          whole_outer_{micronFloor(seen.solid->x_lo_mm()), micronCeil(seen.solid->x_hi_mm())},
          whole_inner_{micronCeil(seen.solid->x_lo_mm()), micronFloor(seen.solid->x_hi_mm())},
          all_or_nothing_(seen.solid->uniform() ||
                          (motion.turns() && seen.solid->x_hi_mm() - seen.solid->x_lo_mm() < kNarrow_mm)) {}

    bool run() {
        const MotionSpan whole(motion_);
        if (done()) return true;
        if (isClear(whole)) return false;
        if (!all_or_nothing_ && whole.half_rad() > 0) firstLooks();
        split(whole);
        return met_ || done();
    }

private:
    void visit(const MotionSpan& span) {
        if (done() || isClear(span)) return;
        if (shadow_.outer.covers(whole_outer_) && !mayWitness(span)) return;
        split(span);
    }

    [[nodiscard]] bool isClear(const MotionSpan& span) {
        const double need = margin_mm_ + kRounding_mm;
        return gap(span.all(), need) > need;
    }

    // A witness at some angle of the span overlaps there by more than the spread.
    [[nodiscard]] bool mayWitness(const MotionSpan& span) {
        const double least = span.drift_mm() - span.mid().spread_mm;
        return gap(span.middleOne(), least) <= least;
    }

    // The outer set has all that the span can add; a moment that witnesses it may still be found in a part of the span.
    [[nodiscard]] bool soughtFurther(const MotionSpan& span) {
        return all_or_nothing_ && margin_mm_ == 0 && spans_++ < kMaxShadowSpans && span.half_rad() > kMoment_rad &&
               mayWitness(span);
    }

    // What is known already of a span: not that it is clear.
    void split(const MotionSpan& span) {
        lookAt(span.atMiddle());
        if (done()) return;
        if (isFine(span) || ++spans_ > kMaxShadowSpans) {
            met_ = true;
            addOuter(span);
            if (!soughtFurther(span)) return;
        }
        visit(span.firstHalf());
        visit(span.secondHalf());
    }

    double gap(const Placing& placing, double enough) {
        return spanGap(*seen_.section, placing, tool_.section, motion_.centre(), enough, hint_);
    }

    // The x that a skewed solid sweeps grows and shrinks with the angle. Once its greatest reach is nearly known, most
    // spans add nothing to it and need not be split.
    void firstLooks() {
        for (int i = 0; i <= kFirstLooks && !done(); ++i)
            lookAt(MotionSpan::at(motion_, motion_.end_rad() * i / kFirstLooks));
    }

    // Nothing more can be learned: the outer set is whole, and so is the inner or nobody asks for it.
    [[nodiscard]] bool done() const {
        return shadow_.outer.covers(whole_outer_) &&
               (margin_mm_ > 0 || spans_ > kMaxShadowSpans || shadow_.inner.covers(whole_inner_) ||
                (all_or_nothing_ && !witnessed_.empty()));
    }

    // One moment of the motion: do some motions within the spread overlap there, or all?
    void lookAt(const MotionSpan& point) {
        const double spread_mm = point.mid().spread_mm;
        const double clear = margin_mm_ + spread_mm + kRounding_mm;
        const double here = gap(point.middleOne(), clear);
        if (here > clear) return;
        met_ = true;
        if (all_or_nothing_) {
            shadow_.outer.add(whole_outer_);
            if (margin_mm_ > 0) return;
        }
        const double reach = margin_mm_ - spread_mm - kRounding_mm;
        if (here >= reach) return;
        if (seen_.solid->uniform()) {
            witnessed_.add(whole_inner_);
        } else if (const auto range = xRange(point, reach)) {
            witnessed_.add(Interval{micronCeil(range->first), micronFloor(range->second)});
        }
        if (margin_mm_ == 0) shadow_.inner.add(witnessed_);
    }

    [[nodiscard]] double stray_mm(const MotionSpan& span) const {
        return (motion_.turns() ? (seen_.ring.most_mm + motion_.shiftBound_mm()) * span.half_rad() : 0) +
               2 * span.drift_mm();
    }

    // Fine enough: small, or what could still be added is already witnessed.
    [[nodiscard]] bool isFine(const MotionSpan& span) {
        const bool known = 2 * span.drift_mm() <= kDrift_mm + 0.2 * margin_mm_;
        if (all_or_nothing_) return known;
        if (known && stray_mm(span) <= kStray_mm + 0.5 * span.mid().spread_mm + kStrayOfMargin * margin_mm_)
            return true;
        if (witnessed_.empty()) return false;
        const auto range = xRange(span, outerMargin(span));
        return !range || witnessed_.grown(kXResolution_um).covers(outward(*range));
    }

    [[nodiscard]] double outerMargin(const MotionSpan& span) const {
        return margin_mm_ + stray_mm(span) + span.mid().spread_mm + 2 * span.drift_mm() + kRounding_mm;
    }

    void addOuter(const MotionSpan& span) {
        if (all_or_nothing_) {
            shadow_.outer.add(whole_outer_);
            return;
        }
        if (const auto range = xRange(span, outerMargin(span))) shadow_.outer.add(outward(*range));
    }

    static Interval outward(const std::pair<double, double>& range) {
        return {micronFloor(range.first - kRounding_mm), micronCeil(range.second + kRounding_mm)};
    }

    // x of the solid within the tool grown by `margin`, at the middle of a span: the tool is turned back to the
    // solid at rest, which is cheaper than turning the solid.
    [[nodiscard]] std::optional<std::pair<double, double>> xRange(const MotionSpan& span, double margin_mm) {
        static thread_local ClipWindow window;
        if (faces_.empty()) faces_ = seen_.solid->faces();
        const Moment& mid = span.mid();
        tool_.section.windowInto(window, margin_mm);
        const Vec2 home = motion_.centre() - mid.shift;
        for (Vec2& corner : window.corners)
            corner = turnedUp(corner - motion_.centre(), mid.cos_turn, -mid.sin_turn) + home;
        for (std::size_t i = 0; i < window.normals.size(); ++i) {
            window.offsets[i] -= window.normals[i].dot(motion_.centre());
            window.normals[i] = turnedUp(window.normals[i], mid.cos_turn, -mid.sin_turn);
            window.offsets[i] += window.normals[i].dot(home);
        }
        return seen_.solid->xRangeIn(window, faces_);
    }

    const SeenSolid& seen_;
    const Motion& motion_;
    const ToolPiece& tool_;
    double margin_mm_;
    Shadow& shadow_;
    Interval whole_outer_;
    Interval whole_inner_;
    bool all_or_nothing_;
    IntervalSet witnessed_;           // x at which every motion within the spread is nearer than the margin
    std::vector<Solid::Face> faces_;  // of a solid that is not uniform
    AxisHint hint_;
    int spans_ = 0;
    bool met_ = false;
};

// How deep a solid comes into a tool, at moments a tenth of a degree apart and at the end.
class Overlaps {
public:
    Overlaps(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool, double& depth_mm)
        : seen_(seen),
          motion_(motion),
          tool_(tool),
          depth_mm_(depth_mm),
          last_(static_cast<int>(std::ceil(motion.end_rad() * kMoments / std::numbers::pi))) {}

    double first_rad() {
        lookAt(last_);  // deepest as a rule
        lookBetween(0, last_);
        return first_ ? angle_rad(*first_) : -1;
    }

private:
    static constexpr int kMoments = 1800;  // of half a turn
    [[nodiscard]] double angle_rad(int moment) const {
        return std::min(motion_.end_rad(), moment * std::numbers::pi / kMoments);
    }

    void lookAt(int moment) {
        const MotionSpan point = MotionSpan::at(motion_, angle_rad(moment));
        const double depth = -spanGap(*seen_.section, point.middleOne(), tool_.section, motion_.centre(), 0, hint_) -
                             point.mid().spread_mm;
        if (depth > kRounding_mm && (!first_ || moment < *first_)) first_ = moment;
        depth_mm_ = std::max(depth_mm_, depth);
    }

    // Left out where it is never so deep as is known already, or where it does not touch before it is known to.
    void lookBetween(int from, int to) {
        if (to - from <= 1) {
            lookAt(from);
            return;
        }
        const double known = first_ && *first_ <= from ? std::max(depth_mm_, 0.0) : 0.0;
        const MotionSpan span = MotionSpan::between(motion_, angle_rad(from), angle_rad(to));
        if (spanGap(*seen_.section, span.all(), tool_.section, motion_.centre(), -known, hint_) > -known) return;
        const int middle = (from + to) / 2;
        lookBetween(from, middle);
        lookBetween(middle, to);
    }

    const SeenSolid& seen_;
    const Motion& motion_;
    const ToolPiece& tool_;
    double& depth_mm_;
    int last_;
    std::optional<int> first_;
    AxisHint hint_;
};

}  // namespace

bool staysClear(const SeenSection& seen, const Motion& motion, const Convex2& tool, const RadiusRange& tool_ring,
                double margin_mm, int depth) {
    if (motion.turns() && ringsApart(seen.ring, tool_ring, margin_mm + seen.reach_mm)) return true;
    AxisHint hint;
    return clearOver(seen, motion, tool, margin_mm, MotionSpan(motion), depth, hint);
}

bool castShadow(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool, double margin_mm, Shadow& shadow) {
    if (motion.turns() && ringsApart(seen.ring, tool.ring, margin_mm + seen.reach_mm)) return false;
    return Sweep(seen, motion, tool, margin_mm, shadow).run();
}

GapBound leastGap(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool, double cap_mm) {
    if (motion.turns() && ringsApart(seen.ring, tool.ring, cap_mm + seen.reach_mm)) return {cap_mm, 0};
    AxisHint hint;
    const auto gapOver = [&](const MotionSpan& span) {
        return spanGap(*seen.section, span.all(), tool.section, motion.centre(), cap_mm + 1, hint);
    };
    return GapBoundSearch(motion, cap_mm, gapOver).run();
}

double firstContact_rad(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool, double& depth_mm) {
    if (motion.turns() && ringsApart(seen.ring, tool.ring, seen.reach_mm)) return -1;
    return Overlaps(seen, motion, tool, depth_mm).first_rad();
}

}  // namespace tinwright
