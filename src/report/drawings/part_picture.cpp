// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawings/part_picture.h"

#include <algorithm>

#include <fmt/format.h>

#include "drawings/line_view.h"
#include "paper/paper_view.h"

namespace tinwright::report {
namespace {

constexpr double kPictureWidth_mm = 91;
constexpr double kPictureHeight_mm = 56;
constexpr double kPictureHead_mm = 6;
constexpr double kBetween_mm = 9;  // room for the arrow
constexpr double kTurn_deg = 38;
constexpr double kRise_deg = 32;

Sight lookFrom(bool right) {
    return fromFront(Angle::degrees(right ? kTurn_deg : -kTurn_deg), Angle::degrees(kRise_deg));
}

/// How much of the new strips can be seen.
double shown_mm(const PartLines& after, const Sight& sight) {
    PartLines strips{{}, after.faces};
    for (const Edge3& edge : after.edges) {
        if (edge.kind == kNewEdge) strips.edges.push_back(edge);
    }
    double shown = 0;
    for (const FlatEdge& edge : visibleEdges(strips, sight)) shown += (edge.to - edge.from).norm();
    return shown;
}

Box boxOf(const std::vector<FlatEdge>& edges) {
    std::vector<Vec2> points;
    for (const FlatEdge& edge : edges) {
        points.push_back(edge.from);
        points.push_back(edge.to);
    }
    return boxAround(points);
}

}  // namespace

Drawing partPicture(const FoldScene& scene, const std::string& title) {
    const PartLines before = partLines(scene, scene.at(Angle()));
    const PartLines after = partLines(scene, scene.after());
    // A hair's difference must not turn the view from one fold to the next.
    const bool from_right = shown_mm(after, lookFrom(false)) <= 1.02 * shown_mm(after, lookFrom(true));
    const Sight sight = lookFrom(from_right);
    const std::vector<FlatEdge> edges_before = visibleEdges(before, sight);
    const std::vector<FlatEdge> edges_after = visibleEdges(after, sight);
    Drawing drawing(title, kPictureWidth_mm, kPictureHeight_mm);
    const double half = 0.5 * (kPictureWidth_mm - kBetween_mm) - 1;
    const Box from{Vec2(1, kPictureHead_mm), Vec2(1 + half, kPictureHeight_mm - 1)};
    const Box to{Vec2(kPictureWidth_mm - 1 - half, kPictureHead_mm), Vec2(kPictureWidth_mm - 1, kPictureHeight_mm - 1)};
    const Box a = boxOf(edges_before);
    const Box b = boxOf(edges_after);
    const Vec2 largest = a.size().cwiseMax(b.size()).cwiseMax(1.0);
    const double scale = std::min(from.size().x() / largest.x(), from.size().y() / largest.y());
    drawEdges(drawing, edges_before, centredView(a, from, scale));
    drawEdges(drawing, edges_after, centredView(b, to, scale));
    const double middle = 0.5 * kPictureHeight_mm;
    drawing.arrow({0.5 * kPictureWidth_mm - 3, middle}, {0.5 * kPictureWidth_mm + 3, middle}, Pen::kMedium);
    drawing.text(fmt::format("before and after, from your {} and above", from_right ? "right" : "left"),
                 {1, kPictureHead_mm - 1});
    drawing.finish();
    return drawing;
}

}  // namespace tinwright::report
