// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawings/blank_drawing.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "paper/ordinates.h"
#include "paper/paper_view.h"
#include "words/text_width.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kBlankWidth_mm = 184;
constexpr double kBlankHeight_mm = 150;
constexpr double kOtherWidth_mm = 120;
constexpr double kOtherHeight_mm = 90;
constexpr double kMargin_mm = 7;
constexpr double kAlong_mm = 30;  // rows of figures may be longer than the blank ...
constexpr double kCorner_mm = 4;  // ... but not where the two meet
constexpr int kEdgeWeight = 1;
constexpr int kHoleWeight = 2;
constexpr int kBendWeight = 3;
constexpr int kEndWeight = 4;

std::string foldNote(const BendMark& mark) { return mark.fold == 0 ? "" : fmt::format(" ({})", mark.fold); }

std::string bendWords(const Part& part, const BendMark& mark) {
    const Bend& bend = part.bend(mark.bend);
    const std::string what = turnWords(bend);
    return mark.fold == 0 ? bend.name + ": " + what : fmt::format("{}: {}", mark.fold, what);
}

/// Dimensions along one axis of the blank, from its least coordinate.
class OrdinateList {
public:
    OrdinateList(int axis, const Box& blank, const PaperView& view) : axis_(axis), blank_(blank), view_(view) {}

    void add(const Vec2& point, const std::string& note, int weight) {
        const double value = point[axis_] - blank_.least[axis_];
        const bool is_end = value < 0.01 || point[axis_] > blank_.most[axis_] - 0.01;
        row_.push_back({value, view_(point), note, is_end ? kEndWeight : weight});
    }
    [[nodiscard]] const std::vector<Ordinate>& row() const { return row_; }

private:
    int axis_;
    Box blank_;
    PaperView view_;
    std::vector<Ordinate> row_;
};

std::vector<Ordinate> ordinatesOf(const Part& part, const std::vector<BendMark>& marks, int axis, const Box& blank,
                                  const PaperView& view) {
    OrdinateList list(axis, blank, view);
    for (const Vec2& corner : sharpCorners(part.blank.outline)) list.add(corner, "", kEdgeWeight);
    for (const CutOutMark& hole : cutOutMarks(part)) {
        for (const Vec2& at : hole.round ? std::vector<Vec2>{hole.centre} : std::vector<Vec2>{hole.least, hole.most})
            list.add(at, "", kHoleWeight);
    }
    for (const BendMark& mark : marks) {
        const bool runs_across = std::abs(mark.to[axis] - mark.from[axis]) < 0.01;  // a line square to the axis has one
                                                                                    // figure
        if (runs_across) list.add(mark.from, foldNote(mark), kBendWeight);
    }
    return list.row();
}

void drawSheet(Drawing& drawing, const Part& part, const PaperView& view) {
    if (part.blank.outline.empty()) return;
    drawing.region(view(part.blank), Pen::kMedium, Fill::kNone);
    for (const CutOutMark& hole : cutOutMarks(part)) {
        if (!hole.round) continue;
        const Vec2 at = view(hole.centre);
        const double reach = 0.5 * view.scale * (hole.most.x() - hole.least.x()) + 1.2;
        drawing.line(at - Vec2(reach, 0), at + Vec2(reach, 0), Pen::kThin);
        drawing.line(at - Vec2(0, reach), at + Vec2(0, reach), Pen::kThin);
    }
}

void drawBend(Drawing& drawing, const Part& part, const BendMark& mark, const PaperView& view, bool with_sight) {
    drawing.line(view(mark.from), view(mark.to), Pen::kChain,
                 fmt::format("data-bend=\"{}\"", xmlText(part.bend(mark.bend).name)));
    if (with_sight && mark.has_sight) {
        drawing.line(
            view(mark.sight_from), view(mark.sight_to), Pen::kHidden,
            fmt::format("data-sight=\"{}\" data-mm=\"{:.3f}\"", xmlText(part.bend(mark.bend).name), mark.sight_mm));
    }
    LabelWish wish;
    wish.text = bendWords(part, mark);
    wish.at = view(Vec2(0.5 * (mark.from + mark.to)));
    wish.bold = true;
    wish.ringed = true;
    // Over the flange, where there is sheet.
    wish.towards = view.direction(part.bend(mark.bend).toward_child);
    drawing.label(wish);
}

void labelHoles(Drawing& drawing, const Part& part, const PaperView& view) {
    for (const CutOutMark& hole : cutOutMarks(part)) {
        LabelWish wish;
        wish.text = hole.words;
        const double reach = hole.round ? 0.36 * view.scale * (hole.most.x() - hole.least.x()) : 0.0;
        wish.at = view(hole.centre) + reach * Vec2(1, -1);
        wish.towards = Vec2(1, -1).normalized();
        drawing.label(wish);
    }
}

