// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawings/blank_marks.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/part/model/bend_frame.h>

#include "kinds/brake_words.h"
#include "paper/paper_view.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kOnLine_mm = 0.01;
constexpr double kParallel = 1e-6;
constexpr double kRound_mm = 0.05;         // corners of a circle lie this near to it
constexpr std::size_t kRoundCorners = 12;  // and there are at least so many
constexpr double kSharp_deg = 15;          // a lesser turn belongs to a curve

double distanceFrom(const NamedEdge& edge, const Vec2& point) {
    const Vec2 along = (edge.to - edge.from).normalized();
    const Vec2 d = point - edge.from;
    return std::abs(along.x() * d.y() - along.y() * d.x());
}

/// Which side of the bend is held in this fold.
bool parentHeld(const FoldStep& step, const Bend& bend) {
    return std::find(step.held.begin(), step.held.end(), bend.parent) != step.held.end();
}

/// The edge that the fold is set from.
void addEdge(BendMark& mark, const Part& part, const FoldStep& step) {
    mark.edge = step.sight_from_edge;
    for (const NamedEdge& edge : part.edges) {
        if (edge.name == mark.edge) mark.line_mm = distanceFrom(edge, part.bend(mark.bend).origin);
    }
}

void addSight(BendMark& mark, const Part& part, const BrakeInSetup& brake, const FoldStep& step) {
    const Bend& bend = part.bend(mark.bend);
    // Under the nose: one nose radius from the held side's tangent line into the strip (src/fold/NOTES.md, Frames).
    const Vec2 out = towards(bend, parentHeld(step, bend) ? Side::kChild : Side::kParent);
    const Vec2 shift = (brake.inside_radius_mm() - 0.5 * bend.allowance_mm) * out;
    mark.has_sight = true;
    mark.sight_from = mark.from + shift;
    mark.sight_to = mark.to + shift;
    mark.sight_mm = step.sight_mm;
}

/// Without a fold: the nearest edge that runs along the bend.
void addNearestEdge(BendMark& mark, const Part& part) {
    const Bend& bend = part.bend(mark.bend);
    for (const NamedEdge& edge : part.edges) {
        const Vec2 along = edge.to - edge.from;
        if (std::abs(along.dot(bend.toward_child)) > kParallel * along.norm()) continue;
        const double distance = distanceFrom(edge, bend.origin);
        if (!mark.edge.empty() && distance >= mark.line_mm) continue;
        mark.edge = edge.name;
        mark.line_mm = distance;
    }
}

bool isRound(const Polygon& ring, const Vec2& centre) {
    if (ring.size() < kRoundCorners) return false;
    const double radius = (ring.front() - centre).norm();
    return std::all_of(ring.begin(), ring.end(),
                       [&](const Vec2& p) { return std::abs((p - centre).norm() - radius) < kRound_mm; });
}

}  // namespace

std::vector<BendMark> bendMarks(const Part& part, const BrakeInSetup& brake, const Plan* plan) {
    const bool has_sight = wordsFor(*brake).terms.sheet.has_sight_lines;
    std::vector<BendMark> marks;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        BendMark mark;
        mark.bend = idAt<BendId>(i);
        if (!bend.spans.empty()) {
            mark.from = bend.origin + bend.spans.front().from_mm * bend.along;
            mark.to = bend.origin + bend.spans.back().to_mm * bend.along;
        }
        for (std::size_t f = 0; plan != nullptr && f < plan->folds.size(); ++f) {
            const FoldStep& step = plan->folds[f];
            if (!contains(step.stroke.bends, mark.bend)) continue;
            mark.fold = f + 1;
            addEdge(mark, part, step);
            if (has_sight) addSight(mark, part, brake, step);
        }
        if (!mark.has_sight && mark.edge.empty()) addNearestEdge(mark, part);
        marks.push_back(std::move(mark));
    }
    std::stable_sort(marks.begin(), marks.end(),
                     [](const BendMark& a, const BendMark& b) { return a.fold - 1 < b.fold - 1; });  // 0 wraps to last
    return marks;
}

std::vector<CutOutMark> cutOutMarks(const Part& part) {
    std::vector<CutOutMark> marks;
    for (const Polygon& hole : part.blank.holes) {
        const Box box = boxAround(hole);
        CutOutMark mark{false, 0.5 * (box.least + box.most), box.least, box.most, {}};
        mark.round = isRound(hole, mark.centre);
        const Vec2 size = box.size();
        mark.words = mark.round ? "ø" + millimetres(size.x()) : millimetres(size.x()) + " x " + millimetres(size.y());
        marks.push_back(std::move(mark));
    }
    return marks;
}

std::vector<Vec2> sharpCorners(const Polygon& outline) {
    std::vector<Vec2> corners;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Vec2 in = outline[i] - outline[(i + outline.size() - 1) % outline.size()];
        const Vec2 out = outline[(i + 1) % outline.size()] - outline[i];
        const double turn = std::atan2(in.x() * out.y() - in.y() * out.x(), in.dot(out));
        if (std::abs(Angle::radians(turn).deg()) > kSharp_deg) corners.push_back(outline[i]);
    }
    return corners;
}

std::string edgeOn(const Part& part, int axis, double place_mm) {
    for (const NamedEdge& edge : part.edges) {
        if (std::abs(edge.from[axis] - place_mm) < kOnLine_mm && std::abs(edge.to[axis] - place_mm) < kOnLine_mm)
            return edge.name;
    }
    return {};
}

}  // namespace tinwright::report
