// SPDX-License-Identifier: GPL-3.0-or-later
#include "oracle_model.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

#include <tinwright/part/pose.h>

#include <fcl/geometry/shape/box.h>

#include "inset.h"

namespace tinwright::oracle {

namespace {

using Eigen::Isometry3d;
using Eigen::Vector3d;
constexpr double kBeyond_mm = 2000;
constexpr double kSlice_rad = 0.14;

// Panels on either side of a bend.
std::vector<bool> beyond(const Part& part, BendId bend) {
    std::vector<bool> result(part.panels.size(), false);
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& line = part.bends[i];
        result[line.child.index()] = i == bend.index() || result[line.parent.index()];
    }
    return result;
}

// How far a body reaches along x and along eight directions square to it: a cheap lower bound of distances.
constexpr std::size_t kDirections = 8;
struct Slabs {
    explicit Slabs(const ConvexPoints& points) {
        lo.fill(std::numeric_limits<double>::infinity());
        hi.fill(-lo[0]);
        for (const Vector3d& point : points) {
            take(kDirections, point.x());
            for (std::size_t i = 0; i < kDirections; ++i) take(i, direction(i).dot(point.tail<2>()));
        }
    }
    static const Vec2& direction(std::size_t i) {
        static const std::array<Vec2, kDirections> all = [] {
            std::array<Vec2, kDirections> list;
            for (std::size_t k = 0; k < kDirections; ++k) {
                const double turn = std::numbers::pi * static_cast<double>(k) / kDirections;
                list[k] = Vec2(std::cos(turn), std::sin(turn));
            }
            return list;
        }();
        return all[i];
    }
    void take(std::size_t i, double value) {
        lo[i] = std::min(lo[i], value);
        hi[i] = std::max(hi[i], value);
    }
    [[nodiscard]] bool apartInX(const Slabs& other) const { return lo[kDirections] > other.hi[kDirections] || other.lo[kDirections] > hi[kDirections]; }
    [[nodiscard]] double gapTo(const Slabs& other) const {
        double gap = 0;
        for (std::size_t i = 0; i <= kDirections; ++i) gap = std::max({gap, lo[i] - other.hi[i], other.lo[i] - hi[i]});
        return gap;
    }
    std::array<double, kDirections + 1> lo, hi;
};

// u away from the tangent line, z from the arc's centre outwards: within the true arc, less some on every side.
Polygon slice(double inner, double outer, double from, double to) {
    const double lift = inner / std::cos(0.5 * (to - from));
    const auto at = [](double radius, double angle) { return Vec2(radius * std::sin(angle), -radius * std::cos(angle)); };
    return {at(outer, from), at(outer, to), at(lift, to), at(lift, from)};
}

// Slices of a bent strip in a frame whose axes are: x along, y away from the tangent line, z towards the arc's centre.
std::vector<ConvexPoints> slices(const std::vector<StripSpan>& spans, double inner, double outer, double angle, double less_mm,
                                 const Isometry3d& frame) {
    std::vector<ConvexPoints> result;
    const int count = std::max(1, static_cast<int>(std::ceil(angle / kSlice_rad)));
    const double trim = less_mm / inner;  // at the two ends of the arc, in angle
    if (inner / std::cos(0.5 * angle / count) + 1e-3 > outer || 2 * trim > angle) return result;
    for (const StripSpan& span : spans) {
        for (int i = 0; i < count; ++i) {
            const double from = trim + (angle - 2 * trim) * i / count;
            const double to = trim + (angle - 2 * trim) * (i + 1) / count;
            ConvexPoints points;
            for (const double x : {span.from_mm + less_mm, span.to_mm - less_mm}) {
                for (const Vec2& p : slice(inner, outer, from, to)) points.push_back(frame * Vector3d(x, p.x(), p.y()));
            }
            result.push_back(std::move(points));
        }
    }
    return result;
}

// Two bodies told by their corners at an angle, and how fast a corner goes at most: the first angle looked at where they
// meet. Nothing moves along x, so bodies apart there are apart.
template <class One, class Other, class Hit>
double firstMeeting(const One& one, double one_speed, const Other& other, double other_speed, double end, double step_rad, const Hit& hit) {
    for (double angle = 0;;) {
        const ConvexPoints& a = one(angle);
        const ConvexPoints& b = other(angle);
        double step = step_rad;
        if (!a.empty() && !b.empty()) {
            const Slabs here(a);
            const Slabs there(b);
            if (here.apartInX(there)) return -1;
            const double gap = here.gapTo(there);
            if (gap <= 0 && hit(angle, a, b)) return angle;
            step = std::max(step, gap / (one_speed + other_speed));
        }
        if (angle >= end) return -1;
        angle = std::min(end, angle + step);
    }
}

// The library's body of a set of corners, made when it is first asked for: making one takes longer than asking.
class Hull {
public:
    explicit Hull(const ConvexPoints& points) : points_(points) {}
    const fcl::Convex<double>& body() {
        if (!body_) body_.emplace(std::make_shared<const ConvexPoints>(points_), 0, std::make_shared<const std::vector<int>>());
        return *body_;
    }

private:
    const ConvexPoints& points_;
    std::optional<fcl::Convex<double>> body_;
};

bool collide(const fcl::CollisionGeometry<double>& a, const Isometry3d& pose_a, const fcl::CollisionGeometry<double>& b, const Isometry3d& pose_b) {
    fcl::CollisionRequest<double> request;
    request.gjk_solver_type = fcl::GJKSolverType::GST_LIBCCD;
    fcl::CollisionResult<double> result;
    return fcl::collide<double>(&a, pose_a, &b, pose_b, request, result) > 0;
}

bool hullsMeet(Hull& a, const Isometry3d& pose_a, Hull& b) { return collide(a.body(), pose_a, b.body(), Isometry3d::Identity()); }

// A prism of a rectangle, by its eight corners.
bool meetsBlock(Hull& hull, const Isometry3d& pose, const ConvexPoints& block) {
    const Vector3d sides[] = {block[4] - block[0], block[1] - block[0], block[2] - block[1]};
    Isometry3d place = Isometry3d::Identity();
    for (int i = 0; i < 3; ++i) place.linear().col(i) = sides[i].normalized();
    place.translation() = 0.5 * (block[0] + block[6]);
    return collide(hull.body(), pose, fcl::Box<double>(sides[0].norm(), sides[1].norm(), sides[2].norm()), place);
}

// Strips in the parent's blank frame.
std::vector<ConvexPoints> arc(const Bend& bend, double thickness_mm, double nose_radius_mm, double less_mm) {
    const double up = bend.up ? 1 : -1;
    const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
    Isometry3d frame = Isometry3d::Identity();
    frame.linear().col(0) = Vector3d(bend.along.x(), bend.along.y(), 0);
    frame.linear().col(1) = Vector3d(bend.toward_child.x(), bend.toward_child.y(), 0);
    frame.linear().col(2) = Vector3d(0, 0, up);  // may mirror: these are points only
    frame.translation() = Vector3d(tangent.x(), tangent.y(), bend.up ? thickness_mm + nose_radius_mm : -nose_radius_mm);
    return slices(bend.spans, nose_radius_mm + less_mm, nose_radius_mm + thickness_mm - less_mm, bend.angle.rad(), less_mm, frame);
}

std::vector<ConvexPoints> flatStrip(const Bend& bend, double thickness_mm, double less_mm) {
    std::vector<ConvexPoints> result;
    const double half = 0.5 * bend.allowance_mm - less_mm;
    if (half <= 0) return result;
    const auto at = [&](double along, double out) -> Vec2 { return bend.origin + along * bend.along + out * bend.toward_child; };
    for (const StripSpan& span : bend.spans) {
        const double from = span.from_mm + less_mm;
        const double to = span.to_mm - less_mm;
        result.push_back(fclPrism({at(from, half), at(from, -half), at(to, -half), at(to, half)}, less_mm, thickness_mm - less_mm));
    }
    return result;
}

double earlier(double a, double b) { return b >= 0 && (a < 0 || b < a) ? b : a; }

}  // namespace

