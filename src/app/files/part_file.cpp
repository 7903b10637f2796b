// SPDX-License-Identifier: GPL-3.0-or-later
#include "files/part_file.h"

#include <fmt/format.h>

#include <tinwright/base/units.h>
#include <tinwright/io/dxf/dxf_io.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/part/recipe/recipe_changes.h>

namespace tinwright::app {
namespace {

std::string bendsPath(const PartChoice& part) { return part.drawing.bends_path.value_or(bendsPathFor(part.path)); }

bool saysDrawing(const DrawingChoice& drawing) {
    return drawing.bends_path || drawing.units || !drawing.cut_layers.empty() || !drawing.bend_layers.empty() ||
           !drawing.ignored_layers.empty() || !drawing.bend_line_types.empty();
}

}  // namespace

Result<Part> readPart(const PartChoice& choice, const std::shared_ptr<const MeasuredBends>& measured) {
    const DrawingChoice& drawing = choice.drawing;
    if (isDxfPath(choice.path)) {
        DxfOptions options;
        if (drawing.units) options.mm_per_unit = *drawing.units == "in" ? kMmPerInch : 1.0;
        options.measured = measured;
        options.cut_layers = drawing.cut_layers;
        options.bend_layers = drawing.bend_layers;
        options.ignored_layers = drawing.ignored_layers;
        options.bend_line_types = drawing.bend_line_types;
        return readDxfBlank(choice.path, bendsPath(choice), options);
    }
    if (saysDrawing(drawing)) {
        return Issue{"part.kind",
                     "command line",
                     "",
                     "options for a drawing beside " + choice.path,
                     "a part in a .dxf file",
                     "a recipe says all of this itself"};
    }
    return readPartFile(choice.path, measured);
}

Result<Part> readPartWithRadius(const PartChoice& choice, const std::shared_ptr<const MeasuredBends>& measured,
                                double inside_radius_mm) {
    Result<Recipe> recipe = readRecipeFile(choice.path);
    if (!recipe) return recipe.issues();
    recipe.value().allowance.measured = measured;
    setInsideRadius(recipe.value(), inside_radius_mm);
    Result<Part> part = develop(recipe.value());
    if (part) return part;
    Issues issues = part.issues();
    for (Issue& issue : issues) {
        issue.hint += fmt::format(
            "{}with the inside radius of {:.4g} mm that the brake gives; --drawn-radius keeps the one "
            "that is drawn",
            issue.hint.empty() ? "" : "; ", inside_radius_mm);
    }
    return issues;
}

std::vector<std::string> inputFiles(const PartChoice& part, const ShopChoice& shop) {
    std::vector<std::string> files{part.path};
    if (isDxfPath(part.path)) files.push_back(bendsPath(part));
    if (!shop.path.empty()) files.push_back(shop.path);
    return files;
}

}  // namespace tinwright::app
