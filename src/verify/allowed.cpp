// SPDX-License-Identifier: GPL-3.0-or-later
#include "allowed.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace tinwright::replay {

namespace {

constexpr double kSame_mm = 1e-3;  // plans place bars in whole micrometres

double overlap(const Span& span, double from, double to) {
    return std::max(0.0, std::min(span.hi_mm, to) - std::max(span.lo_mm, from));
}

// Gaps of one span: before the first bar over it, between bars, after the last. Returns what is covered.
double checkSpan(const Scene& scene, const Span& span, const std::string& name, const Limits& limits,
                 std::vector<std::string>& wrong) {
    double covered = 0;
    double reached = span.lo_mm;
    bool at_end = true;  // nothing covered yet
    const auto gap = [&](double upto, bool end) {
        const double open = upto - reached;
        const double allowed = end ? limits.uncovered_end_mm : limits.bar_gap_mm;
        if (open > allowed + kSame_mm) {
            wrong.push_back(fmt::format("bend {} is open for {:.3f} mm {}, {:.3f} mm are allowed", name, open,
                                        end ? "at an end" : "between two bars", allowed));
        }
    };
    for (const PlacedBar& bar : scene.step->bars) {
        if (overlap(span, bar.from_mm, bar.to_mm) <= 0) continue;
        covered += overlap(span, std::max(bar.from_mm, reached), bar.to_mm);
        if (bar.from_mm > reached) gap(bar.from_mm, at_end);
        at_end = false;
        reached = std::max(reached, bar.to_mm);
    }
    if (reached < span.hi_mm) gap(span.hi_mm, true);
    return covered;
}

void checkCover(const Scene& scene, const Part& part, const Limits& limits, std::vector<std::string>& wrong) {
    double covered = 0;
    double length = 0;
    for (const Span& span : scene.setting.spans) {
        covered += checkSpan(scene, span, part.bend(span.bend).name, limits, wrong);
        length += span.hi_mm - span.lo_mm;
    }
    const double share = length > 0 ? covered / length : 0;
    if (scene.step->covered_share > share + 1e-3) {  // less may be told: bars over a notch clamp nothing
        wrong.push_back(fmt::format("the covered share is {:.4f}, the step says {:.4f}", share, scene.step->covered_share));
    }
}

bool insideSeen(const Prism& prism, const Vec2& point) {
    const Vec3 local = prism.frame.inverse() * Vec3(point.x(), point.y(), 0);
    const Polygon& section = prism.section;
    for (std::size_t i = 0; i < section.size(); ++i) {
        const Vec2 edge = section[(i + 1) % section.size()] - section[i];
        const Vec2 to = local.head<2>() - section[i];
        if (edge.x() * to.y() - edge.y() * to.x() < -1e-9) return false;
    }
    return true;
}

bool heldAt(const Scene& scene, const Vec2& point) {
    return std::any_of(scene.part.held.begin(), scene.part.held.end(), [&](const Body& body) {
        return body.lie == Lie::kInPlane && body.kind == BodyKind::kPanel &&
               std::any_of(body.shape.whole.begin(), body.shape.whole.end(),
                           [&](const Prism& prism) { return insideSeen(prism, point); });
    });
}

// Whether the clamped sheet reaches back from the bend to the wanted depth behind the nose line, looked at in
// points a fraction of a millimetre apart.
bool landAt(const Scene& scene, double x, double depth) {
    const double start = scene.setting.stroke.nose_radius_mm + 1e-6;
    const int points = 1 + static_cast<int>(std::ceil(std::max(0.0, depth - start) / 0.25));
    for (int i = 0; i <= points; ++i) {
        if (!heldAt(scene, Vec2(x, start + std::max(0.0, depth - start - 1e-6) * i / points))) return false;
    }
    return true;
}

// Corners of a held flange may be cut back: half of the bend must have the land.
void checkLand(const Scene& scene, const Limits& limits, std::vector<std::string>& wrong) {
    constexpr double kShare = 0.5;
    double length = 0;
    double with_land = 0;
    for (const Span& span : scene.setting.spans) {
        const int parts = 1 + static_cast<int>(span.hi_mm - span.lo_mm);
        const double part = (span.hi_mm - span.lo_mm) / parts;
        for (int i = 0; i < parts; ++i) {
            length += part;
            if (landAt(scene, span.lo_mm + (i + 0.5) * part, limits.clamped_land_mm)) with_land += part;
        }
    }
    if (with_land < kShare * length - 2.0) {
        wrong.push_back(fmt::format("only {:.1f} of {:.1f} mm of the bend have {:.3f} mm of clamped land", with_land, length,
                                    limits.clamped_land_mm));
    }
}

void checkOverhang(const Scene& scene, std::vector<std::string>& wrong) {
    Box box;
    for (const auto* side : {&scene.part.held, &scene.part.moving}) {
        for (const Body& body : *side) box.extend(boxOf(body));
    }
    const FoldStep& step = *scene.step;
    const double left = std::max(0.0, -(box.min().x() + step.part_x_mm));
    const double right = std::max(0.0, box.max().x() + step.part_x_mm - scene.brake->length_mm);
    if (left > kSame_mm && !scene.brake->overhang_left) wrong.push_back(fmt::format("the part passes the left end frame by {:.3f} mm", left));
    if (right > kSame_mm && !scene.brake->overhang_right) {
        wrong.push_back(fmt::format("the part passes the right end frame by {:.3f} mm", right));
    }
    constexpr double kFacets_mm = 0.05;  // arcs in facets stand out a little
    const bool told = std::abs(step.overhang_mm - right) < kFacets_mm || std::abs(step.overhang_mm + left) < kFacets_mm;
    const bool hidden = std::abs(step.overhang_mm) < kFacets_mm && std::max(left, right) > kFacets_mm;
    if (!told || hidden) {
        wrong.push_back(fmt::format("the part hangs {:.3f} mm past the left and {:.3f} mm past the right end, the step says {:.3f} mm",
                                    left, right, step.overhang_mm));
    }
}

}  // namespace

