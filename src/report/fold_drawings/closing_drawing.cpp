// SPDX-License-Identifier: GPL-3.0-or-later
#include "fold_drawings/closing_drawing.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>

#include "fold_drawings/fold_drawings.h"
#include "kinds/brake_words.h"
#include "paper/framed_view.h"
#include "paper/paper_view.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kClosingWidth_mm = 91;
constexpr double kClosingHeight_mm = 42;
constexpr double kClosingHead_mm = 5;
constexpr double kClosingBorder_mm = 1;
constexpr double kAside_mm = 9;  // of tools and sheet, drawn beside the hem
constexpr double kArcStep_rad = 0.1;

/// The sheet in section: level up to the start of the arc, the arc, and the return past it.
struct FoldedSheet {
    double from_y = 0;
    double arc_y = 0;
    double radius_mm = 0;
    double angle_rad = 0;
    double return_mm = 0;
    double thickness_mm = 0;

    [[nodiscard]] Polygon outline() const {
        Polygon ring{{from_y, 0}};
        const int steps = static_cast<int>(std::ceil(angle_rad / kArcStep_rad));
        for (int i = 0; i <= steps; ++i) ring.push_back(onArc(radius_mm + thickness_mm, angle_rad * i / steps));
        const Vec2 out = return_mm * Vec2(std::cos(angle_rad), std::sin(angle_rad));
        ring.push_back(ring.back() + out);
        ring.push_back(onArc(radius_mm, angle_rad) + out);
        for (int i = steps; i >= 0; --i) ring.push_back(onArc(radius_mm, angle_rad * i / steps));
        ring.emplace_back(from_y, thickness_mm);
        return ring;
    }

private:
    [[nodiscard]] Vec2 onArc(double radius, double angle) const {
        return Vec2(arc_y, thickness_mm + radius_mm) + radius * Vec2(std::sin(angle), -std::cos(angle));
    }
};

class ClosingPainter {
public:
    ClosingPainter(const Part& folded, const BrakeInSetup& brake, const FoldStep& step, const std::string& title)
        : part_(folded),
          brake_(brake),
          step_(step),
          closing_(*step.closing),
          bend_(folded.bend(step.stroke.first())),
          closed_(finished(bend_)),
          drawing_(title, kClosingWidth_mm, kClosingHeight_mm) {
        const Box window{Vec2(closing_.front_mm - kAside_mm, -kAside_mm),
                         Vec2(crest() + kAside_mm, closing_.stands_mm + kAside_mm)};
        const Box frame{Vec2(kClosingBorder_mm, kClosingHead_mm),
                        Vec2(kClosingWidth_mm - kClosingBorder_mm, kClosingHeight_mm - kClosingBorder_mm)};
        paper_ = framedView(drawing_, window, frame);
    }

    Drawing run() {
        for (const ToolSection& one : drawingsFor(*brake_).closingTools(brake_, step_))
            tool(one.section, one.fill, one.name);
        sheet();
        measures();
        drawing_.text(fmt::format("{}  closing it; you stand left", scaleText(paper_.scale)),
                      {kClosingBorder_mm, kClosingHead_mm - 0.4});
        drawing_.finish();
        return std::move(drawing_);
    }

private:
    [[nodiscard]] double crest() const { return closing_.front_mm + closing_.inserted_mm; }

    void sheet() {
        const double far = closing_.front_mm - 2 * kAside_mm;
        const double inner = closed_.inside_radius_mm + part_.thickness_mm;
        const double return_mm = closing_.inserted_mm - kPast_mm - inner;
        const double line_y = crest() - inner + 0.5 * closed_.allowance_mm;
        const FoldedSheet closed{far,       crest() - inner,   closed_.inside_radius_mm, closed_.angle.rad(),
                                 return_mm, part_.thickness_mm};
        const FoldedSheet first{far,
                                line_y - 0.5 * bend_.allowance_mm,
                                bend_.inside_radius_mm,
                                bend_.angle.rad(),
                                return_mm + 0.5 * (closed_.allowance_mm - bend_.allowance_mm),
                                part_.thickness_mm};
        drawing_.polygon(paper_(first.outline()), Pen::kHidden, Fill::kPaper);
        drawing_.polygon(paper_(closed.outline()), Pen::kOutline, Fill::kSolid);
        drawing_.label(part_.panel(bend_.parent).name, paper_(Vec2(closing_.front_mm - 0.7 * kAside_mm, 0)),
                       Vec2(-1, 1).normalized(), false);
        drawing_.label(
            "folded to " + wordsFor(*brake_).angle(bend_.angle.deg()),
            paper_(0.5 * (first.outline()[first.outline().size() / 2] + Vec2(closing_.front_mm, closing_.stands_mm))),
            Vec2(-1, -1).normalized(), false);
    }

    void measures() {
        const double under = -0.5 * kAside_mm;
        const Vec2 a = paper_(Vec2(closing_.front_mm, under));
        const Vec2 b = paper_(Vec2(crest(), under));
        drawing_.line(paper_(Vec2(closing_.front_mm, 0)), a, Pen::kThin);
        drawing_.line(paper_(Vec2(crest(), 0)), b, Pen::kThin);
        drawing_.arrow(a, b, Pen::kOutline);
        drawing_.label(fmt::format("push in {} mm", millimetres(closing_.inserted_mm)), 0.5 * (a + b), Vec2(0, 1),
                       true);
        drawing_.label(fmt::format("close to {} mm", millimetres(closing_.height_mm)),
                       paper_(Vec2(crest(), closing_.height_mm)), Vec2(1, -1).normalized(), true);
    }

    void tool(const Polygon& section, Fill fill, const std::string& name) {
        if (section.size() < 3) return;
        drawing_.polygon(paper_(section), Pen::kOutline, fill);
        if (name.empty()) return;
        const std::vector<Vec2> corners = paper_(section);
        Vec2 middle = Vec2::Zero();
        for (const Vec2& corner : corners)
            middle += corner.cwiseMax(Vec2(kClosingBorder_mm + 2, kClosingHead_mm + 2))
                          .cwiseMin(Vec2(kClosingWidth_mm - 3, kClosingHeight_mm - 3));
        drawing_.label(name, middle / static_cast<double>(corners.size()), Vec2::Zero(), false);
    }

    static constexpr double kPast_mm = 1.0;  // the return ends so far within the flats (src/fold/NOTES.md, Hems)
    const Part& part_;
    const BrakeInSetup& brake_;
    const FoldStep& step_;
    const HemClosing& closing_;
    const Bend& bend_;
    const Bend closed_;
    Drawing drawing_;
    PaperView paper_;
};

}  // namespace

Drawing closingDrawing(const PartOnBrake& folded, const BrakeInSetup& brake, const FoldStep& step,
                       const std::string& title) {
    return ClosingPainter(folded.part(), brake, step, title).run();
}

}  // namespace tinwright::report
