// SPDX-License-Identifier: GPL-3.0-or-later
#include "fold_drawings/press_section.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "drawings/piece_outline.h"
#include "paper/framed_view.h"
#include "paper/paper_view.h"
#include "scene/press_tools.h"
#include "words/text_width.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kPressSectionWidth_mm = 91;
constexpr double kPressSectionHeight_mm = 86;
constexpr double kPressSectionHead_mm = 5;  // for the line that tells the view and the scale
constexpr double kPressSectionBorder_mm = 1;
constexpr double kFarOut_mm = 100;  // sheet further in front of the punch or behind it is cut off
constexpr double kFarUp_mm = 260;
constexpr double kSeatShown_mm = 12;  // of ram and bed, past punch and die
constexpr double kPressStep_deg = 3;
constexpr double kFingerShown_mm = 5;  // of the back gauge, on paper
constexpr double kPressTold_deg = 4;   // a ghost nearer than that to another one is left out

/// Draws into the frame; knows what is to be seen.
class PressSectionPainter {
public:
    PressSectionPainter(const FoldView& view, const std::string& title, Angle drawn)
        : view_(view),
          scene_(view.scene),
          drawn_(drawn),
          flat_(scene_.at(Angle())),
          bent_(scene_.at(drawn)),
          drawing_(title, kPressSectionWidth_mm, kPressSectionHeight_mm) {
        const Box frame{
            Vec2(kPressSectionBorder_mm, kPressSectionHead_mm),
            Vec2(kPressSectionWidth_mm - kPressSectionBorder_mm, kPressSectionHeight_mm - kPressSectionBorder_mm)};
        paper_ = framedView(drawing_, seen(), frame);
    }

    void tools() {
        const std::vector<PressTool> tools = pressTools(view_, scene_.punchDown_mm(drawn_));
        for (const PressTool& tool : tools) {
            if (tool.section.size() < 3) continue;
            if (isCut(tool)) {
                cut(tool);
            } else if (tool.body.kind == BodyRef::Kind::kFrame || isNextToCut(tool, tools)) {
                drawing_.polygon(paper_(tool.section), Pen::kThin, Fill::kNone);
                name(tool.section, bodyName(scene_.part(), scene_.brake(), tool.body));
            }
        }
    }

    void part() {
        pieces(seenAlong(bent_), Pen::kThin, Fill::kNone);
        for (const bool moving : {true, false})
            pieces(cutAcross(bent_, moving, view_.cut_x_mm), Pen::kOutline, Fill::kSolid);
        nameSide(true, "front: ");
        nameSide(false, "back: ");
    }

    void flatBefore() { ghost(flat_, Pen::kHidden); }

    /// The sheet at another angle, with the punch where it is then.
    void alsoAt(Angle angle) {
        ghost(scene_.at(angle), Pen::kGhost);
        for (const PressTool& tool : pressTools(view_, scene_.punchDown_mm(angle))) {
            if (isCut(tool) && tool.comesDown()) drawing_.polygon(paper_(tool.section), Pen::kGhost, Fill::kNone);
        }
    }

    void tightest() {
        const double tight = view_.tight_at.deg();
        if (view_.tight && tight > kPressTold_deg && std::abs(tight - drawn_.deg()) > kPressTold_deg)
            alsoAt(view_.tight_at);
    }

    /// The way of both sides, with the angle at the front's arrow.
    void rise(const std::string& words) {
        for (const double side : {-1.0, 1.0}) {
            const double radius = 0.7 * flatReach(side);
            std::vector<Vec2> way;
            for (double deg = 0; deg < drawn_.deg(); deg += kPressStep_deg)
                way.push_back(paper_(onWay(side, radius, Angle::degrees(deg))));
            way.push_back(paper_(onWay(side, radius, drawn_)));
            if (way.size() < 2) return;
            drawing_.polyline(way, Pen::kOutline);
            drawing_.arrowHead(way.back(), way.back() - way[way.size() - 2]);
            if (side < 0) drawing_.label(words, way[way.size() / 2], Vec2(-1, -1).normalized(), true);
        }
    }

