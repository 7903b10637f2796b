// SPDX-License-Identifier: GPL-3.0-or-later
#include "remedies/machine_figures.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_fit.h>
#include <tinwright/geometry/box.h>

#include "remedies/bar_measures.h"
#include "remedies/kind_figures.h"

namespace tinwright {

namespace {

constexpr std::size_t kMostWidths = 12;

}  // namespace

double longest_mm(const Part& part) { return boxOf(part.blank.outline).sizes().norm(); }

FigureOf lengthOf(const Part& part, const BrakeInSetup& brake) {
    return {MachineFigure::kLength, brake->length_mm, std::ceil(brake->length_mm + longest_mm(part)),
            [](Brake& changed, double value) {
                // Side frames stay as far from its end as they are.
                if (changed.isPress()) changed.press().frames_right_mm += value - changed.length_mm;
                changed.length_mm = value;
            }};
}

FigureOf thickerHems(const Part& part, double has_mm, std::function<void(Brake&, double)> set) {
    constexpr double kTenths = 10;
    return {MachineFigure::kHemThickness, has_mm, std::ceil(kTenths * part.thickness_mm - 1e-6) / kTenths,
            std::move(set), 1 / kTenths};
}

FigureOf anyPieceWidth() {
    return {MachineFigure::kPieceWidth, 0, 1, [](Brake&, double) {}};
}

double leastHeight_mm(const BrakeInSetup& brake) {
    return least(brake, [&](ToolId tool) { return brake->tool(tool).height_mm; });
}

std::vector<FigureOf> figuresOf(const Part& part, const BrakeInSetup& brake) {
    return std::visit([&](const auto& kind) { return figuresOfKind(kind, part, brake); }, brake->kind);
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
    std::visit([](auto& kind) { dropHorns(kind); }, more.kind);  // of a piece with a horn the section without
    std::vector<ToolId> tools = brake.tools(ToolRow::kLower);    // first: pieces of the upper row move their ids
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
