// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <tinwright/base/units.h>
#include <tinwright/io/json/json_reading.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/io/shop/strips_io.h>
#include <tinwright/report/text/calibration_text.h>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/output_file.h"
#include "files/shop_file.h"

namespace tinwright::app {
namespace {

Issue usage(const char* option, std::string found, std::string expected) {
    return {"usage", "command line", option, std::move(found), std::move(expected), ""};
}

Issues missingOptions(const CalibrateOptions& options) {
    Issues issues;
    const auto need = [&](const char* option, bool given) {
        if (!given)
            issues.push_back(usage(option, "nothing", "this option for a strip without a file, or a file of strips"));
    };
    need("--flat", options.flat.has_value());
    need("--legs", options.legs.size() == 2);
    need("--thickness", options.thickness.has_value());
    need("--radius", options.radius.has_value());
    need("--material", !options.material.empty());
    return issues;
}

/// A name as files have it, or the shop file could not be read again.
bool isName(const std::string& text) {
    return !text.empty() && text.size() <= 64 && text.front() != '-' &&
           std::all_of(text.begin(), text.end(), [](char c) {
               return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' ||
                      c == '-' || c == '.' || c == '+';
           });
}

Result<StripsFile> stripByOptions(const CalibrateOptions& options) {
    Issues issues = missingOptions(options);
    if (!options.material.empty() && !isName(options.material))
        issues.push_back(usage("--material", '"' + options.material + '"', "letters, digits, _ - . +"));
    if (!options.tool.empty() && !isName(options.tool))
        issues.push_back(usage("--tool", '"' + options.tool + '"', "letters, digits, _ - . +"));
    if (options.date.size() > 40 ||
        std::any_of(options.date.begin(), options.date.end(), [](char c) { return c < 0x20 || c > 0x7e; })) {
        issues.push_back(usage("--date", "more than plain text", "at most 40 plain characters"));
    }
    if (!issues.empty()) return issues;
    const double mm = options.units == "in" ? kMmPerInch : 1.0;
    TestStrip strip;
    strip.material = options.material;
    strip.tool = options.tool;
    strip.thickness_mm = mm * *options.thickness;
    strip.inside_radius_mm = mm * *options.radius;
    strip.angle = Angle::degrees(options.angle_deg);
    strip.flat_mm = mm * *options.flat;
    strip.legs_mm = {mm * options.legs[0], mm * options.legs[1]};
    strip.legs_to = options.measured == "inside" ? Face::kInside : Face::kOutside;
    strip.date = options.date;
    for (Issue& issue : checkStrip(strip)) {
        issue.file = "command line";
        issues.push_back(std::move(issue));
    }
    if (!issues.empty()) return issues;
    return StripsFile{{strip}, options.measuring_error ? mm * *options.measuring_error : kMeasuringError_mm};
}

Result<StripsFile> stripsOf(const CalibrateOptions& options) {
    if (options.strips_path.empty()) return stripByOptions(options);
    if (options.any_of_strip)
        return usage("STRIPS", "a file of strips and options of a single strip", "one of the two");
    if (options.measuring_error)
        return usage("--measuring-error", "an option that a file of strips says itself",
                     "\"measuring_error\" in " + options.strips_path);
    const Result<std::string> text = readTextFile(options.strips_path);
    if (!text) return text.issues();
    return readStrips(text.value(), options.strips_path);
}

/// The shop file must be a good one before it is written, and is the one file that may be written over.
Result<std::string> shopWith(const std::string& path, const std::vector<Calibration>& calibrations) {
    const Result<Shop> shop = readShop(path);
    if (!shop) return shop.issues();
    const Result<std::string> text = readTextFile(path);
    if (!text) return text.issues();
    MeasuredBends names;
    nameMaterials(names);
    return shopTextWith(text.value(), path, calibrations, names);
}

/// What is told goes before the shop: when it is refused the shop stays as it was.
Issues writeJson(const CommandLine& line, const std::string& json) {
    const CalibrateOptions& options = line.calibrate;
    std::vector<std::string> inputs;
    if (!options.strips_path.empty()) inputs.push_back(options.strips_path);
    if (options.into) inputs.push_back(*options.into);
    return line.json && *line.json != "-" ? writeFile(*line.json, json, inputs) : Issues{};
}

}  // namespace

int runCalibrate(const CommandLine& line) {
    const CalibrateOptions& options = line.calibrate;
    const Result<StripsFile> strips = stripsOf(options);
    if (!strips) return complain(strips.issues());
    const std::vector<Calibration> calibrations = calibrate(strips.value().strips, strips.value().measuring_error_mm);
    const std::string json = line.json ? calibrationJson(calibrations) : "";
    const Result<std::string> shop =
        options.into ? shopWith(*options.into, calibrations) : Result<std::string>(std::string());
    if (!shop) return complain(shop.issues());
    Issues issues = writeJson(line, json);
    if (issues.empty() && options.into) issues = writeFile(*options.into, shop.value(), {});
    const bool to_output = line.json && *line.json == "-";
    if (issues.empty())
        issues = writeStandardOutput(to_output ? json : calibrationText(calibrations, options.into.value_or("")));
    return issues.empty() ? static_cast<int>(kFeasibleExit) : complain(issues);
}

}  // namespace tinwright::app
