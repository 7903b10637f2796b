// SPDX-License-Identifier: GPL-3.0-or-later
#include "kernel/solid.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace tinwright {

namespace {

// The half-planes of a window that a point lies outside of, by bit: of the first 64.
std::uint64_t outsideOf(const ClipWindow& window, const Vec2& p) {
    std::uint64_t outside = 0;
    for (std::size_t i = 0; i < std::min<std::size_t>(window.normals.size(), 64); ++i) {
        if (window.normals[i].dot(p) > window.offsets[i]) outside |= std::uint64_t{1} << i;
    }
    return outside;
}

// The stretch of segment a..b inside a convex window, as parameters; false when there is none.
bool clipSegment(const Vec2& a, const Vec2& b, const ClipWindow& window, double& t0, double& t1) {
    t0 = 0;
    t1 = 1;
    const Vec2 along = b - a;
    for (std::size_t i = 0; i < window.normals.size(); ++i) {
        const double speed = window.normals[i].dot(along);
        const double start = window.normals[i].dot(a) - window.offsets[i];
        if (std::abs(speed) < 1e-12) {
            if (start > 0) return false;
            continue;
        }
        const double t = -start / speed;
        (speed > 0) ? t1 = std::min(t1, t) : t0 = std::max(t0, t);
        if (t0 > t1) return false;
    }
    return true;
}

}  // namespace

PrismRings prismOf(const Polygon& polygon, double z_lo_mm, double z_hi_mm) {
    PrismRings rings;
    for (const Vec2& point : polygon) {
        rings.bottom.emplace_back(point.x(), point.y(), z_lo_mm);
        rings.top.emplace_back(point.x(), point.y(), z_hi_mm);
    }
    return rings;
}

Solid::Solid(const PrismRings& rings, const Eigen::Isometry3d& frame_from_rings) {
    corners_.reserve(rings.bottom.size() + rings.top.size());
    for (const Vec3& point : rings.bottom) corners_.push_back(frame_from_rings * point);
    for (const Vec3& point : rings.top) corners_.push_back(frame_from_rings * point);
    prepare();
}

std::vector<Solid::Face> Solid::faces() const {
    const std::size_t n = corners_.size() / 2;
    Vec3 inside = Vec3::Zero();
    for (const Vec3& corner : corners_) inside += corner / static_cast<double>(corners_.size());
    std::vector<Face> faces;
    faces.reserve(n + 2);
    const auto add = [&](const Vec3& a, const Vec3& b, const Vec3& c) {
        Vec3 normal = (b - a).cross(c - a);
        const double length = normal.norm();
        if (length < 1e-12) return;
        normal /= length;
        if (normal.dot(inside - a) > 0) normal = -normal;
        faces.push_back({normal, normal.dot(a)});
    };
    add(corners_[0], corners_[1], corners_[2]);
    add(corners_[n], corners_[n + 1], corners_[n + 2]);
    for (std::size_t i = 0; i < n; ++i) add(corners_[i], corners_[(i + 1) % n], corners_[n + i]);
    return faces;
}

std::vector<Vec3> Solid::edgeDirections() const {
    std::vector<Vec3> directions;
    const auto add = [&](const Vec3& edge) {
        const Vec3 direction = edge.normalized();
        for (const Vec3& known : directions) {
            if (direction.cross(known).squaredNorm() < 1e-18) return;
        }
        directions.push_back(direction);
    };
    const std::size_t n = corners_.size() / 2;
    add(corners_[n] - corners_[0]);
    for (std::size_t i = 0; i < n; ++i) add(corners_[(i + 1) % n] - corners_[i]);
    return directions;
}

void Solid::prepare() {
    x_lo_ = std::numeric_limits<double>::infinity();
    x_hi_ = -x_lo_;
    std::vector<Vec2> flat;
    flat.reserve(corners_.size());
    for (const Vec3& corner : corners_) {
        x_lo_ = std::min(x_lo_, corner.x());
        x_hi_ = std::max(x_hi_, corner.x());
        flat.push_back(yz(corner));
    }
    const Polygon hull = hullOf(std::move(flat));
    section_ = Convex2::ofHull(hull);
    uniform_ = std::all_of(hull.begin(), hull.end(), [&](const Vec2& point) {
        bool low = false;
        bool high = false;
        for (const Vec3& corner : corners_) {
            if ((yz(corner) - point).squaredNorm() > 1e-14) continue;
            low = low || corner.x() < x_lo_ + 1e-7;
            high = high || corner.x() > x_hi_ - 1e-7;
        }
        return low && high;
    });
}

Solid Solid::movedAlongX(double by_mm) const {
    Solid result = *this;
    for (Vec3& corner : result.corners_) corner.x() += by_mm;
    result.x_lo_ += by_mm;
    result.x_hi_ += by_mm;
    return result;
}

std::optional<std::pair<double, double>> Solid::xRangeIn(const ClipWindow& window,
                                                         const std::vector<Face>& faces) const {
    if (window.corners.empty()) return std::nullopt;
    double lo = std::numeric_limits<double>::infinity();
    double hi = -lo;
    const auto take = [&](double x) {
        lo = std::min(lo, x);
        hi = std::max(hi, x);
    };
    const std::size_t n = corners_.size() / 2;
    static thread_local std::vector<std::uint64_t> outside;  // by corner
    outside.clear();
    for (const Vec3& corner : corners_) outside.push_back(outsideOf(window, yz(corner)));
    const auto edge = [&](std::size_t i, std::size_t j) {
        if ((outside[i] & outside[j]) != 0) return;
        double t0 = 0;
        double t1 = 0;
        if (!clipSegment(yz(corners_[i]), yz(corners_[j]), window, t0, t1)) return;
        take(corners_[i].x() + t0 * (corners_[j].x() - corners_[i].x()));
        take(corners_[i].x() + t1 * (corners_[j].x() - corners_[i].x()));
    };
    for (std::size_t i = 0; i < n; ++i) {
        edge(i, (i + 1) % n);
        edge(n + i, n + (i + 1) % n);
        edge(i, n + i);
    }
    for (const Vec2& point : window.corners) {  // lines along x through the window's corners
        if (lo <= x_lo_ && hi >= x_hi_) break;
        double from = x_lo_;
        double to = x_hi_;
        for (const Face& face : faces) {
            const double rest = face.offset - face.normal.y() * point.x() - face.normal.z() * point.y();
            if (std::abs(face.normal.x()) < 1e-12) {
                if (rest < -1e-9) from = to + 1;
            } else if (face.normal.x() > 0) {
                to = std::min(to, rest / face.normal.x());
            } else {
                from = std::max(from, rest / face.normal.x());
            }
        }
        if (from <= to) take(from), take(to);
    }
    if (lo > hi) return std::nullopt;
    return std::pair(lo, hi);
}

}  // namespace tinwright
