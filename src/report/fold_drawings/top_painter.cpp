// SPDX-License-Identifier: GPL-3.0-or-later
#include "fold_drawings/top_painter.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "drawings/line_view.h"
#include "paper/ordinates.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kBeyond_mm = 40;   // of tools past the part
constexpr double kNearEnd_mm = 60;  // an end of the machine nearer than that is shown

}  // namespace

TopPainter::TopPainter(const FoldView& view, const std::string& title, const TopStyle& style,
                       const std::vector<Box>& tools, double foot_mm, Angle at)
    : view_(view),
      style_(style),
      bodies_(view.scene.at(at)),
      drawing_(title, kTopWidth_mm, style.part_mm + foot_mm),
      machine_{Vec2(-view.part_x_mm, 0), Vec2(view.scene.brake()->length_mm - view.part_x_mm, 0)},
      frame_{Vec2(4, kTopHead_mm + style.over_part_mm), Vec2(kTopWidth_mm - 4, style.part_mm)} {
    gatherPart();
    const Box seen = window(tools);
    const double scale = usualScale(seen.size(), frame_.size());
    paper_ = centredView(seen, frame_, scale);
    drawing_.clipTo({Vec2(1, kTopHead_mm), Vec2(kTopWidth_mm - 1, style.part_mm + foot_mm)});
    part_ = {paper_(Vec2(seen.least.x(), seen.most.y())), paper_(Vec2(seen.most.x(), seen.least.y()))};
    drawing_.note(fmt::format("data-scale=\"{:.6g}\"", scale));
}

void TopPainter::gatherPart() {
    for (const PartBody& body : bodies_) {
        for (const Slab& slab : body.slabs) {
            for (const auto* ring : {&slab.lower, &slab.upper}) {
                for (const Vec3& p : *ring) points_.emplace_back(p.x(), p.y());
            }
        }
    }
}

/// Part, tools, and an end of the machine that is near.
Box TopPainter::window(const std::vector<Box>& tools) {
    const Box part = boxAround(points_);
    // A bar much longer than the part is not worth a tiny drawing: it runs out of the frame.
    const double least = part.least.x() - kBeyond_mm;
    const double most = part.most.x() + kBeyond_mm;
    for (const Box& tool : tools) {
        points_.emplace_back(std::max(tool.least.x(), least), tool.least.y());
        points_.emplace_back(std::min(tool.most.x(), most), tool.most.y());
    }
    Box seen = boxAround(points_);
    if (view_.place_known && machine_.least.x() > seen.least.x() - kNearEnd_mm)
        seen.least.x() = std::min(seen.least.x(), machine_.least.x());
    if (view_.place_known && machine_.most.x() < seen.most.x() + kNearEnd_mm)
        seen.most.x() = std::max(seen.most.x(), machine_.most.x());
    return seen;
}

void TopPainter::machine() {
    const double left = std::max(1.0, paper_(machine_.least).x());
    const double right = std::min(kTopWidth_mm - 1, paper_(machine_.most).x());
    const double y = paper_(Vec2(0, 0)).y();
    if (!view_.place_known) return;
    drawing_.line({left, y}, {right, y}, Pen::kChain);
    drawing_.label(style_.bend_line, {right, y}, Vec2(-1, -1).normalized());
    for (const double x : {paper_(machine_.least).x(), paper_(machine_.most).x()}) {
        if (x < 1 || x > kTopWidth_mm - 1) continue;
        drawing_.line({x, kTopHead_mm + 1}, {x, part_.most.y()}, Pen::kHeavy);
        drawing_.label("end of the brake", {x, kTopHead_mm + 6}, Vec2(x < 0.5 * kTopWidth_mm ? 1 : -1, 0));
    }
}

void TopPainter::part() {
    drawEdges(drawing_, visibleEdges(partLines(view_.scene, bodies_), fromAbove()), paper_);
    const Bend& bend = view_.scene.part().bend(view_.scene.fold().stroke.first());
    for (const PanelId panel : {bend.parent, bend.child}) {
        const bool moving = view_.scene.movingPanel(panel);
        const char* const what = moving ? style_.moving : style_.held;
        drawing_.label(what + view_.scene.part().panel(panel).name, middleOf(panel), Vec2(0, moving ? 1 : -1));
    }
}

