// SPDX-License-Identifier: GPL-3.0-or-later
// What of a press brake can be another.
#include <tinwright/brake/machines/hemming.h>

#include "remedies/kind_figures.h"

namespace tinwright {

namespace {

// The seat is moved up, with all of the profile that is level with it.
void heighten(Punch& punch, double by_mm) {
    for (Vec2& p : punch.profile) {
        if (p.y() > punch.height_mm - 1e-6) p.y() += by_mm;
    }
    punch.height_mm += by_mm;
}

void spread(PressBrake& press, double between_mm) {
    const double by_mm = between_mm - (press.frames_right_mm - press.frames_left_mm);
    press.frames_left_mm -= 0.5 * by_mm;
    press.frames_right_mm += 0.5 * by_mm;
}

void openTo(PressBrake& press, double open_mm) {
    press.stroke_mm += open_mm - press.open_height_mm;
    press.open_height_mm = open_mm;
}

void rateJaws(PressBrake& press, double thickness_mm) {
    for (Die& die : press.dies) {
        if (die.jaw) die.jaw->hem_thickness_mm = thickness_mm;
    }
}

}  // namespace

std::vector<FigureOf> figuresOfKind(const PressBrake& press, const Part& part, const BrakeInSetup& brake) {
    const double part_mm = longest_mm(part);
    const double punch_mm = leastHeight_mm(brake);
    const double frames_mm = press.frames_right_mm - press.frames_left_mm;
    std::vector<FigureOf> figures{lengthOf(part, brake)};
    if (press.throat_mm > 0) {
        figures.push_back({MachineFigure::kFrames, frames_mm, frames_mm + 2 * part_mm,
                           [](Brake& changed, double value) { spread(changed.press(), value); }});
        figures.push_back({MachineFigure::kThroat, press.throat_mm, press.throat_mm + part_mm,
                           [](Brake& changed, double value) { changed.press().throat_mm = value; }});
    }
    figures.push_back({MachineFigure::kOpenHeight, press.open_height_mm, press.open_height_mm + 2 * kMuchMore_mm,
                       [](Brake& changed, double value) { openTo(changed.press(), value); }});
    figures.push_back(
        {MachineFigure::kPunchHeight, punch_mm, punch_mm + kMuchMore_mm, [punch_mm](Brake& changed, double value) {
             for (Punch& punch : changed.press().punches) heighten(punch, value - punch_mm);
         }});
    figures.push_back(anyPieceWidth());
    const double hems_mm = hemThickness_mm(brake);
    // Dies without a jaw get none by a figure.
    if (hasHems(part) && hems_mm > 0 && hems_mm < part.thickness_mm)
        figures.push_back({MachineFigure::kHemThickness, hems_mm, part.thickness_mm,
                           [](Brake& changed, double value) { rateJaws(changed.press(), value); }});
    return figures;
}

void dropHorns(PressBrake& press) {
    for (Punch& punch : press.punches) punch.horn.reset();
}

}  // namespace tinwright
