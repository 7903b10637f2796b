// SPDX-License-Identifier: GPL-3.0-or-later
// From loose curves to closed loops.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "dxf/dxf_loops.h"
#include "entities/dxf_limits.h"
#include "entities/dxf_points.h"

namespace tinwright {

namespace {

constexpr std::size_t kMostChainIssues = 20;

/// A stretch of a curve between two numbered points.
struct Piece {
    std::size_t ends[2] = {0, 0};
    std::vector<Vec2> points;
    bool straight = true;
    std::size_t line = 0;
    bool dropped = false;

    [[nodiscard]] double length_mm() const {
        double sum = 0;
        for (std::size_t i = 0; i + 1 < points.size(); ++i) sum += (points[i + 1] - points[i]).norm();
        return sum;
    }
};

Vec2 middleOf(const Piece& piece) {
    const std::size_t half = piece.points.size() / 2;
    return piece.points.size() % 2 == 1 ? piece.points[half]
                                        : Vec2(0.5 * (piece.points[half - 1] + piece.points[half]));
}

class Chainer {
public:
    Chainer(double gap_mm, const std::string& file) : gap_mm_(gap_mm), file_(file) {}
    Result<DxfLoops> run(const std::vector<DxfCurve>& curves);

private:
    void addPieces(const std::vector<DxfCurve>& curves);
    void addStretch(const DxfCurve& curve, std::size_t from, std::size_t to);
    void dropDoubles();
    void trimEnds();
    void closeGaps();
    using Meeting = std::vector<std::vector<std::size_t>>;  // pieces by the number of a point where they end
    [[nodiscard]] Meeting piecesAt() const;
    Vec2& endAt(const Meeting& at, std::size_t point);
    void join(const Meeting& at, std::size_t a, std::size_t b);
    void checkEnds();
    void trace();
    void dropDoubledLoops();

