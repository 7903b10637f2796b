// SPDX-License-Identifier: GPL-3.0-or-later
#include "oracle_sheet.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <tinwright/part/model/pose.h>

#include "oracle_meeting.h"
#include "solids/inset.h"

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

// u away from the tangent line, z from the arc's centre outwards: within the true arc, less some on every side.
Polygon slice(double inner, double outer, double from, double to) {
    const double lift = inner / std::cos(0.5 * (to - from));
    const auto at = [](double radius, double angle) {
        return Vec2(radius * std::sin(angle), -radius * std::cos(angle));
    };
    return {at(outer, from), at(outer, to), at(lift, to), at(lift, from)};
}

// Slices of a bent strip in a frame whose axes are: x along, y away from the tangent line, z towards the arc's centre.
std::vector<ConvexPoints> slices(const std::vector<StripSpan>& spans, double inner, double outer, double angle,
                                 double less_mm, const Isometry3d& frame) {
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

// Strips in the parent's blank frame.
std::vector<ConvexPoints> arc(const Bend& bend, double thickness_mm, double nose_radius_mm, double less_mm) {
    const double up = bend.up ? 1 : -1;
    const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
    Isometry3d frame = Isometry3d::Identity();
    frame.linear().col(0) = Vector3d(bend.along.x(), bend.along.y(), 0);
    frame.linear().col(1) = Vector3d(bend.toward_child.x(), bend.toward_child.y(), 0);
    frame.linear().col(2) = Vector3d(0, 0, up);  // may mirror: these are points only
    frame.translation() = Vector3d(tangent.x(), tangent.y(), bend.up ? thickness_mm + nose_radius_mm : -nose_radius_mm);
    return slices(bend.spans, nose_radius_mm + less_mm, nose_radius_mm + thickness_mm - less_mm, bend.angle.rad(),
                  less_mm, frame);
}

std::vector<ConvexPoints> flatStrip(const Bend& bend, double thickness_mm, double less_mm) {
    std::vector<ConvexPoints> result;
    const double half = 0.5 * bend.allowance_mm - less_mm;
    if (half <= 0) return result;
    const auto at = [&](double along, double out) -> Vec2 {
        return bend.origin + along * bend.along + out * bend.toward_child;
    };
    for (const StripSpan& span : bend.spans) {
        const double from = span.from_mm + less_mm;
        const double to = span.to_mm - less_mm;
        result.push_back(
            fclPrism({at(from, half), at(from, -half), at(to, -half), at(to, half)}, less_mm, thickness_mm - less_mm));
    }
    return result;
}

}  // namespace

Slabs::Slabs(const ConvexPoints& points) {
    lo_.fill(std::numeric_limits<double>::infinity());
    hi_.fill(-lo_[0]);
    for (const Vector3d& point : points) {
        take(kDirections, point.x());
        for (std::size_t i = 0; i < kDirections; ++i) take(i, direction(i).dot(point.tail<2>()));
    }
}

