// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/edges/split.h>

#include <algorithm>
#include <cmath>

namespace tinwright {

namespace {

constexpr double kSplitParallel = 1e-6;
constexpr double kLeastPanel_mm2 = 1;
constexpr double kLeastStrip_mm = 1;
constexpr double kBeyond_mm = 1e5;

// The panels on the child's side of a bend.
std::vector<bool> beyond(const Part& part, BendId bend) {
    std::vector<bool> result(part.panels.size(), false);
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        result[part.bends[i].child.index()] = i == bend.index() || result[part.bends[i].parent.index()];
    }
    return result;
}

std::vector<Region> stripOf(const Bend& bend) {
    std::vector<Region> regions;
    const Vec2 half = 0.5 * bend.allowance_mm * bend.toward_child;
    for (const StripSpan& span : bend.spans) {
        const Vec2 a = bend.origin + span.from_mm * bend.along;
        const Vec2 b = bend.origin + span.to_mm * bend.along;
        Polygon outline{a - half, b - half, b + half, a + half};
        if (signedArea_mm2(outline) < 0) std::reverse(outline.begin(), outline.end());
        regions.push_back({outline, {}});
    }
    return regions;
}

// The sheet as cut is what its panels and strips cover together.
void findBlank(Part& part) {
    std::vector<Region> all;
    for (const Panel& panel : part.panels) all.push_back(panel.region);
    for (const Bend& bend : part.bends) {
        for (Region& strip : stripOf(bend)) all.push_back(std::move(strip));
    }
    std::vector<Region> united = unite(all);
    if (united.size() == 1) part.blank = std::move(united.front());
}

Part takenOut(const Part& part, const std::vector<bool>& takes, std::vector<BendId>& bends) {
    Part result = part;
    result.panels.clear();
    result.bends.clear();
    result.edges.clear();
    result.cut_outs.clear();
    std::vector<PanelId> now(part.panels.size());
    // The child of a bend comes with its bend, so that bend i joins panel i + 1 as everywhere.
    for (std::size_t i = 0; i < part.panels.size(); ++i) {
        if (!takes[i]) continue;
        now[i] = idAt<PanelId>(result.panels.size());
        result.panels.push_back(part.panels[i]);
    }
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        if (!takes[bend.parent.index()] || !takes[bend.child.index()]) continue;
        result.bends.push_back(bend);
        result.bends.back().parent = now[bend.parent.index()];
        result.bends.back().child = now[bend.child.index()];
        bends.push_back(idAt<BendId>(i));
    }
    for (const NamedEdge& edge : part.edges) {
        if (!takes[edge.panel.index()]) continue;
        result.edges.push_back(edge);
        result.edges.back().panel = now[edge.panel.index()];
    }
    for (const NamedCutOut& cut_out : part.cut_outs) {
        if (!takes[cut_out.panel.index()]) continue;
        result.cut_outs.push_back(cut_out);
        result.cut_outs.back().panel = now[cut_out.panel.index()];
    }
    return result;
}

// What lies on the kept side of the cut.
struct Cut {
    Vec2 at;
    Vec2 keep;  // unit vector, square to the cut
    [[nodiscard]] double depth_mm(const Vec2& p) const { return (p - at).dot(keep); }
    [[nodiscard]] Polygon window() const {
        const Vec2 side(-keep.y(), keep.x());
        const Vec2 a = at - kBeyond_mm * side;
        const Vec2 b = at + kBeyond_mm * side;
        return {a, a + kBeyond_mm * keep, b + kBeyond_mm * keep, b};
    }
};

bool cutPanel(Panel& panel, const Cut& cut, bool& changed) {
    const Polygon& outline = panel.region.outline;
    if (std::all_of(outline.begin(), outline.end(), [&](const Vec2& p) { return cut.depth_mm(p) >= 0; })) return true;
    Polygon window = cut.window();
    if (signedArea_mm2(window) < 0) std::reverse(window.begin(), window.end());
    std::vector<Region> left = intersection(panel.region, window);
    if (left.size() != 1 || area_mm2(left.front()) < kLeastPanel_mm2) return false;
    panel.region = std::move(left.front());
    changed = true;
    return true;
}