Section fitted(const Region& section, Fit fit) {
    if (fit == Fit::kShrunk) return replay::shrunkPieces(section, kDeep_mm);
    Section pieces = convexPieces(section);
    if (fit == Fit::kGrown) {
        for (Polygon& piece : pieces) piece = replay::grown(piece, kGrown_mm);
    }
    return pieces;
}

std::vector<Region> cut(const Region& region, double z_lo, double z_hi) {
    return intersection(region, {Vec2(-kBeyond_mm, z_lo), Vec2(kBeyond_mm, z_lo), Vec2(kBeyond_mm, z_hi), Vec2(-kBeyond_mm, z_hi)});
}

Region barSectionOf(const Bar& bar, double thickness_mm) {
    Region region{bar.profile, {}};
    for (Vec2& point : region.outline) point.y() += thickness_mm;
    return region;
}

Region bedSectionOf(const Brake& brake, double thickness_mm) {
    Region region{brake.bed, {}};
    for (Vec2& point : region.outline) point.x() -= brake.setback_mm < 0 ? thickness_mm : brake.setback_mm;
    return region;
}

Region beamSectionOf(const Brake& brake, double thickness_mm) {
    const double y = brake.beam.front_y_mm;
    const double z = brake.beam.height_mm + thickness_mm;
    return {{Vec2(y, z), Vec2(y + kBeyond_mm, z), Vec2(y + kBeyond_mm, z + kBeyond_mm), Vec2(y, z + kBeyond_mm)}, {}};
}

