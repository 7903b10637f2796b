// SPDX-License-Identifier: GPL-3.0-or-later
#include "fold_drawings/press_rows.h"

#include <algorithm>
#include <cmath>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "paper/ordinates.h"
#include "words/text_width.h"

namespace tinwright::report {
namespace {

constexpr double kPunch_mm = 7;  // of paper
constexpr double kDie_mm = 6;
constexpr double kSheet_mm = 1.2;  // between the rows
constexpr double kHorn_mm = 2.2;   // of a punch's height that its horn takes
constexpr double kOver_mm = 1;     // free paper over all
constexpr double kSameEnd_mm = 0.05;

bool alike(const std::vector<double>& a, const std::vector<double>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](double x, double y) { return std::abs(x - y) < kSameEnd_mm; });
}

std::vector<Ordinate> ordinates(const std::vector<double>& ends_mm, double zero_mm) {
    std::vector<Ordinate> row;
    for (const double end_mm : ends_mm) row.push_back({end_mm - zero_mm, Vec2::Zero(), "", 1});
    row.push_back({0, Vec2::Zero(), "", 2});
    return row;
}

/// From the left foot round; a horn's tip reaches past the body.
std::vector<Vec2> outline(const PlacedTool& piece, const Punch* punch, const PaperView& paper, double top_mm,
                          double height_mm) {
    const auto x = [&](double model_mm) { return paper(Vec2(model_mm, 0)).x(); };
    const double foot = top_mm + height_mm;
    const double left = x(piece.from_mm);
    const double right = x(piece.to_mm);
    if (punch == nullptr || !punch->horn) return {{left, foot}, {right, foot}, {right, top_mm}, {left, top_mm}};
    const double step = foot - kHorn_mm;
    if (punch->horn->at_left) {
        const double body = x(piece.from_mm + punch->horn->reach_mm);
        return {{left, foot}, {right, foot}, {right, top_mm}, {body, top_mm}, {body, step}, {left, step}};
    }
    const double body = x(piece.to_mm - punch->horn->reach_mm);
    return {{left, foot}, {right, foot}, {right, step}, {body, step}, {body, top_mm}, {left, top_mm}};
}

}  // namespace

PressRows::PressRows(const FoldView& view, const std::optional<BarDatum>& datum)
    : view_(view),
      datum_(datum),
      zero_mm_(datum ? datum->x_mm : 0.0),
      same_ends_(alike(ends(ToolRow::kUpper), ends(ToolRow::kLower))) {}

std::vector<double> PressRows::ends(ToolRow row) const {
    std::vector<double> ends;
    for (const PlacedTool& piece : view_.bars) {
        if (view_.scene.brake()->rowOf(piece.tool) == row) ends.insert(ends.end(), {piece.from_mm, piece.to_mm});
    }
    std::sort(ends.begin(), ends.end());
    return ends;
}

double PressRows::figuresOver_mm() const {
    return same_ends_ ? 0.0 : ordinateDepth_mm(ordinates(ends(ToolRow::kUpper), zero_mm_));
}

double PressRows::height_mm() const {
    return kOver_mm + figuresOver_mm() + kPunch_mm + kSheet_mm + kDie_mm +
           ordinateDepth_mm(ordinates(ends(ToolRow::kLower), zero_mm_));
}

void PressRows::draw(Drawing& drawing, const PaperView& paper, const Box& seen, double top_mm) const {
    const double punches = top_mm + kOver_mm + figuresOver_mm();
    const double sheet = punches + kPunch_mm;
    const double dies = sheet + kSheet_mm;
    row(drawing, paper, ToolRow::kUpper, punches);
    row(drawing, paper, ToolRow::kLower, dies);
    const double middle = 0.5 * (sheet + dies);
    drawing.line({paper(Vec2(0, 0)).x(), middle}, {paper(Vec2(view_.scene.length_mm(), 0)).x(), middle}, Pen::kHeavy);
    const Box around{Vec2(seen.least.x(), punches), Vec2(seen.most.x(), dies + kDie_mm)};
    if (!same_ends_) figures(drawing, paper, ends(ToolRow::kUpper), true, around);
    figures(drawing, paper, ends(ToolRow::kLower), false, around);
}

void PressRows::row(Drawing& drawing, const PaperView& paper, ToolRow row, double top_mm) const {
    const double height = row == ToolRow::kUpper ? kPunch_mm : kDie_mm;
    for (const PlacedTool& piece : view_.bars) {
        const BrakeInSetup& brake = view_.scene.brake();
        if (brake->rowOf(piece.tool) != row) continue;
        const std::vector<Vec2> ring = outline(piece, brake->punch(piece.tool), paper, top_mm, height);
        drawing.polygon(ring, Pen::kMedium, Fill::kTint);
        name(drawing, brake->tool(piece.tool).id, ring);
    }
    const std::vector<double> all = ends(row);
    if (!all.empty())
        drawing.label(row == ToolRow::kUpper ? "punches" : "dies",
                      {paper(Vec2(all.front(), 0)).x(), top_mm + 0.5 * height}, Vec2(-1, 0));
}

/// Inside, where it fits.
void PressRows::name(Drawing& drawing, const std::string& id, const std::vector<Vec2>& ring) {
    const Box all = boxAround(ring);
    std::vector<Vec2> top;  // of the body, beside a horn
    std::copy_if(ring.begin(), ring.end(), std::back_inserter(top),
                 [&](const Vec2& corner) { return corner.y() == all.least.y(); });
    const double left = std::max(boxAround(top).least.x(), 1.0);
    const double right = std::min(boxAround(top).most.x(), drawing.size().x() - 1);
    const double width = textWidth_mm(id);
    const double foot = all.most.y() - 1.0;
    if (width + 1 < right - left) return drawing.text(id, {0.5 * (left + right - width), foot});
    drawing.label(id, {0.5 * (left + right), foot - 0.5 * labelHeight_mm()}, Vec2::Zero());
}

void PressRows::figures(Drawing& drawing, const PaperView& paper, const std::vector<double>& ends_mm, bool over,
                        const Box& around) const {
    std::vector<Ordinate> shown;
    for (Ordinate& ordinate : ordinates(ends_mm, zero_mm_)) {
        ordinate.at = {paper(Vec2(zero_mm_ + ordinate.value_mm, 0)).x(), over ? around.least.y() : around.most.y()};
        if (ordinate.at.x() > 2 && ordinate.at.x() < drawing.size().x() - 2) shown.push_back(ordinate);
    }
    drawOrdinates(drawing, shown, over ? RowSide::kTop : RowSide::kBottom, around, 30, 30);
}

}  // namespace tinwright::report