void TopPainter::room() {
    if (!view_.room_mm) return;
    const double deep_mm = 0.25 * boxAround(points_).size().y();
    const Vec2 a = paper_(Vec2((*view_.room_mm)[0], deep_mm));
    const Vec2 b = paper_(Vec2((*view_.room_mm)[1], 0));
    drawing_.polygon({a, {b.x(), a.y()}, b, {a.x(), b.y()}}, Pen::kHidden, Fill::kTint);
    drawing_.label(fmt::format("{} mm free", millimetres((*view_.room_mm)[1] - (*view_.room_mm)[0])), 0.5 * (a + b),
                   Vec2::Zero(), true);
}

void TopPainter::mark() {
    if (!view_.tight) return;
    const Vec2 a = paper_(Vec2(view_.tight->a.x(), view_.tight->a.y()));
    const Vec2 b = paper_(Vec2(view_.tight->b.x(), view_.tight->b.y()));
    drawing_.circle(0.5 * (a + b), std::max(1.6, 0.5 * (a - b).norm() + 1.0), Pen::kMedium);
}

void TopPainter::figures(const std::optional<BarDatum>& datum) {
    const double zero_mm = datum ? datum->x_mm : 0.0;
    std::vector<Ordinate> row;
    const auto add = [&](double x_mm, double y_mm, int weight) {
        const Vec2 at = paper_(Vec2(x_mm, y_mm));
        if (at.x() < frame_.least.x() - 0.5 || at.x() > frame_.most.x() + 0.5) return;
        drawing_.line(at, {at.x(), part_.most.y()}, Pen::kThin);
        row.push_back({x_mm - zero_mm, at, "", weight});
    };
    add(zero_mm, 0, 2);
    if (view_.place_known) {
        for (const PlacedTool& bar : view_.bars) {
            add(bar.from_mm, 0, 1);
            add(bar.to_mm, 0, 1);
        }
    }
    if (view_.room_mm) {
        for (const double end_mm : *view_.room_mm) add(end_mm, 0, 1);
    }
    drawOrdinates(drawing_, row, RowSide::kBottom, part_, 30, 30);
    nameZero(datum);
}

void TopPainter::nameZero(const std::optional<BarDatum>& datum) {
    drawing_.label(datum ? "0: edge " + datum->edge : std::string("0: left end of the bend"),
                   {paper_(Vec2(datum ? datum->x_mm : 0.0, 0)).x(), part_.most.y()}, Vec2(1, 1).normalized(), false, 2);
}

void TopPainter::cut() {
    const double x = paper_(Vec2(view_.cut_x_mm, 0)).x();
    for (const auto& [from, to] :
         {std::pair(part_.least.y() - 4, part_.least.y() - 1), std::pair(part_.most.y() + 4, part_.most.y() + 1)}) {
        drawing_.line({x, from}, {x, to}, Pen::kMedium);
        drawing_.line({x, from}, {x - 4, from}, Pen::kOutline);
        drawing_.arrowHead({x - 4, from}, Vec2(-1, 0));
        if (style_.has_room) {
            drawing_.label("A", {x + 1, from}, Vec2(1, 0), true);
        } else {
            drawing_.text("A", {x + 1, from + 0.5 * labelHeight_mm()}, true);
        }
    }
}

void TopPainter::covers(const Box& box, Pen pen, Fill fill) {
    const Vec2 a = paper_(Vec2(box.least.x(), box.most.y()));
    const Vec2 b = paper_(Vec2(box.most.x(), box.least.y()));
    drawing_.polygon({a, {b.x(), a.y()}, b, {a.x(), b.y()}}, pen, fill);
}

Drawing TopPainter::done() {
    drawing_.text(scaleText(paper_.scale) + "  from above; you stand at the foot", {1, kTopHead_mm - 0.4});
    drawing_.finish();
    return std::move(drawing_);
}

Vec2 TopPainter::middleOf(PanelId panel) const {
    std::vector<Vec2> points;
    for (const PartBody& body : bodies_) {
        if (body.is_strip || body.panel != panel) continue;
        for (const Slab& slab : body.slabs) {
            for (const Vec3& p : slab.upper) points.emplace_back(p.x(), p.y());
        }
    }
    const Box box = boxAround(points);
    return paper_(Vec2(0.5 * (box.least + box.most)));
}

Drawing paintContactFromAbove(const FoldView& view, const std::string& title, const TopStyle& style,
                              const std::vector<Box>& tools) {
    TopPainter painter(view, title, style, tools, kTopFoot_mm, view.tight_at);
    painter.room();
    painter.part();
    painter.mark();
    painter.figures(std::nullopt);
    if (!view.room_mm) painter.cut();
    return painter.done();
}

}  // namespace tinwright::report