Outlines::Outlines(const Part& part) {
    for (const Panel& panel : part.panels) {
        whole.push_back(convexPieces(panel.region));
        shrunk.push_back(replay::shrunkPieces(panel.region, kDeep_mm));
    }
}

LocalPiece panelPiece(const Part& part, const Outlines& outlines, PanelId panel) {
    LocalPiece piece{panel, {}, {}};
    const double t = part.thickness_mm;
    for (const Polygon& outline : outlines.whole[panel.index()]) piece.whole.push_back(fclPrism(outline, 0, t));
    for (const Polygon& outline : outlines.shrunk[panel.index()]) piece.shrunk.push_back(fclPrism(outline, kDeep_mm, t - kDeep_mm));
    return piece;
}

LocalPiece stripPiece(const Part& part, BendId bend, bool formed, double nose_radius_mm) {
    const Bend& line = part.bend(bend);
    if (formed) {
        return {line.parent, arc(line, part.thickness_mm, nose_radius_mm, 0), arc(line, part.thickness_mm, nose_radius_mm, kDeep_mm)};
    }
    return {line.parent, flatStrip(line, part.thickness_mm, 0), flatStrip(line, part.thickness_mm, kDeep_mm)};
}

Stroke::Stroke(const Part& part, const Outlines& outlines, const Brake& brake, double overbend_deg, BendMask formed, BendId bend, int hold)
    : part_(&part), brake_(&brake), bend_(bend), hold_(hold), t_(part.thickness_mm), rn_(brake.nose_radius_mm),
      s_(brake.setback_mm < 0 ? part.thickness_mm : brake.setback_mm), h_(brake.hinge_height_mm),
      allowance_(part.bend(bend).allowance_mm), set_(part.bend(bend).angle.rad() + overbend_deg * std::numbers::pi / 180.0),
      centre_(rn_, t_ + rn_), frame_(Isometry3d::Identity()) {
    const Bend& line = part.bend(bend);
    const Vec2 back = hold == 0 ? Vec2(-line.toward_child) : line.toward_child;
    const Vector3d y(back.x(), back.y(), 0);
    const Vector3d z(0, 0, line.up ? 1 : -1);
    Eigen::Matrix3d axes;
    axes << y.cross(z).transpose(), y.transpose(), z.transpose();
    const Vec2 tangent = line.origin + 0.5 * allowance_ * back;
    frame_.linear() = axes;
    frame_.translation() = Vector3d(0, rn_, 0) - axes * Vector3d(tangent.x(), tangent.y(), line.up ? 0 : t_);
    addPieces(outlines, formed);
}

