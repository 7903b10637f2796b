// SPDX-License-Identifier: GPL-3.0-or-later
// What of a press brake can be another.
#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

#include <tinwright/brake/machines/hemming.h>

#include "remedies/kind_figures.h"
#include "remedies/press_tools.h"

namespace tinwright {

namespace {

constexpr double kDeepestThroat_mm = 120;
constexpr double kSharpestVee_deg = 30;  // acute dies: common practice
constexpr double kMostOverbend_deg = 10;

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

// One of each section among the punches in use.
std::vector<ToolId> punchSections(const BrakeInSetup& brake) {
    std::vector<ToolId> sections;
    for (const ToolId tool : brake.tools(ToolRow::kUpper)) {
        const bool is_known = std::any_of(sections.begin(), sections.end(), [&](ToolId other) {
            return brake->tool(other).profile == brake->tool(tool).profile;
        });
        if (!is_known) sections.push_back(tool);
    }
    return sections;
}

// What is done to every punch of the section of this one. They are known by their place: another figure may have
// changed the section before.
std::function<void(Brake&, double)> toAllLike(const PressBrake& press, const Punch& like,
                                              std::function<void(Punch&, double)> change) {
    std::vector<std::size_t> alike;
    for (std::size_t i = 0; i < press.punches.size(); ++i) {
        if (press.punches[i].profile == like.profile) alike.push_back(i);
    }
    return [alike, change = std::move(change)](Brake& changed, double value) {
        for (const std::size_t i : alike) change(changed.press().punches[i], value);
    };
}

void deepen(Punch& punch, double depth_mm) {
    if (const auto deeper = withThroat(punch, depth_mm)) punch = *deeper;
}

void addThroat(const PressBrake& press, const Punch& punch, const std::string& like, std::vector<FigureOf>& figures) {
    const std::optional<double> has_mm = throatDepth_mm(punch);
    if (!has_mm) return;
    double best_mm = std::floor(*has_mm + 1e-6);
    while (best_mm < kDeepestThroat_mm && withThroat(punch, best_mm + 1)) ++best_mm;
    if (best_mm > *has_mm)
        figures.push_back({MachineFigure::kPunchThroat, *has_mm, best_mm, toAllLike(press, punch, deepen), 1, like});
}

void addPunches(const PressBrake& press, const BrakeInSetup& brake, std::vector<FigureOf>& figures) {
    const std::vector<ToolId> sections = punchSections(brake);
    for (const ToolId tool : sections) {
        const Punch& punch = *brake->punch(tool);
        const std::string like = sections.size() > 1 ? punch.id : std::string();
        figures.push_back({MachineFigure::kPunchHeight, punch.height_mm, std::ceil(punch.height_mm + kMuchMore_mm),
                           toAllLike(press, punch, heighten), 1, like});
        addThroat(press, punch, like, figures);
    }
}

// Where all are goosenecks, straight ones of the same widths besides.
void addStraight(PressBrake& press) {
    const auto is_straight = [](const Punch& punch) { return tipAngle(punch).has_value(); };
    if (std::any_of(press.punches.begin(), press.punches.end(), is_straight)) return;
    const std::vector<Punch> goosenecks = press.punches;
    for (const Punch& gooseneck : goosenecks) {
        if (const auto straight = straightened(gooseneck)) press.punches.push_back(*straight);
    }
}

void sharpen(PressBrake& press, double angle_deg) {
    for (Die& die : press.dies) {
        if (const auto sharper = asSharpAs(die, Angle::degrees(angle_deg))) die = *sharper;
    }
    addStraight(press);
    for (Punch& punch : press.punches) {
        if (const auto sharper = asSharpAs(punch, Angle::degrees(angle_deg))) punch = *sharper;
    }
}

// Where it may be the flanks that are in the way.
void addVee(const Part& part, const BrakeInSetup& brake, std::vector<FigureOf>& figures) {
    const double vee_deg = brake.vee()->angle.deg();
    const bool is_sharp = std::any_of(part.bends.begin(), part.bends.end(), [&](const Bend& bend) {
        return !bend.hem && bend.angle.deg() + kMostOverbend_deg > 180 - vee_deg;
    });
    if (!is_sharp || vee_deg <= kSharpestVee_deg) return;
    figures.push_back({MachineFigure::kVeeAngle, vee_deg, kSharpestVee_deg,
                       [](Brake& changed, double value) { sharpen(changed.press(), value); }});
}

}  // namespace

std::vector<FigureOf> figuresOfKind(const PressBrake& press, const Part& part, const BrakeInSetup& brake) {
    const double part_mm = longest_mm(part);
    const double frames_mm = press.frames_right_mm - press.frames_left_mm;
    std::vector<FigureOf> figures{lengthOf(part, brake)};
    if (press.throat_mm > 0) {
        figures.push_back({MachineFigure::kFrames, frames_mm, std::ceil(frames_mm + 2 * part_mm),
                           [](Brake& changed, double value) { spread(changed.press(), value); }});
        figures.push_back({MachineFigure::kThroat, press.throat_mm, std::ceil(press.throat_mm + part_mm),
                           [](Brake& changed, double value) { changed.press().throat_mm = value; }});
    }
    figures.push_back({MachineFigure::kOpenHeight, press.open_height_mm,
                       std::ceil(press.open_height_mm + 2 * kMuchMore_mm),
                       [](Brake& changed, double value) { openTo(changed.press(), value); }});
    addVee(part, brake, figures);
    addPunches(press, brake, figures);
    figures.push_back(anyPieceWidth());
    const double hems_mm = hemThickness_mm(brake);
    // Dies without a jaw get none by a figure.
    if (hasHems(part) && hems_mm > 0 && hems_mm < part.thickness_mm)
        figures.push_back(
            thickerHems(part, hems_mm, [](Brake& changed, double value) { rateJaws(changed.press(), value); }));
    return figures;
}

void dropHorns(PressBrake& press) {
    for (Punch& punch : press.punches) punch.horn.reset();
}

}  // namespace tinwright
