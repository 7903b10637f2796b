// SPDX-License-Identifier: GPL-3.0-or-later
#include "fold_drawings/leaf_section.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "drawings/piece_outline.h"
#include "paper/framed_view.h"
#include "paper/paper_view.h"
#include "scene/leaf_tools.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kLeafSectionWidth_mm = 91;
constexpr double kLeafSectionHeight_mm = 68;
constexpr double kLeafSectionHead_mm = 5;  // for the line that tells the view and the scale
constexpr double kLeafSectionBorder_mm = 1;
constexpr double kFarthest_mm = 260;  // sheet further from the nose than that is cut off
constexpr double kAngleStep_deg = 6;
constexpr double kTold_deg = 4;  // a ghost nearer than that to another one is left out

/// Draws into the frame; knows what is to be seen.
class LeafSectionPainter {
public:
    LeafSectionPainter(const FoldView& view, const std::string& title, Angle start, Angle end)
        : view_(view),
          scene_(view.scene),
          leaf_(leafFaceOf(view)),
          start_(start),
          end_(end),
          at_start_(scene_.at(start)),
          at_end_(scene_.at(end)),
          drawing_(title, kLeafSectionWidth_mm, kLeafSectionHeight_mm) {
        const Box frame{
            Vec2(kLeafSectionBorder_mm, kLeafSectionHead_mm),
            Vec2(kLeafSectionWidth_mm - kLeafSectionBorder_mm, kLeafSectionHeight_mm - kLeafSectionBorder_mm)};
        paper_ = framedView(drawing_, seen(), frame);
    }

    void tools() {
        tool(bedSection(scene_), Fill::kHatch, "bed");
        if (scene_.brake()->leaf().beam.has_value()) tool(beamSection(scene_, 400), Fill::kHatch, "beam");
        if (leaf_ != nullptr) tool(leafSection(scene_, *leaf_, start_), Fill::kHatch, "leaf");
        tool(packingOnLeaf(view_, start_), Fill::kSolid, "");
        tool(packingOnBed(view_), Fill::kSolid, view_.packing ? "packing" : "");
        std::vector<ToolId> drawn;
        for (const PlacedTool& placed : view_.bars) {
            if (placed.from_mm > view_.cut_x_mm || placed.to_mm < view_.cut_x_mm) continue;
            bar(placed.tool);
            drawn.push_back(placed.tool);
        }
        if (drawn.empty() && !view_.bars.empty()) bar(view_.bars.front().tool);
    }

    void part() {
        pieces(seenAlong(at_start_), Pen::kThin, Fill::kNone);
        pieces(cutAcross(at_start_, true, view_.cut_x_mm), Pen::kMedium, Fill::kPaper);
        pieces(cutAcross(at_start_, false, view_.cut_x_mm), Pen::kOutline, Fill::kSolid);
        nameSide(false, "held: ");
        nameSide(true, "swings: ");
    }

    void ghosts() {
        ghost(at_end_, Pen::kHidden);
        if (leaf_ != nullptr) drawing_.polygon(paper_(leafSection(scene_, *leaf_, end_)), Pen::kGhost, Fill::kNone);
        if (view_.packing) drawing_.polygon(paper_(packingOnLeaf(view_, end_)), Pen::kGhost, Fill::kNone);
        const double tight = view_.tight_at.deg();
        const bool apart = std::abs(tight - start_.deg()) > kTold_deg && std::abs(tight - end_.deg()) > kTold_deg;
        if (view_.tight && apart) ghost(scene_.at(view_.tight_at), Pen::kGhost);
    }

    /// The way of the far end of the swing, with the angle at its arrow.
    void swingArrow(const std::string& words) {
        const Vec2 centre(scene_.brake().inside_radius_mm(), scene_.thickness_mm() + scene_.brake().inside_radius_mm());
        const double radius = arrowRadius();
        std::vector<Vec2> arc;
        for (double deg = start_.deg(); deg <= end_.deg(); deg += kAngleStep_deg)
            arc.push_back(paper_(onArc(centre, radius, deg)));
        arc.push_back(paper_(onArc(centre, radius, end_.deg())));
        if (arc.size() < 2) return;
        drawing_.polyline(arc, Pen::kOutline);
        drawing_.arrowHead(arc.back(), arc.back() - arc[arc.size() - 2]);
        drawing_.label(words, arc[arc.size() / 2], Vec2(-1, -1).normalized(), true);
    }

    void mark(const std::string& words) {
        if (!view_.tight) return;
        const Vec2 a = paper_(Vec2(view_.tight->a.y(), view_.tight->a.z()));
        const Vec2 b = paper_(Vec2(view_.tight->b.y(), view_.tight->b.z()));
        drawing_.circle(0.5 * (a + b), std::max(1.6, 0.5 * (a - b).norm() + 1.0), Pen::kMedium);
        drawing_.label(words, 0.5 * (a + b), Vec2::Zero(), true, 2.2);
    }

    Drawing done(const std::string& head) {
        drawing_.text(fmt::format("{}  {}", scaleText(paper_.scale), head),
                      {kLeafSectionBorder_mm, kLeafSectionHead_mm - 0.4});
        drawing_.finish();
        return std::move(drawing_);
    }

private:
    [[nodiscard]] static Vec2 onArc(const Vec2& centre, double radius, double deg) {
        const SinCos turn = sinCos(Angle::degrees(deg));
        return centre + radius * Vec2(-turn.cos, turn.sin);
    }

