// SPDX-License-Identifier: GPL-3.0-or-later
#include "remedies/machine_figures.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_fit.h>
#include <tinwright/brake/tooling/bar_profile.h>
#include <tinwright/geometry/box.h>

#include "remedies/bar_measures.h"

namespace tinwright {

namespace {

constexpr double kThinDepth_mm = 15;  // less than this is no bar to clamp with
constexpr double kThinHeight_mm = 12;
constexpr double kMuchMore_mm = 300;  // by which room on a machine grows at most
constexpr double kWidestLeafAngle_deg = 150;
constexpr std::size_t kMostWidths = 12;

// Over the pieces that hold the sheet.
template <class Value>
double least(const BrakeInSetup& brake, Value value) {
    double found = 1e9;
    for (const ToolId tool : brake.tools(ToolRow::kUpper)) found = std::min(found, value(tool));
    return found;
}

double leastHeight_mm(const BrakeInSetup& brake) {
    return least(brake, [&](ToolId tool) { return brake->tool(tool).height_mm; });
}

void mill(LeafBrake& leaf, double depth_mm, double height_mm) {
    for (Bar& bar : leaf.bars) {
        const auto section = milledSection(bar.profile, leaf.nose_radius_mm, std::min(depth_mm, bar.clamp_depth_mm),
                                           std::min(height_mm, bar.height_mm));
        if (!section) continue;
        bar.profile = *section;
        bar.clamp_depth_mm = clampDepth_mm(bar.profile);
        bar.height_mm = height_mm == 1e9 ? bar.height_mm : tinwright::height_mm(bar.profile);
        bar.end_relief_height_mm = std::min(bar.end_relief_height_mm, bar.height_mm);
    }
}

// The seat is moved up, with all of the profile that is level with it.
void heighten(Punch& punch, double by_mm) {
    for (Vec2& p : punch.profile) {
        if (p.y() > punch.height_mm - 1e-6) p.y() += by_mm;
    }
    punch.height_mm += by_mm;
}

std::vector<FigureOf> figuresOfPress(const Part& part, const BrakeInSetup& brake) {
    const PressBrake& press = brake->press();
    const double part_mm = boxOf(part.blank.outline).sizes().norm();
    const double punch_mm = leastHeight_mm(brake);
    const double frames_mm = press.frames_right_mm - press.frames_left_mm;
    std::vector<FigureOf> figures{{MachineFigure::kLength, brake->length_mm, brake->length_mm + part_mm}};
    if (press.throat_mm > 0) {
        figures.push_back({MachineFigure::kFrames, frames_mm, frames_mm + 2 * part_mm});
        figures.push_back({MachineFigure::kThroat, press.throat_mm, press.throat_mm + part_mm});
    }
    figures.push_back({MachineFigure::kOpenHeight, press.open_height_mm, press.open_height_mm + 2 * kMuchMore_mm});
    figures.push_back({MachineFigure::kPunchHeight, punch_mm, punch_mm + kMuchMore_mm});
    figures.push_back({MachineFigure::kPieceWidth, 0, 1});
    return figures;
}

std::vector<FigureOf> figuresOfFolder(const Part& part, const BrakeInSetup& brake) {
    const double part_mm = boxOf(part.blank.outline).sizes().norm();
    std::vector<FigureOf> figures{{MachineFigure::kLength, brake->length_mm, brake->length_mm + part_mm},
                                  {MachineFigure::kLeafAngle, brake->leaf().max_leaf_angle.deg(),
                                   std::max(brake->leaf().max_leaf_angle.deg(), kWidestLeafAngle_deg)}};
    if (brake->leaf().beam.has_value())
        figures.push_back({MachineFigure::kGapBehindNose, brake->leaf().beam->front_y_mm,
                           brake->leaf().beam->front_y_mm + kMuchMore_mm});
    if (brake->leaf().clamp == ClampKind::kOnBeam)
        figures.push_back({MachineFigure::kOpening, brake->leaf().opening_mm, brake->leaf().opening_mm + kMuchMore_mm});
    const double depth_mm = least(brake, [&](ToolId tool) { return brake->bar(tool)->clamp_depth_mm; });
    if (depth_mm > kThinDepth_mm) figures.push_back({MachineFigure::kClampDepth, depth_mm, kThinDepth_mm});
    const double high_mm = leastHeight_mm(brake);
    if (brake->leaf().clamp == ClampKind::kLooseBars && high_mm > kThinHeight_mm)
        figures.push_back({MachineFigure::kBarHeight, high_mm, kThinHeight_mm});
    figures.push_back({MachineFigure::kPieceWidth, 0, 1});
    return figures;
}

}  // namespace

std::vector<FigureOf> figuresOf(const Part& part, const BrakeInSetup& brake) {
    std::vector<FigureOf> figures = brake->isPress() ? figuresOfPress(part, brake) : figuresOfFolder(part, brake);
    const double hems_mm = hemThickness_mm(brake);
    const bool can = !brake->isPress() || hems_mm > 0;  // dies without a jaw get none by a figure
    if (hasHems(part) && can && hems_mm < part.thickness_mm)
        figures.push_back({MachineFigure::kHemThickness, hems_mm, part.thickness_mm});
    return figures;
}

void setFigure(Brake& changed, const BrakeInSetup& brake, MachineFigure figure, double value) {
    switch (figure) {
        case MachineFigure::kLength: changed.length_mm = value; break;
        case MachineFigure::kLeafAngle: changed.leaf().max_leaf_angle = Angle::degrees(value); break;
        case MachineFigure::kClampDepth: mill(changed.leaf(), value, 1e9); break;
        case MachineFigure::kBarHeight: mill(changed.leaf(), 1e9, value); break;
        case MachineFigure::kOpening: changed.leaf().opening_mm = value; break;
        case MachineFigure::kGapBehindNose: changed.leaf().beam->front_y_mm = value; break;
        case MachineFigure::kPieceWidth: break;
        case MachineFigure::kOpenHeight:
            changed.press().stroke_mm += value - changed.press().open_height_mm;
            changed.press().open_height_mm = value;
            break;
        case MachineFigure::kPunchHeight:
            for (Punch& punch : changed.press().punches) heighten(punch, value - leastHeight_mm(brake));
            break;
        case MachineFigure::kThroat: changed.press().throat_mm = value; break;
        case MachineFigure::kHemThickness:
            if (!changed.isPress()) {
                changed.leaf().hem_thickness_mm = value;
                break;
            }
            for (Die& die : changed.press().dies) {
                if (die.jaw) die.jaw->hem_thickness_mm = value;
            }
            break;
        case MachineFigure::kFrames: {
            PressBrake& press = changed.press();
            const double by_mm = value - (press.frames_right_mm - press.frames_left_mm);
            press.frames_left_mm -= 0.5 * by_mm;
            press.frames_right_mm += 0.5 * by_mm;
            break;
        }
    }
}

std::vector<double> pieceWidths_mm(const Part& part, const Shop& shop, const BrakeInSetup& brake) {
    std::vector<double> widths;
    for (const BarMeasure& measure : barMeasures(part, brake.inside_radius_mm())) {
        double most_mm = measure.mm;
        if (measure.kind == BarMeasure::Kind::kBetweenWalls) {
            const double end_mm =
                least(brake, [&](ToolId tool) { return endRoom_mm(*brake, tool, brake.inside_radius_mm()); });
            most_mm -= 2 * end_mm + std::max(shop.limits.plus_side_mm, 2 * shop.limits.clearance_mm);
        }
        const double width_mm = std::floor(2 * most_mm + 1e-6) / 2;
        if (width_mm > 0 && width_mm <= brake->length_mm) widths.push_back(width_mm);
    }
    std::sort(widths.begin(), widths.end());
    widths.erase(std::unique(widths.begin(), widths.end()), widths.end());
    if (widths.size() > kMostWidths) widths.resize(kMostWidths);
    return widths;
}

Brake withPieces(const BrakeInSetup& brake, const std::vector<double>& widths_mm) {
    Brake more = *brake;
    // Of a piece with a horn the section without.
    if (more.isPress()) {
        for (Punch& punch : more.press().punches) punch.horn.reset();
    }
    std::vector<ToolId> tools = brake.tools(ToolRow::kLower);  // first: pieces of the upper row move their ids
    for (const ToolId tool : brake.tools(ToolRow::kUpper)) tools.push_back(tool);
    std::vector<ToolId> sections;
    for (const ToolId tool : tools) {
        const bool is_known =
            std::any_of(sections.begin(), sections.end(), [&](ToolId other) { return sameSection(more, tool, other); });
        if (!is_known) sections.push_back(tool);
    }
    Brake result = *brake;
    for (const ToolId section : sections) {
        for (const double width_mm : widths_mm) {
            const std::string id = fmt::format("{}, {:.4g} wide", brake->tool(section).id, width_mm);
            result = withPiece(std::move(result), section, id, width_mm);
            if (brake->punch(section) != nullptr) result.press().punches.back().horn.reset();
        }
    }
    return result;
}

}  // namespace tinwright
