// SPDX-License-Identifier: GPL-3.0-or-later
#include "files/sheet_output.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include <tinwright/report/gltf/glb.h>
#include <tinwright/report/sheet/sheet.h>

#include "console/log.h"
#include "files/output_file.h"

namespace tinwright::app {
namespace {

namespace fs = std::filesystem;

Issues writeDrawings(const std::string& folder, const std::vector<DrawingFile>& drawings,
                     const std::vector<std::string>& inputs) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error) return {{"output.write", folder, "", error.message(), "a folder that can be made and written to", ""}};
    for (const DrawingFile& drawing : drawings) {
        Issues issues = writeFile((fs::path(folder) / drawing.name).string(), drawing.svg, inputs);
        if (!issues.empty()) return issues;
    }
    return {};
}

Issues writeMoving(const std::string& path, const PlanReport& report, const std::vector<std::string>& inputs) {
    const auto planned = std::find_if(report.brakes.begin(), report.brakes.end(), [](const BrakeReport& brake) {
        return brake.shownPlan() != nullptr && !brake.shownPlan()->folds.empty();
    });
    if (planned != report.brakes.end()) return writeFile(path, planGlb(report, *planned), inputs);
    logWarning(fmt::format("--glb: there is no order to show; {} is not written", path));
    return {};
}

}  // namespace

std::vector<Option> sheetOptions(SheetChoice& choice) {
    return {{.name = "--sheet",
             .target = &choice.sheet,
             .meaning = "write the bench sheet: one page (HTML) to print or to open on a phone",
             .type = "FILE"},
            {.name = "--svg",
             .target = &choice.svg,
             .meaning = "write every drawing of the sheet into this folder, made if need be",
             .type = "DIR"},
            {.name = "--glb",
             .target = &choice.glb,
             .meaning = "write the order as an animated 3-D file (glTF 2.0 binary)",
             .type = "FILE"}};
}

Issues writeSheet(const SheetChoice& choice, const std::vector<std::string>& inputs, const PlanReport& report,
                  const std::optional<Material>& material) {
    if (choice.glb) {
        Issues issues = writeMoving(*choice.glb, report, inputs);
        if (!issues.empty()) return issues;
    }
    if (!choice.sheet && !choice.svg) return {};
    const BenchSheet sheet = benchSheet(report, {material});
    if (choice.sheet) {
        Issues issues = writeFile(*choice.sheet, sheet.html, inputs);
        if (!issues.empty()) return issues;
    }
    return choice.svg ? writeDrawings(*choice.svg, sheet.drawings, inputs) : Issues{};
}

}  // namespace tinwright::app
