// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/flat/stretch.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include <tinwright/part/flat/flat_blank.h>

namespace tinwright {

namespace {

constexpr double kStretchParallel = 1e-6;
// The line keeps this far from corners: what is at its foot must not be told from it by rounding.
constexpr double kOffCorner_mm = 0.01;

Vec2 outward(const Bend& bend, PanelId panel) {
    return bend.parent == panel ? bend.toward_child : Vec2(-bend.toward_child);
}

struct Stretch {
    Vec2 way;            // from the first bend to the second
    double from_mm = 0;  // the panel's own stretch along it
    double to_mm = 0;
};

Stretch stretchOf(const Part& part, const StretchSpan& span) {
    const Bend& a = part.bend(span.from);
    const Bend& b = part.bend(span.to);
    const Vec2 way = outward(b, span.panel);
    return {way, a.origin.dot(way) + 0.5 * a.allowance_mm, b.origin.dot(way) - 0.5 * b.allowance_mm};
}

// Stretches along the way that the line must not stand in: edges that are not square to it would be bent.
std::vector<std::pair<double, double>> barred(const Region& sheet, const Vec2& way) {
    std::vector<std::pair<double, double>> result;
    const auto take = [&](const Polygon& ring, bool is_hole) {
        double lo = ring.front().dot(way);
        double hi = lo;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Vec2& p = ring[i];
            const Vec2& q = ring[(i + 1) % ring.size()];
            lo = std::min(lo, p.dot(way));
            hi = std::max(hi, p.dot(way));
            const Vec2 edge = q - p;
            const bool along = std::abs(edge.x() * way.y() - edge.y() * way.x()) < kStretchParallel * edge.norm();
            if (!is_hole && !along)
                result.emplace_back(std::min(p.dot(way), q.dot(way)) - kOffCorner_mm,
                                    std::max(p.dot(way), q.dot(way)) + kOffCorner_mm);
        }
        if (is_hole)
            result.emplace_back(lo - kOffCorner_mm, hi + kOffCorner_mm);  // a window that grows is another change
    };
    take(sheet.outline, false);
    for (const Polygon& hole : sheet.holes) take(hole, true);
    std::sort(result.begin(), result.end());
    return result;
}

// Bends across the way that are not parallel to it are as good as slanted edges.
void barBends(const Part& part, const Vec2& way, std::vector<std::pair<double, double>>& bars) {
    for (const Bend& bend : part.bends) {
        if (std::abs(bend.toward_child.dot(way)) < kStretchParallel) continue;
        const double at = bend.origin.dot(way);
        double reach = 0.5 * bend.allowance_mm + kOffCorner_mm;
        for (const StripSpan& span : bend.spans)
            reach += std::abs(bend.along.dot(way)) * std::max(std::abs(span.from_mm), std::abs(span.to_mm));
        bars.emplace_back(at - reach, at + reach);
    }
    std::sort(bars.begin(), bars.end());
}

std::optional<double> lineAt(const Part& part, const Stretch& stretch) {
    std::vector<std::pair<double, double>> bars = barred(part.blank, stretch.way);
    barBends(part, stretch.way, bars);
    const double middle = 0.5 * (stretch.from_mm + stretch.to_mm);
    std::optional<double> best;
    const auto take = [&](double lo, double hi) {
        if (hi - lo < 2 * kOffCorner_mm) return;
        const double at = std::clamp(middle, lo + kOffCorner_mm, hi - kOffCorner_mm);
        if (!best || std::abs(at - middle) < std::abs(*best - middle)) best = at;
    };
    double from = stretch.from_mm;
    for (const auto& [lo, hi] : bars) {
        if (lo > from) take(from, std::min(lo, stretch.to_mm));
        from = std::max(from, hi);
        if (from >= stretch.to_mm) break;
    }
    if (from < stretch.to_mm) take(from, stretch.to_mm);
    return best;
}

// A bend as a joint of the moved blank; joints point right, or straight up.
template <class Moved>
FlatJoint jointOf(const Bend& bend, Moved moved) {
    const bool turned =
        bend.along.x() < -kStretchParallel || (std::abs(bend.along.x()) <= kStretchParallel && bend.along.y() < 0);
    const Vec2 along = turned ? Vec2(-bend.along) : bend.along;
    std::vector<std::pair<Vec2, Vec2>> stretches;
    for (const StripSpan& span : bend.spans) {
        const Vec2 from = moved(bend.origin + span.from_mm * bend.along);
        const Vec2 to = moved(bend.origin + span.to_mm * bend.along);
        turned ? stretches.emplace_back(to, from) : stretches.emplace_back(from, to);
    }
    if (turned) std::reverse(stretches.begin(), stretches.end());
    FlatJoint joint{stretches.front().first, along, {}, ""};
    for (const auto& [from, to] : stretches)
        joint.spans.push_back({(from - joint.origin).dot(along), (to - joint.origin).dot(along)});
    return joint;
}

}  // namespace

std::vector<StretchSpan> stretchSpans(const Part& part) {
    std::vector<StretchSpan> spans;
    for (std::size_t p = 0; p < part.panels.size(); ++p) {
        const auto panel = idAt<PanelId>(p);
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            for (std::size_t k = i + 1; k < part.bends.size(); ++k) {
                const Bend& a = part.bends[i];
                const Bend& b = part.bends[k];
                if ((a.parent != panel && a.child != panel) || (b.parent != panel && b.child != panel)) continue;
                const Vec2 way = outward(b, panel);
                const double lines_mm = (b.origin - a.origin).dot(way);
                if ((outward(a, panel) + way).norm() > kStretchParallel || lines_mm <= 0) continue;
                spans.push_back({panel, idAt<BendId>(i), idAt<BendId>(k), lines_mm});
            }
        }
    }
    return spans;
}

Result<Part> stretched(const Part& part, const StretchSpan& span, double by_mm) {
    const Stretch stretch = stretchOf(part, span);
    const std::optional<double> line = lineAt(part, stretch);
    if (!line) {
        return Issue{"stretch.no-place",
                     "",
                     "",
                     fmt::format("cut-outs or slanted edges all the way between {} and {}", part.bend(span.from).name,
                                 part.bend(span.to).name),
                     "a place across the panel where only edges square to the bends are cut",
                     "change the drawing by hand"};
    }
    const auto moved = [&](const Vec2& p) { return p.dot(stretch.way) > *line ? Vec2(p + by_mm * stretch.way) : p; };
    Region sheet = part.blank;
    for (Vec2& p : sheet.outline) p = moved(p);
    for (Polygon& hole : sheet.holes) {
        for (Vec2& p : hole) p = moved(p);
    }
    std::vector<FlatJoint> joints;
    std::vector<FlatBend> bends;
    for (const Bend& bend : part.bends) {
        joints.push_back(jointOf(bend, moved));
        bends.push_back({bend.name, bend.angle, bend.up, bend.inside_radius_mm, bend.allowance_mm, bend.rule,
                         bend.rule_value, bend.rule_source});
    }
    FlatPart whole{part.name,    part.material, part.thickness_mm, part.panels[0].name,
                   std::nullopt, part.warnings, part.grain_deg,    part.film};
    const Polygon base = convexPieces(part.panels[0].region).front();
    whole.base_at = moved((base[0] + base[1] + base[2]) / 3);
    return partFromFlat(sheet, joints, bends, whole);
}

}  // namespace tinwright