/// Findings that tell where they fail: a stroke over the sheet there.
void drawWeakLine(Drawing& drawing, const Finding& finding, const PaperView& view) {
    if (!finding.section) return;
    const Vec2 from = view((*finding.section)[0]), to = view((*finding.section)[1]);
    drawing.line(from, to, Pen::kGhost, fmt::format("data-finding=\"{}\"", xmlText(finding.id)));
    LabelWish wish;
    wish.text = "weak here";
    wish.at = 0.5 * (from + to);
    wish.towards = Vec2((to - from).y(), -(to - from).x()).normalized();
    drawing.label(wish);
}

/// In the corner where the two rows of figures leave room.
void drawGrain(Drawing& drawing, double grain_deg, const Vec2& middle) {
    constexpr double kHalf_mm = 7;
    const SinCos turn = sinCos(Angle::degrees(grain_deg));
    const Vec2 along = kHalf_mm * Vec2(turn.cos, -turn.sin);
    drawing.line(middle - along, middle + along, Pen::kMedium, fmt::format("data-grain-deg=\"{:.6g}\"", grain_deg));
    drawing.arrowHead(middle + along, along);
    drawing.arrowHead(middle - along, -along);
    drawing.label("grain", middle, Vec2(0, 1), true);
}

Box blankBox(const Part& part) { return boxAround(part.blank.outline); }

}  // namespace

Drawing blankDrawing(const Part& part, const std::vector<BendMark>& marks, const std::vector<Finding>& findings) {
    const Box blank = blankBox(part);
    const PaperView unscaled;
    const double left = ordinateDepth_mm(ordinatesOf(part, marks, 1, blank, unscaled));
    const double foot = ordinateDepth_mm(ordinatesOf(part, marks, 0, blank, unscaled));
    const Vec2 room(kBlankWidth_mm - left - kMargin_mm, kBlankHeight_mm - foot - kMargin_mm);
    const double scale = usualScale(blank.size(), room);
    const Vec2 drawn = scale * blank.size();
    // The row of figures may need more length than a small blank has; what stays empty is cut off.
    const double head = kMargin_mm + kAlong_mm;
    const double height = head + drawn.y() + foot + kMargin_mm;
    Drawing drawing("Blank of " + part.name, kBlankWidth_mm, height);
    const Vec2 corner(left + std::max(0.0, 0.5 * (room.x() - drawn.x())), head);
    const Box frame{corner, corner + drawn};
    const PaperView view = centredView(blank, frame, scale);
    drawing.note(fmt::format("data-scale=\"{:.6g}\"", scale));
    for (const BendMark& mark : marks) drawBend(drawing, part, mark, view, part.bend(mark.bend).up);
    drawSheet(drawing, part, view);
    const std::size_t lost =
        drawOrdinates(drawing, ordinatesOf(part, marks, 1, blank, view), RowSide::kLeft, frame, kAlong_mm, kCorner_mm) +
        drawOrdinates(drawing, ordinatesOf(part, marks, 0, blank, view), RowSide::kBottom, frame, kCorner_mm,
                      kAlong_mm);
    if (lost > 0)
        drawing.text(counted(lost, "lesser corner") + " without figures: see the cutting file", {1, height - 0.5});
    if (part.grain_deg)
        drawGrain(drawing, *part.grain_deg,
                  {frame.least.x() - std::max(0.5 * left, 10.0), frame.most.y() + std::max(0.5 * foot, 10.0)});
    labelHoles(drawing, part, view);
    for (const Finding& finding : findings) drawWeakLine(drawing, finding, view);
    drawing.finish();
    return drawing;
}

Drawing otherFaceDrawing(const Part& part, const std::vector<BendMark>& marks) {
    const Box blank = blankBox(part);
    const Vec2 room(kOtherWidth_mm - 2 * kMargin_mm, kOtherHeight_mm - 2 * kMargin_mm);
    const double scale = usualScale(blank.size(), room);
    const Vec2 drawn = scale * blank.size();
    Drawing drawing("Other face of " + part.name, kOtherWidth_mm, drawn.y() + 2 * kMargin_mm);
    const PaperView view = centredView(blank, {Vec2::Zero(), drawing.size()}, scale, true);
    drawing.note(fmt::format("data-scale=\"{:.6g}\" data-mirrored=\"1\"", scale));
    for (const BendMark& mark : marks) {
        if (!part.bend(mark.bend).up) drawBend(drawing, part, mark, view, true);
    }
    drawSheet(drawing, part, view);
    drawing.finish();
    return drawing;
}

bool needsOtherFace(const Part& part) {
    return std::any_of(part.bends.begin(), part.bends.end(), [](const Bend& bend) { return !bend.up; });
}

}  // namespace tinwright::report
