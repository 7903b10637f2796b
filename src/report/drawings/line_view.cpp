// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawings/line_view.h"

#include <algorithm>
#include <cmath>

namespace tinwright::report {
namespace {

constexpr double kBehind_mm = 0.03;   // an edge lies on its own faces; those must not hide it
constexpr double kInside_mm = 0.004;  // nor those that only meet it at their rim
constexpr double kShort = 1e-6;       // of an edge's length

/// A face made ready for many edges: its outline as half planes, its depth as a linear function.
class Screen {
public:
    Screen(const Face3& face, const Sight& sight) {
        for (const Vec3& p : face.ring) ring_.push_back(sight.flat(p));
        double area = 0;
        for (std::size_t i = 0; i < ring_.size(); ++i) {
            const Vec2& a = ring_[i];
            const Vec2& b = ring_[(i + 1) % ring_.size()];
            area += a.x() * b.y() - a.y() * b.x();
        }
        if (std::abs(area) < 1e-6) return;
        if (area < 0) std::reverse(ring_.begin(), ring_.end());
        const Vec3 normal = normalOf(face.ring);
        const double facing = normal.dot(sight.toward);
        if (std::abs(facing) < 1e-9) return;
        // toward·p on the plane normal·p = c, written in the flat coordinates.
        slope_ = Vec2(-normal.dot(sight.right) / facing, -normal.dot(sight.up) / facing);
        base_ = normal.dot(face.ring.front()) / facing;
        least_ = most_ = ring_.front();
        for (const Vec2& p : ring_) {
            least_ = least_.cwiseMin(p);
            most_ = most_.cwiseMax(p);
        }
        usable_ = true;
    }

    [[nodiscard]] bool usable() const { return usable_; }

    /// The stretch of an edge, as parameters, that lies behind this face; empty when from >= to.
    void hide(const Vec2& from, const Vec2& to, double depth_from, double depth_to,
              std::vector<std::pair<double, double>>& hidden) const {
        if (std::max(from.x(), to.x()) <= least_.x() || std::min(from.x(), to.x()) >= most_.x()) return;
        if (std::max(from.y(), to.y()) <= least_.y() || std::min(from.y(), to.y()) >= most_.y()) return;
        double enter = 0;
        double leave = 1;
        const double behind_from = depthAt(from) - depth_from - kBehind_mm;  // positive: behind
        const double behind_to = depthAt(to) - depth_to - kBehind_mm;
        if (!narrow(behind_from, behind_to, enter, leave)) return;
        for (std::size_t i = 0; i < ring_.size(); ++i) {
            const Vec2& a = ring_[i];
            const Vec2 d = ring_[(i + 1) % ring_.size()] - a;
            const double length = d.norm();
            if (length < 1e-9) continue;
            const auto inside = [&](const Vec2& p) {
                return (d.x() * (p.y() - a.y()) - d.y() * (p.x() - a.x())) / length - kInside_mm;
            };
            if (!narrow(inside(from), inside(to), enter, leave)) return;
        }
        if (leave - enter > kShort) hidden.emplace_back(enter, leave);
    }

private:
    static Vec3 normalOf(const std::vector<Vec3>& ring) {
        Vec3 normal = Vec3::Zero();
        for (std::size_t i = 0; i < ring.size(); ++i) normal += ring[i].cross(ring[(i + 1) % ring.size()]);
        return normal.normalized();
    }
    /// Keeps of [enter, leave] where a linear function with these end values is positive.
    static bool narrow(double at_from, double at_to, double& enter, double& leave) {
        if (at_from <= 0 && at_to <= 0) return false;
        if (at_from < 0) enter = std::max(enter, at_from / (at_from - at_to));
        if (at_to < 0) leave = std::min(leave, at_from / (at_from - at_to));
        return enter < leave;
    }
    [[nodiscard]] double depthAt(const Vec2& p) const { return base_ + slope_.dot(p); }

    Polygon ring_;
    Vec2 slope_ = Vec2::Zero();
    double base_ = 0;
    Vec2 least_ = Vec2::Zero();
    Vec2 most_ = Vec2::Zero();
    bool usable_ = false;
};

void addVisible(const FlatEdge& edge, std::vector<std::pair<double, double>>& hidden, std::vector<FlatEdge>& seen) {
    std::sort(hidden.begin(), hidden.end());
    double at = 0;
    const auto keep = [&](double until) {
        if (until - at > kShort)
            seen.push_back(
                {edge.from + at * (edge.to - edge.from), edge.from + until * (edge.to - edge.from), edge.kind});
    };
    for (const auto& [enter, leave] : hidden) {
        keep(enter);
        at = std::max(at, leave);
    }
    keep(1.0);
}

}  // namespace

Sight fromAbove() { return {Vec3::UnitX(), Vec3::UnitY(), Vec3::UnitZ()}; }

Sight fromFront(Angle turn, Angle rise) {
    const SinCos t = sinCos(turn);
    const SinCos r = sinCos(rise);
    const Vec3 toward(t.sin * r.cos, -t.cos * r.cos, r.sin);
    const Vec3 right(t.cos, t.sin, 0);
    return {right, toward.cross(right), toward};
}

void drawEdges(Drawing& drawing, const std::vector<FlatEdge>& edges, const PaperView& view) {
    for (const auto& [kind, pen] :
         {std::pair{kBendEdge, Pen::kThin}, std::pair{kPartEdge, Pen::kOutline}, std::pair{kNewEdge, Pen::kHeavy}}) {
        std::vector<std::pair<Vec2, Vec2>> ends;
        for (const FlatEdge& edge : edges) {
            if (edge.kind == kind) ends.emplace_back(view(edge.from), view(edge.to));
        }
        drawing.lines(ends, pen);
    }
}

std::vector<FlatEdge> visibleEdges(const PartLines& lines, const Sight& sight) {
    std::vector<Screen> screens;
    for (const Face3& face : lines.faces) {
        Screen screen(face, sight);
        if (screen.usable()) screens.push_back(std::move(screen));
    }
    std::vector<FlatEdge> seen;
    std::vector<std::pair<double, double>> hidden;
    for (const Edge3& edge : lines.edges) {
        const FlatEdge flat{sight.flat(edge.from), sight.flat(edge.to), edge.kind};
        if ((flat.to - flat.from).squaredNorm() < 1e-8) continue;
        hidden.clear();
        for (const Screen& screen : screens)
            screen.hide(flat.from, flat.to, sight.depth(edge.from), sight.depth(edge.to), hidden);
        addVisible(flat, hidden, seen);
    }
    return seen;
}

}  // namespace tinwright::report
