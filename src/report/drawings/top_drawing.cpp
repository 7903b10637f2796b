// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawings/top_drawing.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "drawings/line_view.h"
#include "drawings/press_rows.h"
#include "paper/ordinates.h"
#include "paper/paper_view.h"
#include "scene/press_tools.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kTopWidth_mm = 91;
constexpr double kPart_mm = 58;       // of paper for the part and the head
constexpr double kPressPart_mm = 46;  // less, since rows of punches and dies are to come on the same page
constexpr double kTopHead_mm = 5;
constexpr double kFoot_mm = 22;     // figures of the bars, and the operator
constexpr double kCutRoom_mm = 9;   // of the mark where the section is taken, over and under the part
constexpr double kBeyond_mm = 40;   // of bars past the part
constexpr double kNearEnd_mm = 60;  // an end of the machine nearer than that is shown

class TopPainter {
public:
    /// `foot_mm`: paper under the part.
    TopPainter(const FoldView& view, const std::string& title, double foot_mm, Angle at = {})
        : view_(view),
          is_press_(view.scene.brake()->isPress()),
          bodies_(view.scene.at(at)),
          part_mm_(is_press_ ? kPressPart_mm : kPart_mm),
          drawing_(title, kTopWidth_mm, part_mm_ + foot_mm) {
        for (const PartBody& body : bodies_) {
            for (const Slab& slab : body.slabs) {
                for (const auto* ring : {&slab.lower, &slab.upper}) {
                    for (const Vec3& p : *ring) points_.emplace_back(p.x(), p.y());
                }
            }
        }
        Box window = boxAround(points_);
        // A bar much longer than the part is not worth a tiny drawing: it runs out of the frame.
        const double least = window.least.x() - kBeyond_mm;
        const double most = window.most.x() + kBeyond_mm;
        for (const PlacedBar& bar : view.bars) {
            points_.emplace_back(std::max(bar.from_mm, least), is_press_ ? across(bar).least.x() : 0);
            points_.emplace_back(std::min(bar.to_mm, most), is_press_ ? across(bar).most.x() : depthOf(bar));
        }
        window = boxAround(points_);
        machine_ = {Vec2(-view.part_x_mm, 0), Vec2(view.scene.brake()->length_mm - view.part_x_mm, 0)};
        if (view.place_known && machine_.least.x() > window.least.x() - kNearEnd_mm)
            window.least.x() = std::min(window.least.x(), machine_.least.x());
        if (view.place_known && machine_.most.x() < window.most.x() + kNearEnd_mm)
            window.most.x() = std::max(window.most.x(), machine_.most.x());
        frame_ = {Vec2(4, kTopHead_mm + (is_press_ ? kCutRoom_mm : 5)), Vec2(kTopWidth_mm - 4, part_mm_)};
        const double scale = usualScale(window.size(), frame_.size());
        paper_ = centredView(window, frame_, scale);
        drawing_.clipTo({Vec2(1, kTopHead_mm), Vec2(kTopWidth_mm - 1, part_mm_ + foot_mm)});
        part_ = {paper_(Vec2(window.least.x(), window.most.y())), paper_(Vec2(window.most.x(), window.least.y()))};
        drawing_.note(fmt::format("data-scale=\"{:.6g}\"", scale));
    }

    void machine() {
        const double left = std::max(1.0, paper_(machine_.least).x());
        const double right = std::min(kTopWidth_mm - 1, paper_(machine_.most).x());
        const double y = paper_(Vec2(0, 0)).y();
        if (!view_.place_known) return;
        drawing_.line({left, y}, {right, y}, Pen::kChain);
        drawing_.label(is_press_ ? "bend line" : "nose line", {right, y}, Vec2(-1, -1).normalized());
        for (const double x : {paper_(machine_.least).x(), paper_(machine_.most).x()}) {
            if (x < 1 || x > kTopWidth_mm - 1) continue;
            drawing_.line({x, kTopHead_mm + 1}, {x, part_.most.y()}, Pen::kHeavy);
            drawing_.label("end of the brake", {x, kTopHead_mm + 6}, Vec2(x < 0.5 * kTopWidth_mm ? 1 : -1, 0));
        }
    }