    double gap_mm_;
    const std::string& file_;
    DxfPoints points_;
    std::vector<Piece> pieces_;
    DxfLoops out_;
    Issues issues_;
};

void Chainer::addStretch(const DxfCurve& curve, std::size_t from, std::size_t to) {
    if (from != to) pieces_.push_back({{from, to}, {points_.at(from), points_.at(to)}, true, curve.tag.line, false});
}

void Chainer::addPieces(const std::vector<DxfCurve>& curves) {
    for (const DxfCurve& curve : curves) {
        if (curve.closed()) continue;
        points_.numberOf(curve.points.front());
        points_.numberOf(curve.points.back());
    }
    points_.sort();
    for (const DxfCurve& curve : curves) {
        if (curve.closed()) {
            out_.loops.push_back({curve.points.begin(), curve.points.end() - 1});
            continue;
        }
        const std::size_t from = points_.numberOf(curve.points.front()), to = points_.numberOf(curve.points.back());
        if (!curve.straight) {
            // A bow whose ends are one point within the tolerance is a loop of its own; so short a one is nothing.
            if (from == to && curve.points.size() > 3)
                out_.loops.push_back({curve.points.begin(), curve.points.end() - 1});
            else if (from != to)
                pieces_.push_back({{from, to}, curve.points, false, curve.tag.line, false});
            continue;
        }
        std::size_t at = from;
        for (const std::size_t next : points_.within(curve.points.front(), curve.points.back())) {
            addStretch(curve, at, next);
            at = next;
        }
        addStretch(curve, at, to);
    }
}

void Chainer::dropDoubles() {
    std::map<std::pair<std::size_t, std::size_t>, std::vector<const Piece*>> known;
    for (Piece& piece : pieces_) {
        auto& same_ends = known[std::minmax(piece.ends[0], piece.ends[1])];
        piece.dropped = std::any_of(same_ends.begin(), same_ends.end(), [&](const Piece* other) {
            return (middleOf(*other) - middleOf(piece)).norm() < kDxfChord_mm;
        });
        if (piece.dropped)
            ++out_.doubled;
        else
            same_ends.push_back(&piece);
    }
}

Chainer::Meeting Chainer::piecesAt() const {
    Meeting at(points_.size());
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
        if (pieces_[i].dropped) continue;
        at[pieces_[i].ends[0]].push_back(i);
        at[pieces_[i].ends[1]].push_back(i);
    }
    return at;
}

// What sticks out past a corner by less than a gap.
void Chainer::trimEnds() {
    const auto at = piecesAt();
    for (Piece& piece : pieces_) {
        if (piece.dropped || piece.length_mm() > gap_mm_) continue;
        const std::size_t a = at[piece.ends[0]].size(), b = at[piece.ends[1]].size();
        if (std::min(a, b) != 1 || std::max(a, b) != 3) continue;
        piece.dropped = true;
        ++out_.trimmed;
    }
}

// The end of the one piece that ends at a point.
Vec2& Chainer::endAt(const Meeting& at, std::size_t point) {
    Piece& piece = pieces_[at[point].front()];
    return piece.ends[0] == point ? piece.points.front() : piece.points.back();
}

// Two straight ends meet where their lines cross, when that is near; other ends are joined by a short line.
void Chainer::join(const Meeting& at, std::size_t a, std::size_t b) {
    const Piece& p = pieces_[at[a].front()];
    const Piece& q = pieces_[at[b].front()];
    const Vec2 from = points_.at(a), to = points_.at(b);
    out_.closed_gaps_mm.push_back((to - from).norm());
    if (p.straight && q.straight && &p != &q) {
        const Vec2 dp = p.points.back() - p.points.front(), dq = q.points.back() - q.points.front();
        const double sine = dp.x() * dq.y() - dp.y() * dq.x();
        if (std::abs(sine) > 0.1 * dp.norm() * dq.norm()) {
            const Vec2 r = q.points.front() - p.points.front();
            const Vec2 meet = p.points.front() + (r.x() * dq.y() - r.y() * dq.x()) / sine * dp;
            if ((meet - from).norm() <= 2 * gap_mm_ && (meet - to).norm() <= 2 * gap_mm_)
                endAt(at, a) = endAt(at, b) = meet;
        }
    }
    const Piece bridge{{a, b}, {endAt(at, a), endAt(at, b)}, true, p.line, false};
    pieces_.push_back(bridge);
}

void Chainer::closeGaps() {
    const auto at = piecesAt();
    std::vector<std::size_t> loose;
    for (std::size_t i = 0; i < at.size(); ++i) {
        if (at[i].size() == 1) loose.push_back(i);
    }
    std::sort(loose.begin(), loose.end(),
              [&](std::size_t a, std::size_t b) { return points_.at(a).x() < points_.at(b).x(); });
    std::vector<std::tuple<double, std::size_t, std::size_t>> pairs;
    for (std::size_t i = 0; i < loose.size(); ++i) {
        for (std::size_t j = i + 1; j < loose.size() && points_.at(loose[j]).x() - points_.at(loose[i]).x() <= gap_mm_;
             ++j) {
            const double gap = (points_.at(loose[i]) - points_.at(loose[j])).norm();
            if (gap <= gap_mm_) pairs.push_back({gap, loose[i], loose[j]});
        }
    }
    std::sort(pairs.begin(), pairs.end());
    std::set<std::size_t> done;
    for (const auto& [gap, a, b] : pairs) {
        if (done.contains(a) || done.contains(b)) continue;
        done.insert({a, b});
        join(at, a, b);
    }
}

void Chainer::checkEnds() {
    const auto at = piecesAt();
    for (std::size_t i = 0; i < at.size() && issues_.size() < kMostChainIssues; ++i) {
        if (at[i].empty() || at[i].size() == 2) continue;
        const Vec2& p = points_.at(i);
        const std::string place =
            fmt::format("line {}, at ({:.3f}, {:.3f}) mm", pieces_[at[i].front()].line, p.x(), p.y());
        if (at[i].size() == 1) {
            double nearest = 1e300;
            for (std::size_t j = 0; j < at.size(); ++j) {
                if (j != i && at[j].size() == 1) nearest = std::min(nearest, (points_.at(j) - p).norm());
            }
            issues_.push_back(
                {"dxf.open", file_, place,
                 nearest < 1e300
                     ? fmt::format("a cut line that ends here, {:.3f} mm from the nearest other loose end", nearest)
                     : "a cut line that ends here",
                 fmt::format("closed outlines, with gaps of at most {} mm", gap_mm_),
                 "close it, or name the layer of lines that are not cut"});
        } else {
            issues_.push_back({"dxf.branch", file_, place, fmt::format("{} cut lines that meet here", at[i].size()),
                               "two: outlines that do not touch one another",
                               "are there bend lines among the cut lines? Name their layer"});
        }
    }
}

void Chainer::trace() {
    const auto at = piecesAt();
    std::vector<bool> used(pieces_.size(), false);
    for (std::size_t start = 0; start < pieces_.size(); ++start) {
        if (used[start] || pieces_[start].dropped) continue;
        Polygon loop;
        std::size_t piece = start, from = pieces_[start].ends[0];
        while (!used[piece]) {
            used[piece] = true;
            const Piece& p = pieces_[piece];
            std::vector<Vec2> run = p.points;
            const bool backwards = p.ends[0] != from;
            if (backwards) std::reverse(run.begin(), run.end());
            loop.insert(loop.end(), run.begin(), run.end() - 1);
            from = backwards ? p.ends[0] : p.ends[1];
            piece = at[from][0] == piece ? at[from][1] : at[from][0];
        }
        out_.loops.push_back(std::move(loop));
    }
}

struct LoopKey {
    double area;
    Vec2 low, high;
};

LoopKey keyOf(const Polygon& loop) {
    LoopKey key{signedArea_mm2(loop), loop.front(), loop.front()};
    for (const Vec2& p : loop) {
        key.low = key.low.cwiseMin(p);
        key.high = key.high.cwiseMax(p);
    }
    return key;
}

bool isSame(const LoopKey& a, const LoopKey& b) {
    return (a.low - b.low).norm() < kDxfChord_mm && (a.high - b.high).norm() < kDxfChord_mm &&
           std::abs(a.area - b.area) < kDxfChord_mm * (b.high - b.low).lpNorm<1>();
}

// Whole loops drawn twice, as a circle is, or a circle once as two halves.
void Chainer::dropDoubledLoops() {
    std::vector<std::pair<LoopKey, std::size_t>> sorted;
    for (std::size_t i = 0; i < out_.loops.size(); ++i) sorted.push_back({keyOf(out_.loops[i]), i});
    std::sort(sorted.begin(), sorted.end(), [&](const auto& a, const auto& b) {
        const LoopKey& p = a.first;
        const LoopKey& q = b.first;
        return std::tuple(p.low.x(), p.low.y(), p.area, out_.loops[a.second].size()) <
               std::tuple(q.low.x(), q.low.y(), q.area, out_.loops[b.second].size());
    });
    std::vector<Polygon> kept;
    std::vector<LoopKey> keys;
    for (const auto& [key, loop] : sorted) {
        bool doubled = false;
        for (std::size_t i = keys.size(); i-- > 0 && key.low.x() - keys[i].low.x() < kDxfChord_mm && !doubled;)
            doubled = isSame(keys[i], key);
        if (doubled) {
            ++out_.doubled;
            continue;
        }
        keys.push_back(key);
        kept.push_back(std::move(out_.loops[loop]));
    }
    out_.loops = std::move(kept);
}

Result<DxfLoops> Chainer::run(const std::vector<DxfCurve>& curves) {
    addPieces(curves);
    dropDoubles();
    trimEnds();
    closeGaps();
    checkEnds();
    if (!issues_.empty()) return std::move(issues_);
    trace();
    for (Polygon& loop : out_.loops) {
        loop.erase(std::unique(loop.begin(), loop.end()), loop.end());
        while (loop.size() > 1 && loop.front() == loop.back()) loop.pop_back();
        if (signedArea_mm2(loop) < 0) std::reverse(loop.begin(), loop.end());
    }
    out_.loops.erase(
        std::remove_if(out_.loops.begin(), out_.loops.end(), [](const Polygon& loop) { return loop.size() < 3; }),
        out_.loops.end());
    dropDoubledLoops();
    return std::move(out_);
}

}  // namespace

Result<DxfLoops> chainLoops(const std::vector<DxfCurve>& curves, double gap_mm, const std::string& file) {
    return Chainer(gap_mm, file).run(curves);
}

}  // namespace tinwright
