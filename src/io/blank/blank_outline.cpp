// SPDX-License-Identifier: GPL-3.0-or-later
// A part keeps polygons. The corners of round cut-outs lie on their circle at equal steps, and that is found again
// here.
#include "blank/blank_outline.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/geometry/cross.h>

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
    [[nodiscard]] double partOfArc_rad(std::size_t edge, std::size_t beside, std::size_t chord) const;
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

// A round relief or notch ends where an edge cuts through its last chord: what is left of that turns from the chord
// beside it as chords do. How much of the circle it is; 0 when it is no part of it.
double RingDrawer::partOfArc_rad(std::size_t part, std::size_t at, std::size_t chord) const {
    const double turn = turnAfter(chord), left = edge(part).norm(), whole = edge(chord).norm();
    if (left >= whole || std::abs(turnAfter(at) - turn) > kSameTurn_rad) return 0;
    const double radius = whole / (2 * std::sin(0.5 * std::abs(turn)));
    // From the chord's end to a point on it, seen from the circle's centre.
    const double middle = radius * std::cos(0.5 * turn);
    const double sweep = 0.5 * std::abs(turn) - std::atan2(0.5 * whole - left, middle);
    return turn > 0 ? sweep : -sweep;
}

// A corner that is within no run: a real one, when there is one, so that no arc goes on past it.
std::size_t RingDrawer::start() const {
    for (std::size_t i = 0; i < n_; ++i) {
        if (std::abs(turnAfter(i + n_ - 1)) > kMost_rad) return i;
    }
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
    bool was_line = false;
    for (std::size_t i = 0; i < n_;) {
        const std::size_t at = first + i;
        const std::size_t chords = runFrom(at, n_ - i);
        if (!isArc(at, chords)) {
            loop.corners.push_back({ring_[at % n_], 0.0});
            was_line = true;
            ++i;
            continue;
        }
        double sweep = 0;
        for (std::size_t k = 0; k < chords; ++k) sweep += turnAfter(at + std::min(k, chords - 2));
        const double before = was_line ? partOfArc_rad(at - 1, at - 1, at) : 0;
        const double after = i + chords < n_ ? partOfArc_rad(at + chords, at + chords - 1, at) : 0;
        const double bulge = std::tan(0.25 * (before + sweep + after));
        if (before != 0)
            loop.corners.back().bulge = bulge;
        else
            loop.corners.push_back({ring_[at % n_], bulge});
        was_line = false;
        i += chords + (after != 0 ? 1 : 0);
    }
    return loop;
}

double turnAt(const Vec2& before, const Vec2& at, const Vec2& after) {
    const Vec2 a = at - before, b = after - at;
    return std::atan2(cross(a, b), a.dot(b));
}

// What is left of a chord of a round relief that has too few of them to be told from a polygon: a short edge between a
// real corner and the next chord. Without the corner between the two the outline goes less than the cutter's width off.
void dropStumps(DrawnLoop& loop) {
    constexpr double kStump_mm = 0.2;
    std::vector<DrawnCorner>& corners = loop.corners;
    for (std::size_t i = 0; i < corners.size() && corners.size() > 4;) {
        const std::size_t n = corners.size();
        const auto at = [&](std::size_t k) -> const DrawnCorner& { return corners[(i + k) % n]; };
        const double length_mm = (at(1).at - at(0).at).norm();
        if (length_mm >= kStump_mm || at(0).bulge != 0) {
            ++i;
            continue;
        }
        const double turn_before = std::abs(turnAt(at(n - 1).at, at(0).at, at(1).at));
        const double turn_after = std::abs(turnAt(at(0).at, at(1).at, at(2).at));
        const bool stump_of_next = at(1).bulge == 0 && turn_before > kMost_rad && turn_after <= kMost_rad;
        const bool stump_of_last = at(n - 1).bulge == 0 && turn_after > kMost_rad && turn_before <= kMost_rad;
        if (stump_of_next)
            corners.erase(corners.begin() + static_cast<std::ptrdiff_t>((i + 1) % n));
        else if (stump_of_last)
            corners.erase(corners.begin() + static_cast<std::ptrdiff_t>(i));
        else
            ++i;
    }
}

}  // namespace

DrawnLoop drawnLoop(const Polygon& ring) {
    DrawnLoop loop = RingDrawer(withoutIdleCorners(ring)).run();
    if (!loop.is_circle) dropStumps(loop);
    return loop;
}

}  // namespace tinwright
