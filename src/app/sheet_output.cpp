// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet_output.h"

#include <filesystem>

#include <tinwright/io/materials_io.h>
#include <tinwright/report/sheet.h>

#include "output_file.h"

namespace tinwright::app {
namespace {

namespace fs = std::filesystem;

/// The weight is a help, so materials that cannot be read only leave it out.
SheetExtras extrasFor(const Part& part) {
    const Result<Materials> materials = readShippedMaterials();
    if (!materials) return {};
    const Material* material = materials.value().find(part.material);
    if (material == nullptr) return {};
    const Property& density = material->density_g_per_cm3;
    return {density.least ? density.least : density.most};
}

Issues writeDrawings(const std::string& folder, const std::vector<DrawingFile>& drawings, const std::vector<std::string>& inputs) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error) return {{"output.write", folder, "", error.message(), "a folder that can be made and written to", ""}};
    for (const DrawingFile& drawing : drawings) {
        Issues issues = writeFile((fs::path(folder) / drawing.name).string(), drawing.svg, inputs);
        if (!issues.empty()) return issues;
    }
    return {};
}

}  // namespace

Issues writeSheet(const CommandLine& line, const PlanReport& report) {
    if (!line.sheet && !line.svg) return {};
    const std::vector<std::string> inputs{line.part_path, line.shop_path};
    const BenchSheet sheet = benchSheet(report, extrasFor(report.part));
    if (line.sheet) {
        Issues issues = writeFile(*line.sheet, sheet.html, inputs);
        if (!issues.empty()) return issues;
    }
    return line.svg ? writeDrawings(*line.svg, sheet.drawings, inputs) : Issues{};
}

}  // namespace tinwright::app
