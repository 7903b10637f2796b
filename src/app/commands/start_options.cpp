// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands/start_arguments.h"

namespace tinwright::app {
namespace {

/// "name": length in the units of the file to be written.
Option length(const char* name, OptionTarget target, const char* meaning) {
    return {.name = name, .target = std::move(target), .meaning = meaning, .type = "L", .range = &kStartLength};
}

/// So many of them at once.
Option lengths(const char* name, std::vector<double>& target, int count, const char* meaning, const char* type) {
    return {
        .name = name, .target = &target, .meaning = meaning, .type = type, .range = &kStartLength, .numbers = count};
}

std::vector<Option> inGroup(const char* group, std::vector<Option> options) {
    for (Option& option : options) option.group = group;
    return options;
}

std::vector<Option> componentOptions(StartArguments& arguments) {
    std::vector<Option> options{
        lengths("--component", arguments.component, 3, "width (left to right), depth (front to back), height", "W D H"),
        length("--gap", &arguments.gap,
               "fit gap on each side that has a wall, and in height (default 0.5 mm, or 0.02 in)"),
        length("--gap-width", &arguments.gap_width, "that of the left and right sides"),
        length("--gap-depth", &arguments.gap_depth, "that of the front and back"),
        length("--gap-height", &arguments.gap_height, "that in height, once"),
        lengths("--window", arguments.window, 2, "a window of the base, cut to this size", "W H"),
        lengths("--window-at", arguments.window_at, 2,
                "its left and lower side from those of the component (default: the middle)", "X Y"),
        length("--boss", &arguments.boss,
               "diameter of a boss that sticks out; its hole is wider by the fit gap all round"),
        lengths("--boss-at", arguments.boss_at, 2,
                "its centre from the component's left and lower side (default: the middle)", "X Y")};
    options[0].required = true;
    options[1].given = &arguments.gap_given;
    return inGroup("The component", std::move(options));
}

std::vector<Option> fixingOptions(StartArguments& arguments) {
    return {{.name = "--fix",
             .target = &arguments.fix,
             .meaning = "housing, window-face: sides whose walls have tabs turned out, or none",
             .type = "a,b,...",
             .words = {"bottom", "top", "front", "back", "left", "right", "none"},
             .style = ListStyle::kCommas},
            {.name = "--fixings",
             .target = &arguments.fixings,
             .meaning = "tabs on each of them; holes in each foot of a hat, or in the upright of a bracket",
             .type = "N",
             .range = &kStartFixings},
            length("--tab-length", &arguments.tab_length, "housing, window-face: from the inside of the wall out"),
            length("--tab-width", &arguments.tab_width, "housing, window-face"),
            length("--screw", &arguments.screw,
                   "diameter of the holes in tabs, feet or upright (default 4.5 mm, or 0.18 in); 0: none")};
}

std::vector<Option> shapeOptions(StartArguments& arguments) {
    std::vector<Option> options{
        {.name = "--open",
         .target = &arguments.open,
         .meaning = "housing, tray, window-face: the side of the component left open, opposite the base",
         .type = "SIDE",
         .words = {"bottom", "top", "front", "back", "left", "right"}},
        {.name = "--corners",
         .target = &arguments.corners,
         .meaning = "housing, tray, window-face: open (default: a gap, ends slanted) or weld (tight and square, to be "
                    "welded up)",
         .type = "HOW",
         .words = {"open", "weld"}},
        length("--inside-height", &arguments.inside_height, "of walls or legs; at least the component and its gap")};
    append(options, fixingOptions(arguments));
    append(
        options,
        {length("--lip", &arguments.lip, "channel: lips turned in over the component, this wide inside"),
         length("--foot", &arguments.foot, "hat: feet, from the inside of the leg out"),
         length("--upright", &arguments.upright, "bracket: height of the upright over the seat"),
         {.name = "--name", .target = &arguments.name, .meaning = "of the part (default: the shape)", .type = "TEXT"}});
    return inGroup("The shape", std::move(options));
}

std::vector<Option> sheetOptions(StartArguments& arguments) {
    return inGroup(
        "The sheet",
        {{.name = "--units",
          .target = &arguments.units,
          .meaning = "mm or in: of the file and of every length given here (default mm)",
          .type = "UNITS",
          .words = {"mm", "in"}},
         {.name = "--material",
          .target = &arguments.material,
          .meaning = "id in the materials file (default mild-steel)",
          .type = "ID"},
         length("--thickness", &arguments.thickness, "default 1.5 mm, or 0.06 in"),
         length("--radius", &arguments.radius,
                "inside radius of every bend (default: what the shop's brake gives; without a shop 1 mm, or 0.04 in)"),
         {.name = "--k",
          .target = &arguments.k,
          .meaning = "k-factor of the allowance (default 0.44)",
          .type = "N",
          .range = &kStartFactor}});
}

}  // namespace

std::vector<Option> startOptions(StartArguments& arguments) {
    std::vector<Option> options{{.name = "SHAPE",
                                 .target = &arguments.shape,
                                 .meaning = "housing, tray, channel, hat, bracket or window-face",
                                 .words = {"housing", "tray", "channel", "hat", "bracket", "window-face"},
                                 .required = true}};
    append(options, componentOptions(arguments));
    append(options, shapeOptions(arguments));
    append(options, sheetOptions(arguments));
    append(options,
           {{.name = "--force", .target = &arguments.force, .meaning = "write over a file that is there already"},
            {.name = "-o,--output",
             .target = &arguments.out_path,
             .meaning = "the recipe (JSON)",
             .type = "FILE",
             .required = true}});
    append(options,
           optionalShopOptions(arguments.shop,
                               "draw the inside radius that its brake gives, and widen the fit gap so that the bars "
                               "or punches of this shop come between the walls"));
    return options;
}

}  // namespace tinwright::app
