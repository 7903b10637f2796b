// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/polygons.h>

#include "fold_drawings/fold_drawings.h"
#include "fold_drawings/press_rows.h"
#include "fold_drawings/press_section.h"
#include "fold_drawings/top_painter.h"
#include "scene/press_tools.h"

namespace tinwright::report {
namespace {

constexpr double kCutRoom_mm = 9;  // of the mark where the section is taken, over and under the part

/// Less paper for the part, since rows of punches and dies are to come on the same page.
constexpr TopStyle kPressTop{.part_mm = 46,
                             .over_part_mm = kCutRoom_mm,
                             .bend_line = "bend line",
                             .held = "back: ",
                             .moving = "front: ",
                             .has_room = false};

std::vector<Box> piecesFromAbove(const FoldView& view) {
    std::vector<Box> boxes;
    for (const PlacedTool& piece : view.bars) {
        const Box section = boxAround(view.scene.brake()->tool(piece.tool).profile);
        boxes.push_back({Vec2(piece.from_mm, section.least.x()), Vec2(piece.to_mm, section.most.x())});
    }
    return boxes;
}

Box fromAboveOf(const PressTool& tool) {
    const Box section = boxAround(tool.section);
    return {Vec2(tool.from_mm, section.least.x()), Vec2(tool.to_mm, section.most.x())};
}

/// What it has at the back.
void drawBack(TopPainter& painter, const FoldView& view) {
    for (const PressTool& tool : pressTools(view, 0)) {
        if (tool.body.kind != BodyRef::Kind::kFrame) continue;
        const Box box = fromAboveOf(tool);
        const Vec2 a = painter.paper()(Vec2(box.least.x(), box.most.y()));
        const Vec2 b = painter.paper()(Vec2(box.most.x(), box.least.y()));
        const Box seen{a.cwiseMax(Vec2(1, kTopHead_mm)), b.cwiseMin(Vec2(kTopWidth_mm - 1, painter.drawn().most.y()))};
        if (seen.size().x() <= 0 || seen.size().y() <= 0) continue;
        painter.covers(box, Pen::kMedium, Fill::kHatch);
        painter.drawing().label("side frame", 0.5 * (seen.least + seen.most), Vec2::Zero());
    }
    if (view.scene.brake()->press().gauge)
        painter.drawing().label("back gauge", {0.5 * kTopWidth_mm, painter.drawn().least.y()}, Vec2(0, -1));
}

/// Dies lie under the sheet; of punches, over it, the outline alone.
void drawPieces(TopPainter& painter, const FoldView& view) {
    for (const PressTool& tool : pressTools(view, 0)) {
        const bool is_die = tool.body.kind == BodyRef::Kind::kDie;
        if (!is_die && tool.body.kind != BodyRef::Kind::kPunch) continue;
        painter.covers(fromAboveOf(tool), is_die ? Pen::kThin : Pen::kOutline, is_die ? Fill::kTint : Fill::kNone);
    }
}

void drawRows(TopPainter& painter, const PressRows& rows, const std::optional<BarDatum>& datum) {
    const double top_mm = painter.drawn().most.y() + kCutRoom_mm;
    rows.draw(painter.drawing(), painter.paper(), painter.drawn(), top_mm);
    const double zero = painter.paper()(Vec2(datum ? datum->x_mm : 0.0, 0)).x();
    painter.drawing().line({zero, painter.paper()(Vec2(0, 0)).y()}, {zero, top_mm}, Pen::kThin);
    painter.nameZero(datum);
}

/// The die's halves with the jaw shut on the hem.
std::vector<ToolSection> shutJaw(const Die& die, const Jaw& jaw, const HemClosing& closing) {
    constexpr double kAll_mm = 1e4;
    const Region section{shifted(die.profile, Vec2(0, die.height_mm - jaw.floor_mm)), {}};
    const double back = closing.front_mm + jaw.depth_mm;
    const double sinks = jaw.opening_mm - closing.height_mm;
    std::vector<ToolSection> halves;
    const auto add = [&](const Polygon& where, double down_mm, const std::string& name) {
        for (const Region& piece : intersection(section, where))
            halves.push_back({shifted(piece.outline, Vec2(0, -down_mm)), Fill::kCross, name});
    };
    add(rectangle(-kAll_mm, kAll_mm, -kAll_mm, 0), 0, "die " + die.id);
    add(rectangle(back, kAll_mm, 0, jaw.opening_mm), 0, "");
    add(rectangle(-kAll_mm, kAll_mm, jaw.opening_mm, kAll_mm), sinks, "its upper half, pressed down");
    return halves;
}

class PressDrawings final : public FoldDrawings {
public:
    [[nodiscard]] Drawing section(const FoldView& view, const std::string& title) const override {
        return pressSectionDrawing(view, title);
    }

    [[nodiscard]] Drawing contact(const FoldView& view, const std::string& title, double depth_mm) const override {
        return pressContactDrawing(view, title, depth_mm);
    }

    /// Dies lie under the part, side frames that are near stand behind it, and punches and dies are shown from the
    /// front at the foot.
    [[nodiscard]] Drawing fromAbove(const FoldView& view, const std::optional<BarDatum>& datum,
                                    const std::string& title) const override {
        const PressRows rows(view, datum);
        TopPainter painter(view, title, kPressTop, piecesFromAbove(view), kCutRoom_mm + rows.height_mm());
        drawBack(painter, view);
        drawPieces(painter, view);
        painter.machine();
        painter.part();
        drawRows(painter, rows, datum);
        painter.cut();
        return painter.done();
    }

    [[nodiscard]] Drawing contactFromAbove(const FoldView& view, const std::string& title) const override {
        return paintContactFromAbove(view, title, kPressTop, piecesFromAbove(view));
    }

    [[nodiscard]] std::vector<ToolSection> closingTools(const BrakeInSetup& brake,
                                                        const FoldStep& step) const override {
        const Die* die = firstTool(*brake, step, &Brake::die);
        if (die == nullptr || !die->jaw) return {};
        return shutJaw(*die, *die->jaw, *step.closing);
    }
};

}  // namespace

const FoldDrawings& drawingsOfKind(const PressBrake& /*kind*/) {
    static const PressDrawings kDrawings;
    return kDrawings;
}

}  // namespace tinwright::report
