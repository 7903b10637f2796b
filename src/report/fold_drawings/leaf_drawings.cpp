// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/polygons.h>

#include "fold_drawings/fold_drawings.h"
#include "fold_drawings/leaf_section.h"
#include "fold_drawings/top_painter.h"

namespace tinwright::report {
namespace {

constexpr TopStyle kLeafTop{.part_mm = 58,
                            .over_part_mm = 5,
                            .bend_line = "nose line",
                            .held = "held: ",
                            .moving = "swings: ",
                            .has_room = true};

double depth_mm(const Brake& brake, const PlacedTool& bar) {
    const Polygon& profile = brake.tool(bar.tool).profile;
    return profile.empty() ? brake.bar(bar.tool)->clamp_depth_mm : boxAround(profile).most.x();
}

/// From the nose line back.
std::vector<Box> barsFromAbove(const FoldView& view) {
    std::vector<Box> boxes;
    for (const PlacedTool& bar : view.bars)
        boxes.push_back({Vec2(bar.from_mm, 0), Vec2(bar.to_mm, depth_mm(*view.scene.brake(), bar))});
    return boxes;
}

void drawBars(TopPainter& painter, const FoldView& view, const std::vector<Box>& boxes) {
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        painter.covers(boxes[i], Pen::kMedium, Fill::kTint);
        const Vec2 a = painter.paper()(Vec2(boxes[i].least.x(), boxes[i].most.y()));
        const Vec2 b = painter.paper()(Vec2(boxes[i].most.x(), boxes[i].least.y()));
        painter.drawing().label(view.scene.brake()->tool(view.bars[i].tool).id,
                                0.5 * (a + b) - Vec2(0, 0.25 * (b.y() - a.y())), Vec2::Zero(), true, -2.0);
    }
}

class LeafDrawings final : public FoldDrawings {
public:
    [[nodiscard]] Drawing section(const FoldView& view, const std::string& title) const override {
        return leafSectionDrawing(view, title);
    }

    [[nodiscard]] Drawing contact(const FoldView& view, const std::string& title, double depth_mm) const override {
        return leafContactDrawing(view, title, depth_mm);
    }

    [[nodiscard]] Drawing fromAbove(const FoldView& view, const std::optional<BarDatum>& datum,
                                    const std::string& title) const override {
        const std::vector<Box> bars = barsFromAbove(view);
        TopPainter painter(view, title, kLeafTop, bars, kTopFoot_mm);
        drawBars(painter, view, bars);
        painter.machine();
        painter.part();
        painter.figures(datum);
        painter.cut();
        return painter.done();
    }

    [[nodiscard]] Drawing contactFromAbove(const FoldView& view, const std::string& title) const override {
        return paintContactFromAbove(view, title, kLeafTop, barsFromAbove(view));
    }

    /// Bed, leaf at rest, and the bar that comes down on the hem.
    [[nodiscard]] std::vector<ToolSection> closingTools(const BrakeInSetup& brake,
                                                        const FoldStep& step) const override {
        const double setback = brake.setback_mm();
        std::vector<ToolSection> tools{{shifted(brake->leaf().bed, Vec2(-setback, 0)), Fill::kHatch, "bed"}};
        for (const LeafFace& face : brake->leaf().leaf_faces) {
            if (face.name == step.leaf_face)
                tools.push_back(
                    {rectangle(-setback - face.reach_mm, -setback, -face.thickness_mm, 0), Fill::kHatch, "leaf"});
        }
        if (const Bar* bar = firstTool(*brake, step, &Brake::bar))
            tools.push_back({shifted(bar->profile, Vec2(0, step.closing->height_mm)), Fill::kCross, "bar " + bar->id});
        return tools;
    }
};

}  // namespace

const FoldDrawings& drawingsOfKind(const LeafBrake& /*kind*/) {
    static const LeafDrawings kDrawings;
    return kDrawings;
}

}  // namespace tinwright::report