    [[nodiscard]] double arrowRadius() const {
        const double reach = leaf_ != nullptr ? leaf_->reach_mm : 20.0;
        return reach + 8.0 / paper_.scale * 0.5;
    }

    void gather(const std::vector<PartBody>& bodies, std::vector<Vec2>& points) const {
        for (const PartBody& body : bodies) {
            for (const Slab& slab : body.slabs) {
                for (const Vec3& p : slab.lower)
                    points.emplace_back(Vec2(p.y(), p.z()).cwiseMax(-kFarthest_mm).cwiseMin(kFarthest_mm));
                for (const Vec3& p : slab.upper)
                    points.emplace_back(Vec2(p.y(), p.z()).cwiseMax(-kFarthest_mm).cwiseMin(kFarthest_mm));
            }
        }
    }

    /// The model's window: bars, leaf and as much of the part as is near.
    [[nodiscard]] Box seen() const {
        std::vector<Vec2> points;
        gather(at_start_, points);
        gather(at_end_, points);
        const auto add = [&](const Polygon& section) { points.insert(points.end(), section.begin(), section.end()); };
        for (const PlacedTool& bar : view_.bars) add(barSection(scene_, scene_.brake()->tool(bar.tool)));
        if (leaf_ != nullptr) {
            add(leafSection(scene_, *leaf_, start_));
            add(leafSection(scene_, *leaf_, end_));
        }
        if (scene_.brake()->leaf().beam.has_value()) points.push_back(beamSection(scene_, 10)[0] + Vec2(10, 10));
        return boxAround(points);
    }

    void tool(const Polygon& section, Fill fill, const std::string& name) {
        if (section.size() < 3) return;
        drawing_.polygon(paper_(section), Pen::kOutline, fill);
        const std::vector<Vec2> corners = paper_(section);
        Vec2 middle = Vec2::Zero();
        for (const Vec2& corner : corners)
            middle += corner.cwiseMax(Vec2(kLeafSectionBorder_mm + 2, kLeafSectionHead_mm + 2))
                          .cwiseMin(Vec2(kLeafSectionWidth_mm - 3, kLeafSectionHeight_mm - 3));
        if (!name.empty()) drawing_.label(name, middle / static_cast<double>(corners.size()), Vec2::Zero(), false);
    }

    void bar(ToolId id) {
        const Tool& kind = scene_.brake()->tool(id);
        if (kind.profile.size() < 3) return;
        tool(barSection(scene_, kind), Fill::kCross, "bar " + kind.id);
    }

    void ghost(const std::vector<PartBody>& bodies, Pen pen) {
        pieces(cutAcross(bodies, true, view_.cut_x_mm), pen, Fill::kNone);
    }

    void pieces(std::vector<Polygon> cuts, Pen pen, Fill fill) {
        const PieceOutline outline = outlineOf(std::move(cuts));
        for (const Polygon& piece : outline.pieces) {
            if (fill != Fill::kNone) drawing_.polygon(paper_(piece), Pen::kNone, fill);
        }
        std::vector<std::pair<Vec2, Vec2>> border;
        for (const auto& [from, to] : outline.border) border.emplace_back(paper_(from), paper_(to));
        drawing_.lines(border, pen);
    }

    void nameSide(bool moving, const std::string& before) {
        const Bend& bend = scene_.part().bend(scene_.fold().stroke.first());
        const PanelId panel = scene_.movingPanel(bend.parent) == moving ? bend.parent : bend.child;
        const double side = moving ? -1 : 1;
        const double off = std::min(12.0 / paper_.scale, 30.0) * side;
        drawing_.label(before + scene_.part().panel(panel).name,
                       paper_(Vec2(off, moving ? 0.5 * scene_.thickness_mm() : 0)), Vec2(side, 1).normalized(), false);
    }

    const FoldView& view_;
    const FoldScene& scene_;
    const LeafFace* leaf_;
    Angle start_;
    Angle end_;
    std::vector<PartBody> at_start_;
    std::vector<PartBody> at_end_;
    Drawing drawing_;
    PaperView paper_;
};

}  // namespace

Drawing leafSectionDrawing(const FoldView& view, const std::string& title) {
    LeafSectionPainter painter(view, title, Angle(), view.scene.fold().set_angle);
    painter.tools();
    painter.ghosts();
    painter.part();
    painter.mark(
        fmt::format("{} mm at {}", atLeastMillimetres(view.tight_mm), degrees(std::round(view.tight_at.deg()))));
    painter.swingArrow("set " + degrees(view.scene.fold().set_angle.deg()));
    return painter.done("A-A, from the right end; you stand left");
}

Drawing leafContactDrawing(const FoldView& view, const std::string& title, double depth_mm) {
    LeafSectionPainter painter(view, title, view.tight_at, view.scene.fold().set_angle);
    painter.tools();
    painter.ghosts();
    painter.part();
    std::string words = "touches at " + degrees(std::round(view.tight_at.deg()));
    if (depth_mm > 0) words += fmt::format(", {} mm in", millimetres(depth_mm));
    painter.mark(words);
    return painter.done("A-A, from the right end; you stand left");
}

}  // namespace tinwright::report
