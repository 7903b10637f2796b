// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawings/handling_drawing.h"

#include <cmath>

#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kArrowHeight_mm = 17;
constexpr double kSquare_mm = 9;
constexpr double kArrowWidth_mm = 40;  // of one arrow with its words
constexpr double kNoArrow_deg = 0.05;

/// A sheet with one corner cut, so that its turning is seen.
void sheet(Drawing& drawing, const Vec2& centre) {
    const double h = 0.5 * kSquare_mm;
    drawing.polygon({centre + Vec2(-h, -h), centre + Vec2(0.5 * h, -h), centre + Vec2(h, -0.5 * h), centre + Vec2(h, h),
                     centre + Vec2(-h, h)},
                    Pen::kOutline, Fill::kTint);
}

void curvedArrow(Drawing& drawing, const Vec2& centre, const Vec2& radii, double from_deg, double to_deg) {
    std::vector<Vec2> arc;
    constexpr int kSteps = 16;
    for (int i = 0; i <= kSteps; ++i) {
        const SinCos at = sinCos(Angle::degrees(from_deg + (to_deg - from_deg) * i / kSteps));
        arc.push_back(centre + Vec2(radii.x() * at.cos, -radii.y() * at.sin));
    }
    drawing.polyline(arc, Pen::kMedium);
    drawing.arrowHead(arc.back(), arc.back() - arc[arc.size() - 3], 3);
}

/// Front to back: about an axis along the machine.
void flip(Drawing& drawing, double left) {
    const Vec2 centre(left + 8, 0.5 * kArrowHeight_mm);
    sheet(drawing, centre);
    drawing.line(centre - Vec2(7, 0), centre + Vec2(7, 0), Pen::kChain);
    curvedArrow(drawing, centre, Vec2(3, 7.5), -70, 70);
    drawing.text("flip over", {left + 16.5, 0.5 * kArrowHeight_mm + 2});
}

void turn(Drawing& drawing, double left, double turn_deg) {
    const Vec2 centre(left + 9, 0.5 * kArrowHeight_mm);
    sheet(drawing, centre);
    const double shown_deg = std::copysign(std::min(std::abs(turn_deg), 300.0), turn_deg);
    curvedArrow(drawing, centre, Vec2(8, 8), 90 - 0.5 * shown_deg, 90 + 0.5 * shown_deg);
    drawing.text("turn " + degrees(std::abs(turn_deg)), {left + 18.5, 0.5 * kArrowHeight_mm + 2});
}

}  // namespace

Drawing handlingDrawing(const FoldStep& step) {
    const bool turns = std::abs(step.turn_deg) > kNoArrow_deg;
    Drawing drawing("How to turn the part", kArrowWidth_mm * ((step.flip ? 1 : 0) + (turns ? 1 : 0)) + 1,
                    kArrowHeight_mm);
    if (step.flip) flip(drawing, 0);
    if (turns) turn(drawing, step.flip ? kArrowWidth_mm : 0, step.turn_deg);
    drawing.finish();
    return drawing;
}

}  // namespace tinwright::report
