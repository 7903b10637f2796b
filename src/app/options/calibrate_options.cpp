// SPDX-License-Identifier: GPL-3.0-or-later
#include "options/calibrate_options.h"

#include <CLI/CLI.hpp>

#include "options/option_table.h"

namespace tinwright::app {
namespace {

constexpr NumberOption kThickness{"--thickness", 0, 0.001, 25, false, ""};
constexpr NumberOption kRadius{"--radius", 0, 0, 500, false, ""};
constexpr NumberOption kStripLength{"--flat", 0, 0.001, 20'000, false, ""};
constexpr NumberOption kAngle{"--angle", 90, 0.1, 179.9, false, ""};
constexpr NumberOption kError{"--measuring-error", 0.1, 0, 10, false, ""};

CLI::Validator inStripRange(const NumberOption& option) {
    return CLI::Validator([&option](std::string& text) { return numberComplaint(option, text); }, "", "range");
}

}  // namespace

void addCalibrateOptions(CLI::App& app, CalibrateOptions& options) {
    app.add_option("STRIPS", options.strips_path, "measured test strips (JSON)")->type_name("");
    app.add_option("--into", options.into, "write the result into \"measured_bends\" of this shop file")
        ->type_name("SHOP");
    app.add_option("--measuring-error", options.measuring_error,
                   "that one measured length may be off by (default 0.1 mm)")
        ->check(inStripRange(kError))
        ->type_name("L");
    const char* const kGroup = "One strip without a file";
    const auto add = [&](const char* name, auto& value, const char* meaning, const char* type) {
        CLI::Option* option = app.add_option(name, value, meaning)->type_name(type)->group(kGroup);
        option->each([&options](const std::string&) { options.any_of_strip = true; });
        return option;
    };
    add("--flat", options.flat, "length of the strip before it was bent", "L")->check(inStripRange(kStripLength));
    add("--legs", options.legs, "both legs after it", "L L")->expected(2)->check(inStripRange(kStripLength));
    add("--thickness", options.thickness, "of the sheet, measured", "L")->check(inStripRange(kThickness));
    add("--radius", options.radius, "inside radius of the bend", "L")->check(inStripRange(kRadius));
    add("--angle", options.angle_deg, "turned from flat, measured (default 90)", "DEG")->check(inStripRange(kAngle));
    add("--material", options.material, "id in the materials file", "ID");
    add("--tool", options.tool, "bar or brake it was bent with", "ID");
    add("--measured", options.measured, "over which faces the legs are: outside (default) or inside", "FACES")
        ->check(CLI::IsMember({"outside", "inside"}));
    add("--units", options.units, "mm (default) or in", "UNITS")->check(CLI::IsMember({"mm", "in"}));
    add("--date", options.date, "for the shop file", "TEXT");
}

std::string calibrateHelp() {
    return "Examples:\n"
           "  tinwright calibrate --flat 100 --legs 51.2 51.5 --thickness 1.5 --radius 1.5 --material dc01\n"
           "      one strip, bent square across its middle\n"
           "  tinwright calibrate strips.json --into shop.json\n"
           "      several strips; parts with the allowance rule \"measured\" then use them\n"
           "Cut a strip, measure it, bend it once, measure both legs from their ends to the outside of the bend.\n"
           "Three strips tell how far the shop repeats itself.\n";
}

}  // namespace tinwright::app
