// SPDX-License-Identifier: GPL-3.0-or-later
// A part keeps polygons. The corners of round cut-outs lie on their circle at equal steps, and that is found again
// here.
#include "blank/blank_outline.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tinwright {

namespace {

// Blanks lie on a grid of 1e-7 mm, drawings read on one of 1e-6 mm.
constexpr double kSameCorner_mm = 1e-5;
constexpr double kSameTurn_rad = 5e-5;
// The chord error of round cut-outs; their largest ones have 36 chords a half circle, whatever the error.
constexpr double kChord_mm = 0.021;
constexpr double kFewest_rad = std::numbers::pi / 36;
// Their smallest ones have 8.
constexpr double kMost_rad = std::numbers::pi / 8 + kSameTurn_rad;
constexpr std::size_t kLeastChords = 4;
constexpr double kIdle_mm = 1e-6;

// Panels and strips meet at corners of the blank that turn nothing.
Polygon withoutIdleCorners(const Polygon& ring) {
    Polygon kept;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 before = ring[i] - (kept.empty() ? ring.back() : kept.back()),
                   after = ring[(i + 1) % ring.size()] - ring[i];
        const double off = std::abs(before.x() * after.y() - before.y() * after.x()) / (before + after).norm();
        if (!(off < kIdle_mm)) kept.push_back(ring[i]);
    }
    return kept.size() < 3 ? ring : kept;
}

class RingDrawer {
public:
    explicit RingDrawer(Polygon ring) : ring_(std::move(ring)), n_(ring_.size()) {}
    DrawnLoop run();

private:
    [[nodiscard]] Vec2 edge(std::size_t i) const { return ring_[(i + 1) % n_] - ring_[i % n_]; }
    [[nodiscard]] double turnAfter(std::size_t i) const {
        const Vec2 a = edge(i), b = edge(i + 1);
        return std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b));
    }
    [[nodiscard]] bool isAlike(std::size_t i, std::size_t first, double turn) const {
        return std::abs(edge(i).norm() - edge(first).norm()) < kSameCorner_mm &&
               std::abs(turnAfter(i - 1) - turn) < kSameTurn_rad;
    }
    [[nodiscard]] std::size_t runFrom(std::size_t first, std::size_t most) const;
    [[nodiscard]] bool isArc(std::size_t first, std::size_t chords) const;
    [[nodiscard]] std::size_t start() const;

    Polygon ring_;
    std::size_t n_;
};

// Chords from `first` on that are as long as it and turn alike.
std::size_t RingDrawer::runFrom(std::size_t first, std::size_t most) const {
    const double turn = turnAfter(first);
    std::size_t chords = 1;
    while (chords < most && isAlike(first + chords, first, turn)) ++chords;
    return chords;
}

bool RingDrawer::isArc(std::size_t first, std::size_t chords) const {
    const double turn = std::abs(turnAfter(first));
    if (chords < kLeastChords || turn > kMost_rad || turn < kSameTurn_rad) return false;
    const double radius = edge(first).norm() / (2 * std::sin(0.5 * turn));
    return radius * (1 - std::cos(0.5 * turn)) < kChord_mm || std::abs(turn - kFewest_rad) < kSameTurn_rad;
}

// A corner that is within no run.
std::size_t RingDrawer::start() const {
    for (std::size_t i = 0; i < n_; ++i) {
        if (std::abs(edge(i + n_ - 1).norm() - edge(i).norm()) >= kSameCorner_mm) return i;
    }
    return 0;
}

DrawnLoop RingDrawer::run() {
    DrawnLoop loop;
    if (n_ >= 4 * kLeastChords && runFrom(0, n_) == n_ && isArc(0, n_)) {
        loop.is_circle = true;
        for (const Vec2& point : ring_) loop.centre += point / static_cast<double>(n_);
        for (const Vec2& point : ring_) loop.radius_mm += (point - loop.centre).norm() / static_cast<double>(n_);
        return loop;
    }
    const std::size_t first = start();
    for (std::size_t i = 0; i < n_;) {
        const std::size_t at = first + i;
        const std::size_t chords = runFrom(at, n_ - i);
        const bool arc = isArc(at, chords);
        double sweep = 0;
        for (std::size_t k = 0; arc && k < chords; ++k) sweep += turnAfter(at + std::min(k, chords - 2));
        loop.corners.push_back({ring_[at % n_], arc ? std::tan(0.25 * sweep) : 0.0});
        i += arc ? chords : 1;
    }
    return loop;
}

}  // namespace

DrawnLoop drawnLoop(const Polygon& ring) { return RingDrawer(withoutIdleCorners(ring)).run(); }

}  // namespace tinwright