void Stroke::addPieces(const Outlines& outlines, BendMask formed) {
    const Bend& own = part_->bend(bend_);
    const std::vector<Rigid> poses = baseFromPanels(*part_, formed, rn_);
    const std::vector<bool> past = beyond(*part_, bend_);
    const PanelId held = hold_ == 0 ? own.parent : own.child;
    const auto place = [&](PanelId panel) -> Isometry3d { return frame_ * poses[held.index()].inverse() * poses[panel.index()]; };
    const auto moves = [&](PanelId panel) { return past[panel.index()] == (hold_ == 0); };
    const auto add = [&](const LocalPiece& local, bool moving, bool is_arc) {
        SheetPiece piece{moving, is_arc, local.whole, local.shrunk};
        const Isometry3d pose = place(local.frame);
        for (auto* bodies : {&piece.whole, &piece.shrunk}) {
            for (ConvexPoints& points : *bodies) points = fclMoved(std::move(points), pose);
        }
        pieces_.push_back(std::move(piece));
    };
    for (std::size_t i = 0; i < part_->panels.size(); ++i) add(panelPiece(*part_, outlines, idAt<PanelId>(i)), moves(idAt<PanelId>(i)), false);
    for (std::size_t i = 0; i < part_->bends.size(); ++i) {
        const auto bend = idAt<BendId>(i);
        const PanelId parent = part_->bend(bend).parent;
        const bool is_arc = contains(formed, bend);
        add(bend == bend_ ? LocalPiece{parent, {}, {}} : stripPiece(*part_, bend, is_arc, rn_), moves(parent), is_arc);
    }
}

std::vector<ConvexPoints> Stroke::ownStrip() const {
    // In the fold's frame: away from the held side is -y, the arc's centre is above.
    Isometry3d frame = Isometry3d::Identity();
    const Bend& line = part_->bend(bend_);
    const double along = (frame_.linear() * Vector3d(line.along.x(), line.along.y(), 0)).x();
    frame.linear() << along, 0, 0, 0, -1, 0, 0, 0, 1;
    frame.translation() = Vector3d(0, rn_, t_ + rn_);
    return slices(line.spans, rn_ + kDeep_mm, rn_ + t_ - kDeep_mm, set_, kDeep_mm, frame);
}

double Stroke::leastStrip_mm() const {
    double least = std::numeric_limits<double>::infinity();
    const Bend& line = part_->bend(bend_);
    const double along = (frame_.linear() * Vector3d(line.along.x(), line.along.y(), 0)).x();
    for (const StripSpan& span : line.spans) least = std::min({least, along * span.from_mm, along * span.to_mm});
    return least;
}

// w of the moving side. Rolling: A a / S along y. Uniform curvature: R(-a)(0, D) - (0, D) + A y with D = A/a - A/S.
Vec2 Stroke::forms(double a, Forming forming) const {
    const Vec2 rolling(allowance_ * a / set_, 0);
    if (a < 1e-6) return (1 - forming.uniform_share) * rolling;
    const double d = allowance_ / a - allowance_ / set_;
    const Vec2 uniform(allowance_ - d * std::sin(a), d * (std::cos(a) - 1));
    return (1 - forming.uniform_share) * rolling + forming.uniform_share * uniform;
}

Isometry3d Stroke::swing(double a, Forming forming) const {
    const Vec2 w = forms(a, forming);
    const Vector3d centre(0, centre_.x(), centre_.y());
    Isometry3d pose = Isometry3d::Identity();
    pose.linear() << 1, 0, 0, 0, std::cos(a), std::sin(a), 0, -std::sin(a), std::cos(a);
    pose.translation() = centre + pose.linear() * (Vector3d(0, w.x(), w.y()) - centre);
    return pose;
}

// |d/da R(p - C + w)| <= |p - C| + |w| + |w'|, with |w| <= 2 A and |w'| <= A + 3 A / S with room to spare.
double Stroke::sheetSpeed(const ConvexPoints& points) const {
    double reach = 0;
    for (const Vector3d& p : points) reach = std::max(reach, std::hypot(p.y() - centre_.x(), p.z() - centre_.y()));
    return reach + 3 * allowance_ + 3 * allowance_ / set_;
}

double Stroke::drawnBack_mm(double a, Forming forming) const {
    const double d = a < 1e-6 ? 0 : allowance_ / a - allowance_ / set_;
    const double underside = t_ + rn_ + forming.uniform_share * d * (1 - std::cos(a));
    return std::max(0.0, underside - h_ - (rn_ + s_) * std::sin(a) - (t_ + rn_ - h_) * std::cos(a));
}

ConvexPoints Stroke::leafBearing(double a, const LeafFace& face, Fit fit, double x0, double x1, Forming forming) const {
    return leafAt(a, face, fit, x0, x1, drawnBack_mm(a, forming));
}