bool cutBend(Bend& bend, const Cut& cut) {
    const double slope = bend.along.dot(cut.keep);
    std::vector<StripSpan> spans;
    for (StripSpan span : bend.spans) {
        const double from_mm = cut.depth_mm(bend.origin + span.from_mm * bend.along);
        const double to_mm = cut.depth_mm(bend.origin + span.to_mm * bend.along);
        if (from_mm >= 0 && to_mm >= 0) {
            spans.push_back(span);
            continue;
        }
        if (std::abs(std::abs(slope) - 1) > kSplitParallel) return false;
        if (from_mm < 0 && to_mm < 0) continue;
        (from_mm < 0 ? span.from_mm : span.to_mm) -= (from_mm < 0 ? from_mm : to_mm) / slope;
        if (span.length_mm() >= kLeastStrip_mm) spans.push_back(span);
    }
    bend.spans = std::move(spans);
    return !bend.spans.empty();
}

// Into the flange from an end of its bend, along the bend.
Vec2 inwards(const Bend& bend, SpanEnd end) { return end == SpanEnd::kFrom ? bend.along : Vec2(-bend.along); }

// On the bend line, beside where the flange ends: it may run on past the end of its strip.
Vec2 endOfFlange(const Part& part, const Bend& bend, SpanEnd end) {
    const Vec2 keep = inwards(bend, end);
    const double strip_mm = end == SpanEnd::kFrom ? bend.spans.front().from_mm : bend.spans.back().to_mm;
    double first_mm = (bend.origin + strip_mm * bend.along).dot(keep);
    for (const Vec2& corner : part.panel(bend.child).region.outline) first_mm = std::min(first_mm, corner.dot(keep));
    return bend.origin + (first_mm - bend.origin.dot(keep)) * keep;
}

std::optional<Part> cutOff(const Part& part, BendId bend, const Cut& cut) {
    const std::vector<bool> cuts = beyond(part, bend);
    Part result = part;
    bool changed = false;
    for (std::size_t i = 0; i < part.panels.size(); ++i) {
        if (cuts[i] && !cutPanel(result.panels[i], cut, changed)) return std::nullopt;
    }
    for (Bend& one : result.bends) {
        if (cuts[one.child.index()] && !cutBend(one, cut)) return std::nullopt;
    }
    if (!changed) return std::nullopt;
    std::erase_if(result.edges, [&](const NamedEdge& edge) {
        return cuts[edge.panel.index()] && (cut.depth_mm(edge.from) < 0 || cut.depth_mm(edge.to) < 0);
    });
    findBlank(result);
    return result;
}

}  // namespace

SplitPart splitAt(const Part& part, BendId bend) {
    std::vector<bool> takes = beyond(part, bend);
    SplitPart split;
    split.piece = takenOut(part, takes, split.piece_bends);
    takes.flip();
    Part whole = part;
    std::vector<Region> joined = stripOf(part.bend(bend));
    joined.push_back(part.panel(part.bend(bend).parent).region);
    joined = unite(joined);
    if (joined.size() == 1) whole.panels[part.bend(bend).parent.index()].region = std::move(joined.front());
    split.rest = takenOut(whole, takes, split.rest_bends);
    findBlank(split.piece);
    findBlank(split.rest);
    return split;
}

std::optional<Part> withEndCutBack(const Part& part, BendId bend, SpanEnd end, double by_mm) {
    const Vec2 keep = inwards(part.bend(bend), end);
    return cutOff(part, bend, {endOfFlange(part, part.bend(bend), end) + by_mm * keep, keep});
}

std::optional<Part> withEndSlanted(const Part& part, BendId bend, SpanEnd end, Angle slant) {
    const Bend& line = part.bend(bend);
    const SinCos turn = sinCos(slant);
    const Vec2 starts = endOfFlange(part, line, end) + 0.5 * line.allowance_mm * line.toward_child;
    return cutOff(part, bend, {starts, turn.cos * inwards(line, end) - turn.sin * line.toward_child});
}

}  // namespace tinwright
