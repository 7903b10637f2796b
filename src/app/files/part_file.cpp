// SPDX-License-Identifier: GPL-3.0-or-later
#include "files/part_file.h"

#include <tinwright/base/units.h>
#include <tinwright/io/dxf/dxf_io.h>
#include <tinwright/io/recipe/recipe_io.h>

namespace tinwright::app {
namespace {

std::string bendsPath(const CommandLine& line) {
    return line.drawing.bends_path.value_or(bendsPathFor(line.part_path));
}

bool saysDrawing(const DrawingChoice& drawing) {
    return drawing.bends_path || drawing.units || !drawing.cut_layers.empty() || !drawing.bend_layers.empty() ||
           !drawing.ignored_layers.empty() || !drawing.bend_line_types.empty();
}

}  // namespace

Result<Part> readPart(const CommandLine& line, const std::shared_ptr<const MeasuredBends>& measured) {
    const DrawingChoice& drawing = line.drawing;
    if (isDxfPath(line.part_path)) {
        DxfOptions options;
        if (drawing.units) options.mm_per_unit = *drawing.units == "in" ? kMmPerInch : 1.0;
        options.measured = measured;
        options.cut_layers = drawing.cut_layers;
        options.bend_layers = drawing.bend_layers;
        options.ignored_layers = drawing.ignored_layers;
        options.bend_line_types = drawing.bend_line_types;
        return readDxfBlank(line.part_path, bendsPath(line), options);
    }
    if (saysDrawing(drawing)) {
        return Issue{"part.kind",
                     "command line",
                     "",
                     "options for a drawing beside " + line.part_path,
                     "a part in a .dxf file",
                     "a recipe says all of this itself"};
    }
    return readPartFile(line.part_path, measured);
}

std::vector<std::string> inputFiles(const CommandLine& line) {
    std::vector<std::string> files{line.part_path};
    if (isDxfPath(line.part_path)) files.push_back(bendsPath(line));
    if (!line.shop_path.empty()) files.push_back(line.shop_path);
    return files;
}

}  // namespace tinwright::app
