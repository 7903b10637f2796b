// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <optional>
#include <vector>

#include <tinwright/base/units.h>
#include <tinwright/base/words.h>
#include <tinwright/io/json/json_reading.h>
#include <tinwright/io/shop/materials_io.h>
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

constexpr const char* kCalibrateHelp =
    "Examples:\n"
    "  tinwright calibrate --flat 100 --legs 51.2 51.5 --thickness 1.5 --radius 1.5 --material dc01\n"
    "      one strip, bent square across its middle\n"
    "  tinwright calibrate strips.json --into shop.json\n"
    "      several strips; parts with the allowance rule \"measured\" then use them\n"
    "Cut a strip, measure it, bend it once, measure both legs from their ends to the outside of the bend.\n"
    "Three strips tell how far the shop repeats itself. The shop file gets their median, which one slip of the "
    "caliper\n"
    "does not move. Strips of one nominal sheet count together (thickness within 5 %).\n";

/// As typed; the strip's lengths in its units.
struct CalibrateArguments {
    std::string strips_path;          ///< empty: one strip by options
    std::optional<std::string> into;  ///< shop file to write into
    std::string material;
    std::string tool;
    std::string units = "mm";
    std::string measured = "outside";
    std::string date;
    std::optional<double> thickness, radius, flat;
    std::vector<double> legs;
    double angle_deg = 90;
    std::optional<double> measuring_error;
    bool accept_spread = false;       ///< write the median though too few strips agree
    bool any_of_strip = false;        ///< some option of a single strip was given
    std::optional<std::string> json;  ///< file, or "-"
};

std::vector<Option> stripOptions(CalibrateArguments& arguments) {
    std::vector<Option> options{
        {.name = "--flat",
         .target = &arguments.flat,
         .meaning = "length of the strip before it was bent",
         .type = "L",
         .range = &kStripLength},
        {.name = "--legs",
         .target = &arguments.legs,
         .meaning = "both legs after it",
         .type = "L L",
         .range = &kStripLength,
         .numbers = 2},
        {.name = "--thickness",
         .target = &arguments.thickness,
         .meaning = "of the sheet, measured",
         .type = "L",
         .range = &kStripThickness},
        {.name = "--radius",
         .target = &arguments.radius,
         .meaning = "inside radius of the bend",
         .type = "L",
         .range = &kStripRadius},
        {.name = "--angle",
         .target = &arguments.angle_deg,
         .meaning = "turned from flat, measured (default 90)",
         .type = "DEG",
         .range = &kStripAngle_deg},
        {.name = "--material", .target = &arguments.material, .meaning = "id in the materials file", .type = "ID"},
        {.name = "--tool", .target = &arguments.tool, .meaning = "bar or brake it was bent with", .type = "ID"},
        {.name = "--measured",
         .target = &arguments.measured,
         .meaning = "over which faces the legs are: outside (default) or inside",
         .type = "FACES",
         .words = {"outside", "inside"}},
        {.name = "--units",
         .target = &arguments.units,
         .meaning = "mm (default) or in",
         .type = "UNITS",
         .words = {"mm", "in"}},
        {.name = "--date", .target = &arguments.date, .meaning = "for the shop file", .type = "TEXT"}};
    for (Option& option : options) {
        option.group = "One strip without a file";
        option.given = &arguments.any_of_strip;
    }
    return options;
}

std::vector<Option> calibrateOptions(CalibrateArguments& arguments) {
    std::vector<Option> options{
        {.name = "STRIPS", .target = &arguments.strips_path, .meaning = "measured test strips (JSON)"},
        {.name = "--into",
         .target = &arguments.into,
         .meaning = "write the result into \"measured_bends\" of this shop file",
         .type = "SHOP"},
        {.name = "--measuring-error",
         .target = &arguments.measuring_error,
         .meaning = "that one measured length may be off by (default 0.1 mm)",
         .type = "L",
         .range = &kStripError},
        {.name = "--accept-spread",
         .target = &arguments.accept_spread,
         .meaning = "write the median into the shop file even when too few strips agree"}};
    append(options, stripOptions(arguments));
    options.push_back(jsonOption("result", arguments.json));
    return options;
}

Issue usage(const char* option, std::string found, std::string expected) {
    return {"usage", "command line", option, std::move(found), std::move(expected), ""};
}

Issues missingOptions(const CalibrateArguments& arguments) {
    Issues issues;
    const auto need = [&](const char* option, bool given) {
        if (!given)
            issues.push_back(usage(option, "nothing", "this option for a strip without a file, or a file of strips"));
    };
    need("--flat", arguments.flat.has_value());
    need("--legs", arguments.legs.size() == 2);
    need("--thickness", arguments.thickness.has_value());
    need("--radius", arguments.radius.has_value());
    need("--material", !arguments.material.empty());
    return issues;
}

