// SPDX-License-Identifier: GPL-3.0-or-later
#include "part_picture.h"

#include <algorithm>

#include <fmt/format.h>

#include "line_view.h"
#include "paper_view.h"

namespace tinwright::report {
namespace {

constexpr double kWidth_mm = 91;
constexpr double kHeight_mm = 56;
constexpr double kHead_mm = 6;
constexpr double kBetween_mm = 9;  // room for the arrow
constexpr double kTurn_deg = 38;
constexpr double kRise_deg = 32;

struct Look {
    Sight sight;
    std::vector<FlatEdge> before;
    std::vector<FlatEdge> after;
    bool from_right = false;
    double shown_mm = 0;  ///< of the new strips, after
};

Look lookAt(const PartLines& before, const PartLines& after, bool from_right) {
    Look look{fromFront(Angle::degrees(from_right ? kTurn_deg : -kTurn_deg), Angle::degrees(kRise_deg)), {}, {}, from_right, 0};
    look.after = visibleEdges(after, look.sight);
    look.before = visibleEdges(before, look.sight);
    for (const FlatEdge& edge : look.after) look.shown_mm += edge.kind == kNewEdge ? (edge.to - edge.from).norm() : 0.0;
    return look;
}

Box boxOf(const std::vector<FlatEdge>& edges) {
    std::vector<Vec2> points;
    for (const FlatEdge& edge : edges) {
        points.push_back(edge.from);
        points.push_back(edge.to);
    }
    return boxAround(points);
}

void draw(Drawing& drawing, const std::vector<FlatEdge>& edges, const PaperView& view) {
    for (const FlatEdge& edge : edges) {
        const Pen pen = edge.kind == kNewEdge ? Pen::kHeavy : edge.kind == kBendEdge ? Pen::kThin : Pen::kOutline;
        drawing.line(view(edge.from), view(edge.to), pen);
    }
}

}  // namespace

Drawing partPicture(const FoldScene& scene, const std::string& title) {
    const PartLines before = partLines(scene, scene.at(Angle()));
    const PartLines after = partLines(scene, scene.after());
    const Look left = lookAt(before, after, false);
    const Look right = lookAt(before, after, true);
    const Look& look = left.shown_mm > right.shown_mm * 1.02 ? left : right;
    Drawing drawing(title, kWidth_mm, kHeight_mm);
    const double half = 0.5 * (kWidth_mm - kBetween_mm) - 1;
    const Box from{Vec2(1, kHead_mm), Vec2(1 + half, kHeight_mm - 1)};
    const Box to{Vec2(kWidth_mm - 1 - half, kHead_mm), Vec2(kWidth_mm - 1, kHeight_mm - 1)};
    const Box a = boxOf(look.before);
    const Box b = boxOf(look.after);
    const Vec2 largest = a.size().cwiseMax(b.size()).cwiseMax(1.0);
    const double scale = std::min(from.size().x() / largest.x(), from.size().y() / largest.y());
    draw(drawing, look.before, centredView(a, from, scale));
    draw(drawing, look.after, centredView(b, to, scale));
    const double middle = 0.5 * kHeight_mm;
    drawing.arrow({0.5 * kWidth_mm - 3, middle}, {0.5 * kWidth_mm + 3, middle}, Pen::kMedium);
    drawing.text(fmt::format("before and after, from your {} and above", look.from_right ? "right" : "left"), {1, kHead_mm - 1});
    drawing.finish();
    return drawing;
}

}  // namespace tinwright::report