// Its back stays where it is.
ConvexPoints Stroke::leafAt(double a, const LeafFace& face, Fit fit, double x0, double x1, double drawn_back) const {
    const double out = fit == Fit::kShrunk ? -kDeep_mm : fit == Fit::kGrown ? kGrown_mm : 0;
    const double top = -drawn_back + out;
    if (top <= -face.thickness_mm - out) return {};
    const Polygon section{Vec2(-face.reach_mm - out, -face.thickness_mm - out), Vec2(out, -face.thickness_mm - out), Vec2(out, top),
                          Vec2(-face.reach_mm - out, top)};
    Isometry3d turn = Isometry3d::Identity();
    turn.linear() << 1, 0, 0, 0, std::cos(a), std::sin(a), 0, -std::sin(a), std::cos(a);
    turn.translation() = Vector3d(0, -s_, h_) + turn.linear() * Vector3d(0, 0, -h_);
    return fclPrism(section, x0, x1, turn * fclAlongX());
}

double Stroke::meetAlone(const ConvexPoints& moving, bool moves, const ConvexPoints& still, Forming forming, double step_rad) const {
    if (!moves) return Slabs(moving).gapTo(Slabs(still)) <= 0 && fclHit(moving, still) ? 0 : -1;
    const auto at = [&](double angle) { return fclMoved(moving, swing(angle, forming)); };
    Hull turning(moving);
    Hull standing(still);
    const auto hit = [&](double angle, const ConvexPoints&, const ConvexPoints&) { return hullsMeet(turning, swing(angle, forming), standing); };
    return firstMeeting(at, sheetSpeed(moving), [&](double) -> const ConvexPoints& { return still; }, 0, set_, step_rad, hit);
}

double Stroke::meetsStill(const SheetPiece& sheet, bool shrunk, const Section& tool, double x0, double x1, Forming forming,
                          double step_rad) const {
    double first = -1;
    for (const Polygon& section : tool) {
        const ConvexPoints prism = fclPrism(section, x0, x1, fclAlongX());
        for (const ConvexPoints& points : shrunk ? sheet.shrunk : sheet.whole) {
            first = earlier(first, meetAlone(points, sheet.moving, prism, forming, step_rad));
        }
    }
    return first;
}

double Stroke::meetsLeaf(const SheetPiece& sheet, const LeafFace& face, Fit fit, double x0, double x1, Forming forming,
                         double step_rad) const {
    const auto leaf = [&](double a) { return sheet.moving ? leafBearing(a, face, fit, x0, x1, forming) : leafAt(a, face, fit, x0, x1, 0); };
    // The face is drawn back at most as fast as its parts change: rn + s, t + rn + h, and 3 A for D(1 - cos a).
    const double speed = std::hypot(face.reach_mm, face.thickness_mm) + h_ + 2 * (t_ + 2 * rn_ + s_ + h_) + 3 * allowance_ + 3 * allowance_ / set_;
    double first = -1;
    for (const ConvexPoints& points : sheet.whole) {
        Hull hull(points);
        const auto hit = [&](double a, const ConvexPoints&, const ConvexPoints& block) {
            return meetsBlock(hull, sheet.moving ? swing(a, forming) : Isometry3d(Isometry3d::Identity()), block);
        };
        const auto moved = [&](double a) { return sheet.moving ? fclMoved(points, swing(a, forming)) : points; };
        first = earlier(first, firstMeeting(moved, sheet.moving ? sheetSpeed(points) : 0, leaf, speed, set_, step_rad, hit));
    }
    return first;
}

double Stroke::meetsHeld(const SheetPiece& moving, bool shrunk, const SheetPiece& held, Forming forming, double step_rad) const {
    double first = -1;
    for (const ConvexPoints& still : held.whole) {
        for (const ConvexPoints& points : shrunk ? moving.shrunk : moving.whole) {
            first = earlier(first, meetAlone(points, true, still, forming, step_rad));
        }
    }
    return first;
}

bool Stroke::meetsOwnStrip(const SheetPiece& held) const {
    for (const ConvexPoints& slice : ownStrip()) {
        for (const ConvexPoints& body : held.whole) {
            if (Slabs(slice).gapTo(Slabs(body)) <= 0 && fclHit(slice, body)) return true;
        }
    }
    return false;
}

}  // namespace tinwright::oracle