const Vec2& Slabs::direction(std::size_t i) {
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

void Slabs::take(std::size_t i, double value) {
    lo_[i] = std::min(lo_[i], value);
    hi_[i] = std::max(hi_[i], value);
}

double Slabs::gapTo(const Slabs& other) const {
    double gap = 0;
    for (std::size_t i = 0; i <= kDirections; ++i) gap = std::max({gap, lo_[i] - other.hi_[i], other.lo_[i] - hi_[i]});
    return gap;
}

const fcl::Convex<double>& Hull::body() {
    if (!body_)
        body_.emplace(std::make_shared<const ConvexPoints>(points_), 0, std::make_shared<const std::vector<int>>());
    return *body_;
}

namespace {

bool collide(const fcl::CollisionGeometry<double>& a, const Isometry3d& pose_a, const fcl::CollisionGeometry<double>& b,
             const Isometry3d& pose_b) {
    fcl::CollisionRequest<double> request;
    request.gjk_solver_type = fcl::GJKSolverType::GST_LIBCCD;
    fcl::CollisionResult<double> result;
    return fcl::collide<double>(&a, pose_a, &b, pose_b, request, result) > 0;
}

}  // namespace

bool hullsMeet(Hull& a, const Isometry3d& pose_a, Hull& b, const Isometry3d& pose_b) {
    return collide(a.body(), pose_a, b.body(), pose_b);
}

bool meetsBlock(Hull& hull, const Isometry3d& pose, const ConvexPoints& block) {
    const Vector3d sides[] = {block[4] - block[0], block[1] - block[0], block[2] - block[1]};
    Isometry3d place = Isometry3d::Identity();
    for (int i = 0; i < 3; ++i) place.linear().col(i) = sides[i].normalized();
    place.translation() = 0.5 * (block[0] + block[6]);
    return collide(hull.body(), pose, fcl::Box<double>(sides[0].norm(), sides[1].norm(), sides[2].norm()), place);
}

bool anyMeet(const std::vector<ConvexPoints>& some, const std::vector<ConvexPoints>& others) {
    for (const ConvexPoints& one : some) {
        for (const ConvexPoints& other : others) {
            if (Slabs(one).gapTo(Slabs(other)) <= 0 && fclHit(one, other)) return true;
        }
    }
    return false;
}

Section fitted(const Region& section, Fit fit) {
    if (fit == Fit::kShrunk) return replay::shrunkPieces(section, kDeep_mm);
    Section pieces = convexPieces(section);
    if (fit == Fit::kGrown) {
        for (Polygon& piece : pieces) piece = replay::grown(piece, kGrown_mm);
    }
    return pieces;
}

std::vector<Region> cut(const Region& region, double z_lo, double z_hi) {
    return intersection(
        region, {Vec2(-kBeyond_mm, z_lo), Vec2(kBeyond_mm, z_lo), Vec2(kBeyond_mm, z_hi), Vec2(-kBeyond_mm, z_hi)});
}

Region movedBy(Polygon section, const Vec2& by) {
    for (Vec2& point : section) point += by;
    return {std::move(section), {}};
}

Region barSectionOf(const tinwright::Tool& bar, double thickness_mm) {
    return movedBy(bar.profile, Vec2(0, thickness_mm));
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
    for (const Polygon& outline : outlines.shrunk[panel.index()])
        piece.shrunk.push_back(fclPrism(outline, kDeep_mm, t - kDeep_mm));
    return piece;
}

namespace {

// A closed hem: its arc, and flat on both sides what the wider strip of its first fold took from the panels.
LocalPiece closedHem(const Bend& line, double thickness_mm) {
    constexpr double kSharp_mm = 1e-3;
    const Bend closed = finished(line);
    const double radius_mm = std::max(closed.inside_radius_mm, kSharp_mm);
    LocalPiece piece{line.parent, arc(closed, thickness_mm, radius_mm, 0),
                     arc(closed, thickness_mm, radius_mm, kDeep_mm)};
    const double flat_mm = 0.5 * (line.allowance_mm - closed.allowance_mm);
    if (flat_mm <= 0) return piece;
    const Rigid turned = parentFromChild(closed, thickness_mm, closed.angle, closed.inside_radius_mm);
    for (const bool child : {false, true}) {
        Bend beside = line;
        beside.allowance_mm = flat_mm;
        beside.origin = line.origin + (child ? 0.5 : -0.5) * (closed.allowance_mm + flat_mm) * line.toward_child;
        for (const ConvexPoints& points : flatStrip(beside, thickness_mm, 0))
            piece.whole.push_back(child ? fclMoved(points, turned) : points);
        for (const ConvexPoints& points : flatStrip(beside, thickness_mm, kDeep_mm))
            piece.shrunk.push_back(child ? fclMoved(points, turned) : points);
    }
    return piece;
}

}  // namespace

LocalPiece stripPiece(const Part& part, BendId bend, bool formed, double nose_radius_mm) {
    const Bend& line = part.bend(bend);
    if (formed && line.hem) return closedHem(line, part.thickness_mm);
    if (formed) {
        return {line.parent, arc(line, part.thickness_mm, nose_radius_mm, 0),
                arc(line, part.thickness_mm, nose_radius_mm, kDeep_mm)};
    }
    return {line.parent, flatStrip(line, part.thickness_mm, 0), flatStrip(line, part.thickness_mm, kDeep_mm)};
}

Vec2 formingShift(double a, double allowance_mm, double set_rad, Forming forming) {
    const Vec2 rolling(allowance_mm * a / set_rad, 0);
    if (a < 1e-6) return (1 - forming.uniform_share) * rolling;
    const double d = allowance_mm / a - allowance_mm / set_rad;
    const Vec2 uniform(allowance_mm - d * std::sin(a), d * (std::cos(a) - 1));
    return (1 - forming.uniform_share) * rolling + forming.uniform_share * uniform;
}

Eigen::Matrix3d frontTurnedUp(double a) {
    Eigen::Matrix3d turn;
    turn << 1, 0, 0, 0, std::cos(a), std::sin(a), 0, -std::sin(a), std::cos(a);
    return turn;
}

Isometry3d swungAbout(const Vec2& centre, double a, const Vec2& w) {
    const Vector3d middle(0, centre.x(), centre.y());
    Isometry3d pose = Isometry3d::Identity();
    pose.linear() = frontTurnedUp(a);
    pose.translation() = middle + pose.linear() * (Vector3d(0, w.x(), w.y()) - middle);
    return pose;
}

double sheetSpeed(const ConvexPoints& points, const Vec2& centre, double allowance_mm, double set_rad) {
    double reach = 0;
    for (const Vector3d& p : points) reach = std::max(reach, std::hypot(p.y() - centre.x(), p.z() - centre.y()));
    return reach + 3 * allowance_mm + 3 * allowance_mm / set_rad;
}

Vec2 AtRest::back() const {
    const Bend& line = part->bend(bend);
    return hold == Side::kParent ? Vec2(-line.toward_child) : line.toward_child;
}

Isometry3d AtRest::frame(const Vec2& line, double line_y_mm) const {
    const bool up = part->bend(bend).up;
    const Vec2 behind = back();
    const Vector3d y(behind.x(), behind.y(), 0);
    const Vector3d z(0, 0, up ? 1 : -1);
    Eigen::Matrix3d axes;
    axes << y.cross(z).transpose(), y.transpose(), z.transpose();
    Isometry3d result = Isometry3d::Identity();
    result.linear() = axes;
    result.translation() = Vector3d(0, line_y_mm, 0) - axes * Vector3d(line.x(), line.y(), up ? 0 : part->thickness_mm);
    return result;
}

std::vector<SheetPiece> AtRest::pieces(const Outlines& outlines, const Isometry3d& frame) const {
    const Bend& own = part->bend(bend);
    const std::vector<Rigid> poses = baseFromPanels(*part, formed, radius_mm);
    const std::vector<bool> past = beyond(*part, bend);
    const PanelId held = hold == Side::kParent ? own.parent : own.child;
    const auto place = [&](PanelId panel) -> Isometry3d {
        return frame * poses[held.index()].inverse() * poses[panel.index()];
    };
    const auto moves = [&](PanelId panel) { return past[panel.index()] == (hold == Side::kParent); };
    std::vector<SheetPiece> result;
    const auto add = [&](const LocalPiece& local, bool moving, bool is_arc) {
        SheetPiece piece{moving, is_arc, local.whole, local.shrunk};
        const Isometry3d pose = place(local.frame);
        for (auto* bodies : {&piece.whole, &piece.shrunk}) {
            for (ConvexPoints& points : *bodies) points = fclMoved(std::move(points), pose);
        }
        result.push_back(std::move(piece));
    };
    for (std::size_t i = 0; i < part->panels.size(); ++i)
        add(panelPiece(*part, outlines, idAt<PanelId>(i)), moves(idAt<PanelId>(i)), false);
    for (std::size_t i = 0; i < part->bends.size(); ++i) {
        const auto strip = idAt<BendId>(i);
        const PanelId parent = part->bend(strip).parent;
        const bool is_arc = contains(formed, strip);
        add(strip == bend ? LocalPiece{parent, {}, {}} : stripPiece(*part, strip, is_arc, radius_mm), moves(parent),
            is_arc);
    }
    return result;
}

double AtRest::along(const Isometry3d& frame) const {
    const Vec2& line = part->bend(bend).along;
    return (frame.linear() * Vector3d(line.x(), line.y(), 0)).x();
}

double AtRest::leastStrip_mm(const Isometry3d& frame) const {
    double least = std::numeric_limits<double>::infinity();
    for (const StripSpan& span : part->bend(bend).spans)
        least = std::min({least, along(frame) * span.from_mm, along(frame) * span.to_mm});
    return least;
}

std::vector<ConvexPoints> bentStrip(const Bend& bend, double along, double thickness_mm, double radius_mm,
                                    double angle_rad, double from_rad, const Vec2& centre) {
    // Away from the held side is -y, the arc's centre is above.
    Isometry3d frame = Isometry3d::Identity();
    frame.linear() << along, 0, 0, 0, -1, 0, 0, 0, 1;
    frame.linear() = frontTurnedUp(from_rad) * frame.linear();
    frame.translation() = Vector3d(0, centre.x(), centre.y());
    return slices(bend.spans, radius_mm + kDeep_mm, radius_mm + thickness_mm - kDeep_mm, angle_rad, kDeep_mm, frame);
}

}  // namespace tinwright::oracle