    /// What a press brake has at the back.
    void back() {
        for (const PressTool& tool : pressTools(view_, 0)) {
            if (tool.body.kind != BodyRef::Kind::kFrame) continue;
            const Box section = boxAround(tool.section);
            const Vec2 a = paper_(Vec2(tool.from_mm, section.most.x()));
            const Vec2 b = paper_(Vec2(tool.to_mm, section.least.x()));
            const Box seen{a.cwiseMax(Vec2(1, kTopHead_mm)), b.cwiseMin(Vec2(kTopWidth_mm - 1, part_.most.y()))};
            if (seen.size().x() <= 0 || seen.size().y() <= 0) continue;
            drawing_.polygon({a, {b.x(), a.y()}, b, {a.x(), b.y()}}, Pen::kMedium, Fill::kHatch);
            drawing_.label("side frame", 0.5 * (seen.least + seen.most), Vec2::Zero());
        }
        if (view_.scene.brake()->press().gauge)
            drawing_.label("back gauge", {0.5 * kTopWidth_mm, part_.least.y()}, Vec2(0, -1));
    }

    /// Dies lie under the sheet; of punches, over it, the outline alone.
    void dies() {
        for (const PressTool& tool : pressTools(view_, 0)) {
            const bool is_die = tool.body.kind == BodyRef::Kind::kDie;
            if (!is_die && tool.body.kind != BodyRef::Kind::kPunch) continue;
            const Box section = boxAround(tool.section);
            const Vec2 a = paper_(Vec2(tool.from_mm, section.most.x()));
            const Vec2 b = paper_(Vec2(tool.to_mm, section.least.x()));
            drawing_.polygon({a, {b.x(), a.y()}, b, {a.x(), b.y()}}, is_die ? Pen::kThin : Pen::kOutline,
                             is_die ? Fill::kTint : Fill::kNone);
        }
    }

    void rows(const PressRows& rows, const std::optional<BarDatum>& datum) {
        rows.draw(drawing_, paper_, part_, part_.most.y() + kCutRoom_mm);
        const double zero = paper_(Vec2(datum ? datum->x_mm : 0.0, 0)).x();
        drawing_.line({zero, paper_(Vec2(0, 0)).y()}, {zero, part_.most.y() + kCutRoom_mm}, Pen::kThin);
        drawing_.label(datum ? "0: edge " + datum->edge : std::string("0: left end of the bend"),
                       {zero, part_.most.y()}, Vec2(1, 1).normalized(), false, 2);
    }

    void bars() {
        for (const PlacedBar& bar : view_.bars) {
            const Vec2 a = paper_(Vec2(bar.from_mm, depthOf(bar)));
            const Vec2 b = paper_(Vec2(bar.to_mm, 0));
            drawing_.polygon({a, {b.x(), a.y()}, b, {a.x(), b.y()}}, Pen::kMedium, Fill::kTint);
            drawing_.label(view_.scene.brake()->tool(bar.bar).id, 0.5 * (a + b) - Vec2(0, 0.25 * (b.y() - a.y())),
                           Vec2::Zero(), true, -2.0);
        }
    }

    /// Where bars would have to stand.
    void room() {
        if (!view_.room_mm) return;
        const double deep_mm = 0.25 * boxAround(points_).size().y();
        const Vec2 a = paper_(Vec2((*view_.room_mm)[0], deep_mm));
        const Vec2 b = paper_(Vec2((*view_.room_mm)[1], 0));
        drawing_.polygon({a, {b.x(), a.y()}, b, {a.x(), b.y()}}, Pen::kHidden, Fill::kTint);
        drawing_.label(fmt::format("{} mm free", millimetres((*view_.room_mm)[1] - (*view_.room_mm)[0])), 0.5 * (a + b),
                       Vec2::Zero(), true);
    }

    void mark() {
        if (!view_.tight) return;
        const Vec2 a = paper_(Vec2(view_.tight->a.x(), view_.tight->a.y()));
        const Vec2 b = paper_(Vec2(view_.tight->b.x(), view_.tight->b.y()));
        drawing_.circle(0.5 * (a + b), std::max(1.6, 0.5 * (a - b).norm() + 1.0), Pen::kMedium);
    }

