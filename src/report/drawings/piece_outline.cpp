// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawings/piece_outline.h"

#include <algorithm>
#include <cmath>

#include "paper/paper_view.h"

namespace tinwright::report {
namespace {

constexpr double kTouching_mm = 1e-4;
constexpr double kShortEdge = 1e-6;  // of an edge's length

using Stretch = std::pair<double, double>;

/// Keeps of `stretch` where a linear function with these end values is over -kTouching_mm.
bool narrow(double at_from, double at_to, Stretch& stretch) {
    const double a = at_from + kTouching_mm;
    const double b = at_to + kTouching_mm;
    if (a <= 0 && b <= 0) return false;
    if (a < 0) stretch.first = std::max(stretch.first, a / (a - b));
    if (b < 0) stretch.second = std::min(stretch.second, a / (a - b));
    return stretch.first < stretch.second;
}

/// The stretch of an edge that a piece covers. `yields`: where the edge runs along the piece's own border in the same
/// sense, the piece does not count as covering it.
bool covered(const Vec2& from, const Vec2& to, const Polygon& piece, bool yields, Stretch& stretch) {
    stretch = {0, 1};
    for (std::size_t i = 0; i < piece.size(); ++i) {
        const Vec2& a = piece[i];
        const Vec2 d = piece[(i + 1) % piece.size()] - a;
        const double length = d.norm();
        if (length < 1e-9) continue;
        const auto inside = [&](const Vec2& p) { return (d.x() * (p.y() - a.y()) - d.y() * (p.x() - a.x())) / length; };
        const double at_from = inside(from);
        const double at_to = inside(to);
        const bool along = std::abs(at_from) < kTouching_mm && std::abs(at_to) < kTouching_mm;
        if (along && yields && d.dot(to - from) > 0) return false;
        if (!narrow(at_from, at_to, stretch)) return false;
    }
    return true;
}

bool apart(const Box& box, const Vec2& from, const Vec2& to) {
    return std::max(from.x(), to.x()) < box.least.x() - kTouching_mm ||
           std::min(from.x(), to.x()) > box.most.x() + kTouching_mm ||
           std::max(from.y(), to.y()) < box.least.y() - kTouching_mm ||
           std::min(from.y(), to.y()) > box.most.y() + kTouching_mm;
}

void keepOpen(const Vec2& from, const Vec2& to, std::vector<Stretch>& hidden,
              std::vector<std::pair<Vec2, Vec2>>& border) {
    std::sort(hidden.begin(), hidden.end());
    double at = 0;
    const auto keep = [&](double until) {
        if ((until - at) * (to - from).norm() > 3 * kTouching_mm && until - at > kShortEdge)
            border.emplace_back(from + at * (to - from), from + until * (to - from));
    };
    for (const auto& [enter, leave] : hidden) {
        keep(enter);
        at = std::max(at, leave);
    }
    keep(1);
}

}  // namespace

PieceOutline outlineOf(std::vector<Polygon> pieces) {
    PieceOutline outline{std::move(pieces), {}};
    std::vector<Box> boxes;
    for (const Polygon& piece : outline.pieces) boxes.push_back(boxAround(piece));
    std::vector<Stretch> hidden;
    for (std::size_t i = 0; i < outline.pieces.size(); ++i) {
        const Polygon& piece = outline.pieces[i];
        for (std::size_t k = 0; k < piece.size(); ++k) {
            const Vec2& from = piece[k];
            const Vec2& to = piece[(k + 1) % piece.size()];
            hidden.clear();
            for (std::size_t j = 0; j < outline.pieces.size(); ++j) {
                Stretch stretch;
                if (j == i || apart(boxes[j], from, to)) continue;
                if (covered(from, to, outline.pieces[j], j > i, stretch)) hidden.push_back(stretch);
            }
            keepOpen(from, to, hidden, outline.border);
        }
    }
    return outline;
}

}  // namespace tinwright::report
