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
    if (std::abs(share - scene.step->covered_share) > 1e-3) {
        wrong.push_back(fmt::format("the covered share is {:.4f}, the step says {:.4f}", share, scene.step->covered_share));
    }
}

// How far back the clamped sheet reaches behind the nose line somewhere along a span.
double landBehind(const Scene& scene, const Span& span) {
    const Polygon window{Vec2(span.lo_mm, -1e4), Vec2(span.hi_mm, -1e4), Vec2(span.hi_mm, 1e4), Vec2(span.lo_mm, 1e4)};
    double land = 0;
    for (const Body& body : scene.part.held) {
        if (body.lie != Lie::kInPlane) continue;
        for (const Prism& prism : body.shape.whole) {
            Polygon seen;
            for (const Vec2& p : prism.section) seen.push_back((prism.frame * Vec3(p.x(), p.y(), 0)).head<2>());
            if (signedArea_mm2(seen) < 0) std::reverse(seen.begin(), seen.end());
            for (const Region& region : intersection({seen, {}}, window)) {
                for (const Vec2& p : region.outline) land = std::max(land, p.y());
            }
        }
    }
    return land;
}

void checkLand(const Scene& scene, const Part& part, const Limits& limits, std::vector<std::string>& wrong) {
    for (const Span& span : scene.setting.spans) {
        const double land = landBehind(scene, span);
        if (land + kSame_mm < limits.clamped_land_mm) {
            wrong.push_back(fmt::format("bend {} has {:.3f} mm of clamped land, {:.3f} mm are wanted",
                                        part.bend(span.bend).name, land, limits.clamped_land_mm));
        }
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
    const bool told = std::abs(step.overhang_mm - right) < 0.01 || std::abs(step.overhang_mm + left) < 0.01;
    const bool hidden = std::abs(step.overhang_mm) < 0.01 && std::max(left, right) > 0.01;
    if (!told || hidden) {
        wrong.push_back(fmt::format("the part hangs {:.3f} mm past the left and {:.3f} mm past the right end, the step says {:.3f} mm",
                                    left, right, step.overhang_mm));
    }
}

}  // namespace

bool checkBars(const LeafBrake& brake, const FoldStep& step, std::vector<std::string>& wrong) {
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
    checkLand(scene, scene.sheet->part(), limits, wrong);
    checkOverhang(scene, wrong);
}

}  // namespace tinwright::replay