    void part() {
        drawEdges(drawing_, visibleEdges(partLines(view_.scene, bodies_), fromAbove()), paper_);
        const Bend& bend = view_.scene.part().bend(view_.scene.fold().bends.front());
        for (const PanelId panel : {bend.parent, bend.child}) {
            const bool moving = view_.scene.movingPanel(panel);
            const char* const what = is_press_ ? (moving ? "front: " : "back: ") : (moving ? "swings: " : "held: ");
            drawing_.label(what + view_.scene.part().panel(panel).name, middleOf(panel), Vec2(0, moving ? 1 : -1));
        }
    }

    void figures(const std::optional<BarDatum>& datum) {
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
            for (const PlacedBar& bar : view_.bars) {
                add(bar.from_mm, 0, 1);
                add(bar.to_mm, 0, 1);
            }
        }
        if (view_.room_mm) {
            for (const double end_mm : *view_.room_mm) add(end_mm, 0, 1);
        }
        drawOrdinates(drawing_, row, RowSide::kBottom, part_, 30, 30);
        drawing_.label(datum ? "0: edge " + datum->edge : std::string("0: left end of the bend"),
                       {paper_(Vec2(zero_mm, 0)).x(), part_.most.y()}, Vec2(1, 1).normalized(), false, 2);
    }

    /// Where the section is taken, with arrows the way that it is looked at.
    void cut() {
        const double x = paper_(Vec2(view_.cut_x_mm, 0)).x();
        for (const auto& [from, to] :
             {std::pair(part_.least.y() - 4, part_.least.y() - 1), std::pair(part_.most.y() + 4, part_.most.y() + 1)}) {
            drawing_.line({x, from}, {x, to}, Pen::kMedium);
            drawing_.line({x, from}, {x - 4, from}, Pen::kOutline);
            drawing_.arrowHead({x - 4, from}, Vec2(-1, 0));
            if (is_press_) {
                drawing_.text("A", {x + 1, from + 0.5 * labelHeight_mm()}, true);  // the rows leave little room to look
                                                                                   // for
            } else {
                drawing_.label("A", {x + 1, from}, Vec2(1, 0), true);
            }
        }
    }

    Drawing done() {
        drawing_.text(scaleText(paper_.scale) + "  from above; you stand at the foot", {1, kTopHead_mm - 0.4});
        drawing_.finish();
        return std::move(drawing_);
    }

private:
    /// From front to back: (y, z) of a piece's section.
    [[nodiscard]] Box across(const PlacedBar& bar) const {
        return boxAround(view_.scene.brake()->tool(bar.bar).profile);
    }

    [[nodiscard]] double depthOf(const PlacedBar& bar) const {
        const Polygon& profile = view_.scene.brake()->tool(bar.bar).profile;
        return profile.empty() ? view_.scene.brake()->bar(bar.bar)->clamp_depth_mm : boxAround(profile).most.x();
    }

    [[nodiscard]] Vec2 middleOf(PanelId panel) const {
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

    const FoldView& view_;
    bool is_press_;
    std::vector<PartBody> bodies_;
    double part_mm_;
    std::vector<Vec2> points_;
    Drawing drawing_;
    Box machine_;  ///< its ends, in x of the fold
    Box frame_;
    Box part_;  ///< what is drawn, on paper
    PaperView paper_;
};

Drawing pressTopDrawing(const FoldView& view, const std::optional<BarDatum>& datum, const std::string& title) {
    const PressRows rows(view, datum);
    TopPainter painter(view, title, kCutRoom_mm + rows.height_mm());
    painter.back();
    painter.dies();
    painter.machine();
    painter.part();
    painter.rows(rows, datum);
    painter.cut();
    return painter.done();
}

}  // namespace

Drawing topDrawing(const FoldView& view, const std::optional<BarDatum>& datum, const std::string& title) {
    if (view.scene.brake()->isPress()) return pressTopDrawing(view, datum, title);
    TopPainter painter(view, title, kFoot_mm);
    painter.bars();
    painter.machine();
    painter.part();
    painter.figures(datum);
    painter.cut();
    return painter.done();
}

Drawing contactFromAbove(const FoldView& view, const std::string& title) {
    TopPainter painter(view, title, kFoot_mm, view.tight_at);
    painter.room();
    painter.part();
    painter.mark();
    painter.figures(std::nullopt);
    if (!view.room_mm) painter.cut();
    return painter.done();
}

}  // namespace tinwright::report