Result<StripsFile> stripByOptions(const CalibrateArguments& arguments) {
    Issues issues = missingOptions(arguments);
    if (!arguments.material.empty() && !isName(arguments.material))
        issues.push_back(usage("--material", '"' + arguments.material + '"', "letters, digits, _ - . +"));
    if (!arguments.tool.empty() && !isName(arguments.tool))
        issues.push_back(usage("--tool", '"' + arguments.tool + '"', "letters, digits, _ - . +"));
    if (arguments.date.size() > 40 ||
        std::any_of(arguments.date.begin(), arguments.date.end(), [](char c) { return c < 0x20 || c > 0x7e; })) {
        issues.push_back(usage("--date", "more than plain text", "at most 40 plain characters"));
    }
    if (!issues.empty()) return issues;
    const double mm = arguments.units == "in" ? kMmPerInch : 1.0;
    TestStrip strip;
    strip.material = arguments.material;
    strip.tool = arguments.tool;
    strip.thickness_mm = mm * *arguments.thickness;
    strip.inside_radius_mm = mm * *arguments.radius;
    strip.angle = Angle::degrees(arguments.angle_deg);
    strip.flat_mm = mm * *arguments.flat;
    strip.legs_mm = {mm * arguments.legs[0], mm * arguments.legs[1]};
    strip.legs_to = arguments.measured == "inside" ? Face::kInside : Face::kOutside;
    strip.date = arguments.date;
    for (Issue& issue : checkStrip(strip)) {
        issue.file = "command line";
        issues.push_back(std::move(issue));
    }
    if (!issues.empty()) return issues;
    return StripsFile{{strip}, arguments.measuring_error ? mm * *arguments.measuring_error : kMeasuringError_mm};
}

Result<StripsFile> stripsOf(const CalibrateArguments& arguments) {
    if (arguments.strips_path.empty()) return stripByOptions(arguments);
    if (arguments.any_of_strip)
        return usage("STRIPS", "a file of strips and options of a single strip", "one of the two");
    if (arguments.measuring_error)
        return usage("--measuring-error", "an option that a file of strips says itself",
                     "\"measuring_error\" in " + arguments.strips_path);
    const Result<std::string> text = readTextFile(arguments.strips_path);
    if (!text) return text.issues();
    return readStrips(text.value(), arguments.strips_path);
}

/// Names of sheets that parts may be made of: those of the materials file, and what the shop file already speaks of (a
/// metal that no table has is first named there).
std::vector<std::string> knownMaterials(const Materials& materials, const Shop& shop) {
    std::vector<std::string> names;
    for (const Material& material : materials.entries) {
        names.push_back(material.id);
        names.insert(names.end(), material.aliases.begin(), material.aliases.end());
    }
    for (const auto& [name, deg] : shop.overbend.by_material_deg) names.push_back(name);
    for (const MeasuredBend& bend : shop.measured_bends.bends) names.push_back(bend.material);
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    return names;
}

/// A strip of a sheet that no part is made of would never be used.
Issues checkMaterials(const CalibrateArguments& arguments, const StripsFile& strips) {
    const Result<Materials> materials = readShippedMaterials();
    if (!materials) return materials.issues();
    const Result<Shop> shop = arguments.into ? readShop(*arguments.into) : Result<Shop>(Shop{});
    if (!shop) return shop.issues();
    const std::vector<std::string> known = knownMaterials(materials.value(), shop.value());
    Issues issues;
    for (const TestStrip& strip : strips.strips) {
        if (std::find(known.begin(), known.end(), strip.material) != known.end()) continue;
        const std::string meant = didYouMean(strip.material, known);
        const bool by_options = arguments.strips_path.empty();
        issues.push_back(
            {"calibrate.material", by_options ? "command line" : arguments.strips_path,
             by_options ? "--material" : strip.place + "/material", '"' + strip.material + '"',
             "one of " + joined(known, ", "),
             meant.empty() ? "another metal is named first in the shop file's \"by_material_deg\"" : meant});
    }
    return issues;
}

/// The shop file must be a good one before it is written, and is the one file that may be written over.
Result<std::string> shopWith(const std::string& path, const std::vector<Calibration>& calibrations,
                             bool accept_spread) {
    const Result<Shop> shop = readShop(path);
    if (!shop) return shop.issues();
    const Result<std::string> text = readTextFile(path);
    if (!text) return text.issues();
    MeasuredBends names;
    nameMaterials(names);
    return shopTextWith(text.value(), path, calibrations, names, accept_spread);
}

/// What is told goes before the shop: when it is refused the shop stays as it was.
Issues writeJson(const CalibrateArguments& arguments, const std::string& json) {
    std::vector<std::string> inputs;
    if (!arguments.strips_path.empty()) inputs.push_back(arguments.strips_path);
    if (arguments.into) inputs.push_back(*arguments.into);
    return arguments.json && *arguments.json != "-" ? writeFile(*arguments.json, json, inputs) : Issues{};
}

int runCalibrate(const CalibrateArguments& arguments) {
    const Result<StripsFile> strips = stripsOf(arguments);
    if (!strips) return complain(strips.issues());
    if (const Issues issues = checkMaterials(arguments, strips.value()); !issues.empty()) return complain(issues);
    const std::vector<Calibration> calibrations = calibrate(strips.value().strips, strips.value().measuring_error_mm);
    const std::string json = arguments.json ? calibrationJson(calibrations) : "";
    const Result<std::string> shop = arguments.into ? shopWith(*arguments.into, calibrations, arguments.accept_spread)
                                                    : Result<std::string>(std::string());
    if (!shop) return complain(shop.issues());
    Issues issues = writeJson(arguments, json);
    if (issues.empty() && arguments.into) issues = writeFile(*arguments.into, shop.value(), {});
    const bool to_output = arguments.json && *arguments.json == "-";
    if (issues.empty())
        issues = writeStandardOutput(to_output ? json : calibrationText(calibrations, arguments.into.value_or("")));
    return issues.empty() ? static_cast<int>(kFeasibleExit) : complain(issues);
}

}  // namespace

Command calibrateCommand() {
    return makeCommand("calibrate", "From measured test strips to k-factor and deduction, for the shop file.",
                       std::string(kCalibrateHelp) + kWrittenExitCodes, calibrateOptions, runCalibrate);
}

}  // namespace tinwright::app
