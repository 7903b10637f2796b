// SPDX-License-Identifier: GPL-3.0-or-later
#include "strokes/allowed.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "machine/tools.h"
#include "strokes/course.h"

namespace tinwright::replay {

namespace {

constexpr double kSame_mm = 1e-3;  // plans place bars in whole micrometres

double overlap(const Span& span, double from, double to) {
    return std::max(0.0, std::min(span.hi_mm, to) - std::max(span.lo_mm, from));
}

// Gaps of one span: before the first piece of a row over it, between pieces, after the last. Returns what is covered.
double checkSpan(const CoveringRow& row, const std::vector<PlacedTool>& placed, const Span& span,
                 const std::string& name, const Limits& limits, std::vector<std::string>& wrong) {
    double covered = 0;
    double reached = span.lo_mm;
    bool at_end = true;  // nothing covered yet
    const auto gap = [&](double upto, bool end) {
        const double open = upto - reached;
        const double allowed = end ? limits.uncovered_end_mm : limits.bar_gap_mm;
        if (open > allowed + kSame_mm) {
            wrong.push_back(fmt::format("bend {} is open for {:.3f} mm {}, {:.3f} mm are allowed", name, open,
                                        end ? row.at_an_end : row.between_two, allowed));
        }
    };
    for (const PlacedTool& bar : placed) {
        if (overlap(span, bar.from_mm, bar.to_mm) <= 0) continue;
        covered += overlap(span, std::max(bar.from_mm, reached), bar.to_mm);
        if (bar.from_mm > reached) gap(bar.from_mm, at_end);
        at_end = false;
        reached = std::max(reached, bar.to_mm);
    }
    if (reached < span.hi_mm) gap(span.hi_mm, true);
    return covered;
}

double coveredShare(const Part& part, const std::vector<Span>& spans, const CoveringRow& row,
                    const std::vector<PlacedTool>& placed, const Limits& limits, std::vector<std::string>& wrong) {
    double covered = 0;
    double length = 0;
    for (const Span& span : spans) {
        covered += checkSpan(row, placed, span, part.bend(span.bend).name, limits, wrong);
        length += span.hi_mm - span.lo_mm;
    }
    return length > 0 ? covered / length : 0;
}

void checkCover(const Scene& scene, const Limits& limits, std::vector<std::string>& wrong) {
    const double share = checkSpans(scene.sheet->part(), scene.brake, *scene.step, scene.setting, limits, wrong);
    if (scene.step->covered_share > share + 1e-3) {  // less may be told: bars over a notch clamp nothing
        wrong.push_back(
            fmt::format("the covered share is {:.4f}, the step says {:.4f}", share, scene.step->covered_share));
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

// Whether a panel lies at a point of the plane of the flat sheet.
bool panelAt(const std::vector<Body>& side, const Vec2& point) {
    return std::any_of(side.begin(), side.end(), [&](const Body& body) {
        return body.lie == Lie::kInPlane && body.kind == BodyKind::kPanel &&
               std::any_of(body.shape.whole.begin(), body.shape.whole.end(),
                           [&](const Prism& prism) { return insideSeen(prism, point); });
    });
}

// Whether panels of a side reach from one y to another (ascending), looked at in points a fraction of a millimetre
// apart.
bool panelsReach(const std::vector<Body>& side, double x, double from, double to) {
    const int points = 1 + static_cast<int>(std::ceil(std::max(0.0, to - from) / 0.25));
    for (int i = 0; i <= points; ++i) {
        if (!panelAt(side, Vec2(x, from + std::max(0.0, to - from - 1e-6) * i / points))) return false;
    }
    return true;
}

struct Lengths {
    double whole_mm = 0;
    double with_mm = 0;
};

// How much of the bend has something, looked at in the middle of pieces of a millimetre.
template <typename HasAt>
Lengths lengthWith(const Scene& scene, const HasAt& has_at) {
    Lengths lengths;
    for (const Span& span : scene.setting.spans) {
        const int parts = 1 + static_cast<int>(span.hi_mm - span.lo_mm);
        const double part = (span.hi_mm - span.lo_mm) / parts;
        for (int i = 0; i < parts; ++i) {
            lengths.whole_mm += part;
            if (has_at(span.lo_mm + (i + 0.5) * part)) lengths.with_mm += part;
        }
    }
    return lengths;
}

// Corners of a flange may be cut back: half of the bend must have it.
bool tooLittle(const Lengths& lengths) {
    constexpr double kShare = 0.5;
    return lengths.with_mm < kShare * lengths.whole_mm - 2.0;
}

void checkFlatLands(const Scene& scene, const Limits& limits, std::vector<std::string>& wrong) {
    for (const FlatLand& land : scene.setting.machine->flatLands(limits, stepsOf(scene))) {
        const std::vector<Body>& side = land.moving ? scene.part.moving : scene.part.held;
        const Lengths lengths =
            lengthWith(scene, [&](double x) { return panelsReach(side, x, land.from_mm, land.to_mm); });
        if (!tooLittle(lengths)) continue;
        wrong.push_back(
            fmt::format("only {:.1f} of {:.1f} mm of the bend {}", lengths.with_mm, lengths.whole_mm, land.told));
    }
}

void checkBendOnMachine(const Scene& scene, const Limits& limits, std::vector<std::string>& wrong) {
    for (const Span& span : scene.setting.spans) {
        const double left = -(span.lo_mm + scene.step->part_x_mm);
        const double right = span.hi_mm + scene.step->part_x_mm - scene.brake->length_mm;
        if (std::max(left, right) > limits.past_machine_mm + kSame_mm)
            wrong.push_back(fmt::format("bend {} hangs {:.3f} mm past an end of the machine, {:.3f} mm are allowed",
                                        scene.sheet->part().bend(span.bend).name, std::max(left, right),
                                        limits.past_machine_mm));
    }
}

void checkOverhang(const Scene& scene, const Limits& limits, std::vector<std::string>& wrong) {
    Box box;
    for (const auto* side : {&scene.part.held, &scene.part.moving}) {
        for (const Body& body : *side) box.extend(boxOf(body));
    }
    const FoldStep& step = *scene.step;
    const double left = std::max(0.0, -(box.min().x() + step.part_x_mm));
    const double right = std::max(0.0, box.max().x() + step.part_x_mm - scene.brake->length_mm);
    if (left > kSame_mm && !scene.brake->overhang_left)
        wrong.push_back(fmt::format("the part passes the left end frame by {:.3f} mm", left));
    if (right > kSame_mm && !scene.brake->overhang_right) {
        wrong.push_back(fmt::format("the part passes the right end frame by {:.3f} mm", right));
    }
    checkBendOnMachine(scene, limits, wrong);
    constexpr double kFacets_mm = 0.05;  // arcs in facets stand out a little
    const bool told = std::abs(step.overhang_mm - right) < kFacets_mm || std::abs(step.overhang_mm + left) < kFacets_mm;
    const bool hidden = std::abs(step.overhang_mm) < kFacets_mm && std::max(left, right) > kFacets_mm;
    if (!told || hidden) {
        wrong.push_back(fmt::format(
            "the part hangs {:.3f} mm past the left and {:.3f} mm past the right end, the step says {:.3f} mm", left,
            right, step.overhang_mm));
    }
}

// What hangs under the sheet beside the strips that pack it up, and whether these are told no wider than there is room.
void checkPacking(const Scene& scene, const Limits& limits, std::vector<std::string>& wrong) {
    const std::optional<PackedStretch> packed = scene.setting.machine->packedStretch(limits);
    if (!packed) return;
    constexpr double kWideEnough_mm = 50;  // where no width is told
    const auto alongBends = [&](const Box& box) {
        return std::any_of(scene.setting.spans.begin(), scene.setting.spans.end(), [&](const Span& span) {
            return box.min().x() < span.hi_mm - kSame_mm && box.max().x() > span.lo_mm + kSame_mm;
        });
    };
    const auto tooWide = [&](const std::optional<double>& told_mm, double room_mm) {
        return told_mm.value_or(kWideEnough_mm) > room_mm + kSame_mm;
    };
    for (const std::vector<Body>* side : {&scene.part.held, &scene.part.moving}) {
        for (const Body& body : *side) {
            const Box box = boxOf(body);
            if (standsOnSheet(body) || !alongBends(box)) continue;
            const bool behind = box.min().y() >= packed->to_mm - kSame_mm;
            const bool before = box.max().y() <= packed->from_mm + kSame_mm;
            if (!behind && !before) {
                wrong.push_back(body.name + " hangs under the sheet where it is packed up");
            } else if (behind ? tooWide(scene.step->packing->on_bed_mm, box.min().y() - packed->bed_from_mm)
                              : scene.step->packing->on_leaf &&
                                    tooWide(scene.step->packing->on_leaf_mm, packed->leaf_from_mm - box.max().y())) {
                wrong.push_back("the packing is told to be wider than to " + body.name);
            }
        }
    }
}

}  // namespace

double checkSpans(const Part& part, const BrakeInSetup& brake, const FoldStep& step, const Setting& setting,
                  const Limits& limits, std::vector<std::string>& wrong) {
    double share = 0;
    for (const CoveringRow& row : setting.machine->rows())
        share = coveredShare(part, setting.spans, row, piecesOf(brake, step, row.row), limits, wrong);
    return share;
}

bool checkBars(const BrakeInSetup& brake, const FoldStep& step, const ReplayedMachine& machine,
               std::vector<std::string>& wrong) {
    std::map<ToolId, int> used;
    std::map<ToolRow, double> taken_to_mm;
    for (const ToolRow row : {ToolRow::kUpper, ToolRow::kLower})
        taken_to_mm[row] = -std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < step.tools.size(); ++i) {
        const PlacedTool& placed = step.tools[i];
        if (placed.tool.index() >= brake->toolCount()) {
            wrong.push_back(fmt::format("there is no bar number {}", placed.tool.index()));
            return false;
        }
        const Tool& bar = brake->tool(placed.tool);
        const ToolRow row = brake->rowOf(placed.tool);
        const char* piece = machine.pieceName(row);
        const int count = brake.uses(placed.tool) ? bar.count : 0;
        if (++used[placed.tool] == count + 1) {
            wrong.push_back(fmt::format("{} {} is used more often than the {} in the shop", piece, bar.id, count));
        }
        if (std::abs(placed.to_mm - placed.from_mm - bar.width_mm) > kSame_mm) {
            wrong.push_back(fmt::format("{} {} stands on {:.3f} mm, it is {:.3f} mm wide", piece, bar.id,
                                        placed.to_mm - placed.from_mm, bar.width_mm));
        }
        if (placed.from_mm + step.part_x_mm < -kSame_mm ||
            placed.to_mm + step.part_x_mm > brake->length_mm + kSame_mm) {
            wrong.push_back(fmt::format("{} {} stands past an end of the machine", piece, bar.id));
        }
        double& taken_to = taken_to_mm[row];
        if (placed.from_mm < taken_to - kSame_mm)
            wrong.push_back(fmt::format("{} {} overlaps the {} before it", piece, bar.id, piece));
        taken_to = placed.to_mm;
    }
    if (step.tools.empty()) wrong.push_back("no bar clamps the sheet");
    return true;
}

void checkLimits(const Scene& scene, const Limits& limits, std::vector<std::string>& wrong) {
    checkPacking(scene, limits, wrong);
    checkCover(scene, limits, wrong);
    checkFlatLands(scene, limits, wrong);
    checkOverhang(scene, limits, wrong);
}

}  // namespace tinwright::replay
