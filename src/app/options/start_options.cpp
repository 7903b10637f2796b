// SPDX-License-Identifier: GPL-3.0-or-later
#include "options/start_options.h"

#include <CLI/CLI.hpp>

#include "options/option_table.h"

namespace tinwright::app {
namespace {

constexpr NumberOption kStartLength{"length", 0, 0, 20'000, false, ""};
constexpr NumberOption kShare{"k", 0.44, 0, 1, false, ""};
constexpr NumberOption kCount{"count", 1, 1, 12, true, ""};

CLI::Validator inRange(const NumberOption& option) {
    return CLI::Validator([&option](std::string& text) { return numberComplaint(option, text); }, "", "range");
}

/// Adds options to one group of the help.
class Group {
public:
    Group(CLI::App& app, const char* name) : app_(app), name_(name) {}
    template <class Value>
    CLI::Option* length(const char* option, Value& value, const char* meaning, const char* type = "L") {
        return add(option, value, meaning, type)->check(inRange(kStartLength));
    }
    template <class Value>
    CLI::Option* add(const char* option, Value& value, const char* meaning, const char* type) {
        return app_.add_option(option, value, meaning)->type_name(type)->group(name_);
    }

private:
    CLI::App& app_;
    const char* name_;
};

void addComponent(CLI::App& app, StartOptions& options) {
    Group group(app, "The component");
    group.length("--component", options.component, "width (left to right), depth (front to back), height", "W D H")
        ->expected(3)
        ->required();
    group.length("--gap", options.gap,
                 "fit gap on each side that has a wall, and in height (default 0.5 mm, or 0.02 in)");
    group.length("--gap-width", options.gap_width, "that of the left and right sides");
    group.length("--gap-depth", options.gap_depth, "that of the front and back");
    group.length("--gap-height", options.gap_height, "that in height, once");
    group.length("--window", options.window, "a window of the base, cut to this size", "W H")->expected(2);
    group
        .length("--window-at", options.window_at,
                "its left and lower side from those of the component (default: the middle)", "X Y")
        ->expected(2);
    group.length("--boss", options.boss,
                 "diameter of a boss that sticks out; its hole is wider by the fit gap all round");
    group
        .length("--boss-at", options.boss_at,
                "its centre from the component's left and lower side (default: the middle)", "X Y")
        ->expected(2);
}

void addSheet(CLI::App& app, StartOptions& options) {
    Group group(app, "The sheet");
    group.add("--units", options.units, "mm or in: of the file and of every length given here (default mm)", "UNITS")
        ->check(CLI::IsMember({"mm", "in"}));
    group.add("--material", options.material, "id in the materials file (default mild-steel)", "ID");
    group.length("--thickness", options.thickness, "default 1.5 mm, or 0.06 in");
    group.length("--radius", options.radius, "inside radius of every bend (default 1 mm, or 0.04 in)");
    group.add("--k", options.k, "k-factor of the allowance (default 0.44)", "N")->check(inRange(kShare));
}

void addShape(CLI::App& app, StartOptions& options) {
    Group group(app, "The shape");
    group
        .add("--open", options.open,
             "housing, tray, window-face: the side of the component left open, opposite the base", "SIDE")
        ->check(CLI::IsMember({"bottom", "top", "front", "back", "left", "right"}));
    group.length("--inside-height", options.inside_height, "of walls or legs; at least the component and its gap");
    group.add("--fix", options.fix, "housing, window-face: sides whose walls have tabs turned out, or none", "a,b,...")
        ->delimiter(',')
        ->check(CLI::IsMember({"bottom", "top", "front", "back", "left", "right", "none"}));
    group
        .add("--fixings", options.fixings,
             "tabs on each of them; holes in each foot of a hat, or in the upright of a bracket", "N")
        ->check(inRange(kCount));
    group.length("--tab-length", options.tab_length, "housing, window-face: from the inside of the wall out");
    group.length("--tab-width", options.tab_width, "housing, window-face");
    group.length("--screw", options.screw,
                 "diameter of the holes in tabs, feet or upright (default 4.5 mm, or 0.18 in); 0: none");
    group.length("--lip", options.lip, "channel: lips turned in over the component, this wide inside");
    group.length("--foot", options.foot, "hat: feet, from the inside of the leg out");
    group.length("--upright", options.upright, "bracket: height of the upright over the seat");
    group.add("--name", options.name, "of the part (default: the shape)", "TEXT");
}

}  // namespace

void addStartOptions(CLI::App& app, StartOptions& options) {
    app.add_option("SHAPE", options.shape, "housing, tray, channel, hat, bracket or window-face")
        ->required()
        ->type_name("")
        ->check(CLI::IsMember({"housing", "tray", "channel", "hat", "bracket", "window-face"}));
    addComponent(app, options);
    addShape(app, options);
    addSheet(app, options);
    app.add_flag("--force", options.force, "write over a file that is there already");
}

std::string startHelp() {
    return "Examples:\n"
           "  tinwright start housing --component 60 40 25 --fix left,right -o housing.json\n"
           "      a cover with four walls, tabs turned out on two of them\n"
           "  tinwright start tray --component 120 80 30 --gap 1 -o tray.json\n"
           "      a floor and four walls, open at the top\n"
           "  tinwright start channel --component 50 200 30 --lip 10 -o channel.json\n"
           "      web and two legs as long as the component is deep, lips turned in over it\n"
           "  tinwright start hat --component 50 120 20 --fixings 3 -o hat.json\n"
           "      a web over the component, two feet with three holes each\n"
           "  tinwright start bracket --component 40 40 30 --boss 22 -o bracket.json\n"
           "      a seat with the hole of a boss, and an upright behind\n"
           "  tinwright start window-face --component 72 57 20 --window 38 22 --window-at 14 20 -o face.json\n"
           "      a face with a window and four walls behind it\n"
           "Inside dimensions that mate with the component are named and locked; wall heights, tabs and corner gaps "
           "are named and\n"
           "may be changed. The file's notes say what each came from, and which side of the component lies where.\n"
           "Left and lower are as seen from outside, the component's front (of an upright face: its bottom) towards "
           "you.\n";
}

}  // namespace tinwright::app