bool checkBars(const Brake& brake, const FoldStep& step, std::vector<std::string>& wrong) {
    std::map<BarId, int> used;
    for (std::size_t i = 0; i < step.bars.size(); ++i) {
        const PlacedBar& placed = step.bars[i];
        if (placed.bar.index() >= brake.bars.size()) {
            wrong.push_back(fmt::format("there is no bar number {}", placed.bar.index()));
            return false;
        }
        const Bar& bar = brake.bars[placed.bar.index()];
        if (++used[placed.bar] == bar.count + 1) {
            wrong.push_back(fmt::format("bar {} is used more often than the {} in the shop", bar.id, bar.count));
        }
        if (std::abs(placed.to_mm - placed.from_mm - bar.width_mm) > kSame_mm) {
            wrong.push_back(fmt::format("bar {} stands on {:.3f} mm, it is {:.3f} mm wide", bar.id,
                                        placed.to_mm - placed.from_mm, bar.width_mm));
        }
        if (placed.from_mm + step.part_x_mm < -kSame_mm || placed.to_mm + step.part_x_mm > brake.length_mm + kSame_mm) {
            wrong.push_back(fmt::format("bar {} stands past an end of the machine", bar.id));
        }
        if (i > 0 && placed.from_mm < step.bars[i - 1].to_mm - kSame_mm) {
            wrong.push_back(fmt::format("bar {} overlaps the bar before it", bar.id));
        }
    }
    if (step.bars.empty()) wrong.push_back("no bar clamps the sheet");
    return true;
}

void checkLimits(const Scene& scene, const Limits& limits, std::vector<std::string>& wrong) {
    checkCover(scene, scene.sheet->part(), limits, wrong);
    checkLand(scene, limits, wrong);
    checkOverhang(scene, wrong);
}

}  // namespace tinwright::replay