    /// The finger at its stop, or where it is further back than is drawn, which way it lies.
    void backGauge() {
        const std::string words =
            view_.gauge ? fmt::format("stop {} mm", millimetres(view_.gauge->distance_mm)) : "back gauge";
        const double right = kPressSectionWidth_mm - kPressSectionBorder_mm - 1;
        if (view_.gauge && paper_(Vec2(view_.gauge->distance_mm, 0)).x() < right - kFingerShown_mm)
            return finger(*view_.gauge, words);
        const double foot = std::min(paper_(Vec2(0, 0)).y() + 1 + labelHeight_mm(), kPressSectionHeight_mm - 4);
        const double left = right - textWidth_mm(words);
        drawing_.text(words, {left, foot});
        drawing_.arrow({left, foot + 1.2}, {right, foot + 1.2}, Pen::kOutline);
    }

    void mark(const std::string& words) {
        if (!view_.tight) return;
        const Vec2 a = paper_(Vec2(view_.tight->a.y(), view_.tight->a.z()));
        const Vec2 b = paper_(Vec2(view_.tight->b.y(), view_.tight->b.z()));
        drawing_.circle(0.5 * (a + b), std::max(1.6, 0.5 * (a - b).norm() + 1.0), Pen::kMedium);
        drawing_.label(words, 0.5 * (a + b), Vec2::Zero(), true, 2.2);
    }

    Drawing done() {
        drawing_.text(fmt::format("{}  A-A, from the right end; you stand left", scaleText(paper_.scale)),
                      {kPressSectionBorder_mm, kPressSectionHead_mm - 0.4});
        drawing_.finish();
        return std::move(drawing_);
    }

private:
    [[nodiscard]] double fromCut_mm(const PressTool& tool) const {
        return std::max(tool.from_mm - view_.cut_x_mm, view_.cut_x_mm - tool.to_mm);
    }
    [[nodiscard]] bool isCut(const PressTool& tool) const { return fromCut_mm(tool) <= 0; }

    /// Of a row with none where it is cut, the piece that is seen there.
    [[nodiscard]] bool isNextToCut(const PressTool& tool, const std::vector<PressTool>& tools) const {
        return std::none_of(tools.begin(), tools.end(), [&](const PressTool& other) {
            return other.body.kind == tool.body.kind &&
                   (fromCut_mm(other) < fromCut_mm(tool) || (fromCut_mm(other) == fromCut_mm(tool) && &other < &tool));
        });
    }

    void cut(const PressTool& tool) {
        const bool is_piece = tool.body.kind == BodyRef::Kind::kPunch || tool.body.kind == BodyRef::Kind::kDie;
        for (const Slab& slab : tool.slabs) {
            const Polygon piece = cutAcross(slab, view_.cut_x_mm);
            if (piece.size() >= 3) fill(piece, is_piece ? Fill::kCross : Fill::kHatch);
        }
        drawing_.polygon(paper_(tool.section), Pen::kOutline, Fill::kNone);
        name(tool.section, bodyName(scene_.part(), scene_.brake(), tool.body));
    }

    /// Where a place of the sheet, so far from the bend line, gets to.
    [[nodiscard]] Vec2 onWay(double side, double radius_mm, Angle angle) const {
        const SinCos half = sinCos(Angle::radians(0.5 * angle.rad()));
        return {side * radius_mm * half.cos, radius_mm * half.sin - scene_.punchDown_mm(angle)};
    }

    /// How far the flat sheet goes on one side where it is cut, as far as it is seen.
    [[nodiscard]] double flatReach(double side) const {
        double reach = 10;
        for (const Polygon& piece : cutAcross(flat_, side < 0, view_.cut_x_mm)) {
            for (const Vec2& p : piece) {
                if (std::abs(p.y()) < 2 * scene_.thickness_mm()) reach = std::max(reach, side * p.x());
            }
        }
        return std::min(reach, kFarOut_mm);
    }

    void gather(const std::vector<PartBody>& bodies, std::vector<Vec2>& points) const {
        const Vec2 far(kFarOut_mm, kFarUp_mm);
        for (const PartBody& body : bodies) {
            for (const Slab& slab : body.slabs) {
                for (const auto* ring : {&slab.lower, &slab.upper}) {
                    for (const Vec3& p : *ring) points.emplace_back(Vec2(p.y(), p.z()).cwiseMax(-far).cwiseMin(far));
                }
            }
        }
    }

