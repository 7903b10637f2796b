// SPDX-License-Identifier: GPL-3.0-or-later
// What of a leaf brake can be another.
#include <cmath>

#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/tooling/bar_profile.h>

#include "remedies/kind_figures.h"

namespace tinwright {

namespace {

constexpr double kThinDepth_mm = 15;  // less than this is no bar to clamp with
constexpr double kThinHeight_mm = 12;
constexpr double kAsItIs_mm = 1e9;
constexpr double kWidestLeafAngle_deg = 150;

void mill(LeafBrake& leaf, double depth_mm, double height_mm) {
    for (Bar& bar : leaf.bars) {
        const auto section = milledSection(bar.profile, leaf.nose_radius_mm, std::min(depth_mm, bar.clamp_depth_mm),
                                           std::min(height_mm, bar.height_mm));
        if (!section) continue;
        bar.profile = *section;
        bar.clamp_depth_mm = clampDepth_mm(bar.profile);
        bar.height_mm = height_mm == kAsItIs_mm ? bar.height_mm : tinwright::height_mm(bar.profile);
        bar.end_relief_height_mm = std::min(bar.end_relief_height_mm, bar.height_mm);
    }
}

// The bars are milled to another section.
void addBars(const LeafBrake& leaf, const BrakeInSetup& brake, std::vector<FigureOf>& figures) {
    const double depth_mm = least(brake, [&](ToolId tool) { return brake->bar(tool)->clamp_depth_mm; });
    if (depth_mm > kThinDepth_mm)
        figures.push_back({MachineFigure::kClampDepth, depth_mm, kThinDepth_mm,
                           [](Brake& changed, double value) { mill(changed.leaf(), value, kAsItIs_mm); }});
    const double high_mm = leastHeight_mm(brake);
    if (leaf.clamp == ClampKind::kLooseBars && high_mm > kThinHeight_mm)
        figures.push_back({MachineFigure::kBarHeight, high_mm, kThinHeight_mm,
                           [](Brake& changed, double value) { mill(changed.leaf(), kAsItIs_mm, value); }});
}

}  // namespace

std::vector<FigureOf> figuresOfKind(const LeafBrake& leaf, const Part& part, const BrakeInSetup& brake) {
    const double swings_deg = leaf.max_leaf_angle.deg();
    std::vector<FigureOf> figures{
        lengthOf(part, brake),
        {MachineFigure::kLeafAngle, swings_deg, std::max(std::ceil(swings_deg - 1e-6), kWidestLeafAngle_deg),
         [](Brake& changed, double value) { changed.leaf().max_leaf_angle = Angle::degrees(value); }}};
    if (leaf.beam.has_value())
        figures.push_back({MachineFigure::kGapBehindNose, leaf.beam->front_y_mm,
                           std::ceil(leaf.beam->front_y_mm + kMuchMore_mm),
                           [](Brake& changed, double value) { changed.leaf().beam->front_y_mm = value; }});
    if (leaf.clamp == ClampKind::kOnBeam)
        figures.push_back({MachineFigure::kOpening, leaf.opening_mm, std::ceil(leaf.opening_mm + kMuchMore_mm),
                           [](Brake& changed, double value) { changed.leaf().opening_mm = value; }});
    addBars(leaf, brake, figures);
    figures.push_back(anyPieceWidth());
    const double hems_mm = hemThickness_mm(brake);
    if (hasHems(part) && hems_mm < part.thickness_mm)
        figures.push_back(
            thickerHems(part, hems_mm, [](Brake& changed, double value) { changed.leaf().hem_thickness_mm = value; }));
    return figures;
}

void dropHorns(LeafBrake& /*leaf*/) {}  // its bars are alike at both ends

}  // namespace tinwright