    /// The model's window: punch, die, where they are seated, and as much of the part as is near.
    [[nodiscard]] Box seen() const {
        std::vector<Vec2> points;
        gather(flat_, points);
        gather(bent_, points);
        for (const PressTool& tool : pressTools(view_, scene_.punchDown_mm(drawn_))) {
            const Box box = boxAround(tool.section);
            if (tool.body.kind == BodyRef::Kind::kPunch || tool.body.kind == BodyRef::Kind::kDie)
                points.insert(points.end(), {box.least, box.most});
            if (tool.body.kind == BodyRef::Kind::kRam) points.emplace_back(0, box.least.y() + kSeatShown_mm);
            if (tool.body.kind == BodyRef::Kind::kBed) points.emplace_back(0, box.most.y() - kSeatShown_mm);
        }
        if (view_.tight) {
            for (const Vec3& p : {view_.tight->a, view_.tight->b}) points.emplace_back(p.y(), p.z());
        }
        return boxAround(points);
    }

    void fill(const Polygon& section, Fill fill) { drawing_.polygon(paper_(section), Pen::kNone, fill); }

    /// Where it stands before the stroke; it draws back from the sheet as that rises.
    void finger(const GaugeStop& stop, const std::string& words) {
        const double low = stop.fingers_z_mm;
        const double high = low + scene_.brake()->press().gauge->finger_height_mm;
        constexpr double kDrawn_mm = 500;
        drawing_.polygon(paper_(Polygon{{stop.distance_mm, low},
                                        {stop.distance_mm + kDrawn_mm, low},
                                        {stop.distance_mm + kDrawn_mm, high},
                                        {stop.distance_mm, high}}),
                         Pen::kMedium, Fill::kTint);
        drawing_.label(words, paper_(Vec2(stop.distance_mm, 0.5 * (low + high))), Vec2(1, 1).normalized(), true);
    }

    /// In the middle of what is seen of it.
    void name(const Polygon& section, const std::string& words) {
        const Box box = boxAround(paper_(section));
        const Vec2 least = box.least.cwiseMax(Vec2(kPressSectionBorder_mm + 2, kPressSectionHead_mm + 2));
        const Vec2 most = box.most.cwiseMin(Vec2(kPressSectionWidth_mm - 3, kPressSectionHeight_mm - 3));
        if (least.x() < most.x() && least.y() < most.y())
            drawing_.label(words, 0.5 * (least + most), Vec2::Zero(), false);
    }

    void ghost(const std::vector<PartBody>& bodies, Pen pen) {
        for (const bool moving : {true, false}) pieces(cutAcross(bodies, moving, view_.cut_x_mm), pen, Fill::kNone);
    }

    void pieces(std::vector<Polygon> cuts, Pen pen, Fill fill_with) {
        const PieceOutline outline = outlineOf(std::move(cuts));
        for (const Polygon& piece : outline.pieces) {
            if (fill_with != Fill::kNone) fill(piece, fill_with);
        }
        std::vector<std::pair<Vec2, Vec2>> border;
        for (const auto& [from, to] : outline.border) border.emplace_back(paper_(from), paper_(to));
        drawing_.lines(border, pen);
    }

    void nameSide(bool moving, const std::string& before) {
        const Bend& bend = scene_.part().bend(scene_.fold().stroke.first());
        const PanelId panel = scene_.movingPanel(bend.parent) == moving ? bend.parent : bend.child;
        const double side = moving ? -1 : 1;
        drawing_.label(before + scene_.part().panel(panel).name, paper_(onWay(side, 0.9 * flatReach(side), drawn_)),
                       Vec2(side, 0.3).normalized(), false);
    }

    const FoldView& view_;
    const FoldScene& scene_;
    Angle drawn_;
    std::vector<PartBody> flat_;
    std::vector<PartBody> bent_;
    Drawing drawing_;
    PaperView paper_;
};

}  // namespace

Drawing pressSectionDrawing(const FoldView& view, const std::string& title) {
    const Angle set = view.scene.fold().set_angle;
    PressSectionPainter painter(view, title, set);
    painter.tools();
    painter.flatBefore();
    painter.tightest();
    painter.part();
    painter.backGauge();
    painter.mark(fmt::format("{} mm at {}", atLeastMillimetres(view.tight_mm),
                             includedAndTurned(std::round(view.tight_at.deg()))));
    painter.rise("set " + includedAndTurned(set.deg()));
    return painter.done();
}

Drawing pressContactDrawing(const FoldView& view, const std::string& title, double depth_mm) {
    PressSectionPainter painter(view, title, view.tight_at);
    painter.tools();
    painter.flatBefore();
    painter.alsoAt(view.scene.fold().set_angle);
    painter.part();
    std::string words = "touches at " + includedAndTurned(std::round(view.tight_at.deg()));
    if (depth_mm > 0) words += fmt::format(", {} mm in", millimetres(depth_mm));
    painter.mark(words);
    return painter.done();
}

}  // namespace tinwright::report
