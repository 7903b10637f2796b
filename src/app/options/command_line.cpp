// SPDX-License-Identifier: GPL-3.0-or-later
#include "options/command_line.h"

#include <iostream>

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include "console/exit_code.h"

namespace tinwright::app {
namespace {

constexpr const char* kExitCodes = "Exit codes: 0 feasible, 1 infeasible, 2 bad input or usage, 3 undecided.\n";

constexpr const char* kProgramHelp =
    "Examples:\n"
    "  tinwright plan part.json --shop shop.json\n"
    "  tinwright try part.json --shop shop.json --order left,right,front+back\n"
    "  tinwright blank part.json -o part.dxf\n"
    "  tinwright calibrate strips.json --into shop.json\n"
    "  tinwright start housing --component 60 40 25 -o part.json\n"
    "  tinwright check part.json --shop shop.json\n"
    "Each command has more: tinwright plan --help, tinwright try --help, tinwright blank --help,\n"
    "tinwright start --help.\n";

constexpr const char* kPlanHelp =
    "Examples:\n"
    "  tinwright plan part.json --shop shop.json\n"
    "      on every brake of the shop\n"
    "  tinwright plan part.json --shop shop.json --brake finger --plans 5\n"
    "      the five best orders on one brake\n"
    "  tinwright plan part.json --shop shop.json --formed left,right\n"
    "      the rest of a part with two bends already folded\n"
    "  tinwright plan part.json --shop shop.json --json - > plan.json\n"
    "      for another program\n"
    "  tinwright plan bracket.dxf --shop shop.json --bend-layer FOLDS --units in\n"
    "      a flat blank from a drawing, with bracket.bends.json beside it\n"
    "  tinwright plan part.json --shop shop.json --sheet sheet.html\n"
    "      drawings and cards for the bench\n"
    "  tinwright plan part.json --shop shop.json --robust\n"
    "      orders that go whatever sheet, cutting and bends come out within the shop's tolerances\n";

constexpr const char* kTryHelp =
    "Examples:\n"
    "  tinwright try part.json --shop shop.json --order left,right,front,back\n"
    "      four strokes\n"
    "  tinwright try part.json --shop shop.json --brake finger --order tab-a+tab-b,left,right\n"
    "      tab-a and tab-b in one stroke\n"
    "  tinwright try part.json --shop shop.json --formed left --order right\n"
    "      go on with a part that has one bend already\n";

constexpr const char* kBlankHelp =
    "Examples:\n"
    "  tinwright blank part.json -o part.dxf\n"
    "      outline and cut-outs, and nicks at the ends of the bend lines\n"
    "  tinwright blank part.json -o part.dxf --shop shop.json --brake finger\n"
    "      nicks at the sight lines of the best order on that brake\n"
    "  tinwright blank part.json -o part.dxf --bend-lines --bends-out part.bends.json\n"
    "      for reading back: tinwright plan part.dxf --shop shop.json\n"
    "  tinwright blank part.json -o part.dxf --shop shop.json --kerf\n"
    "      paths moved by half the kerf, for a table that follows the lines as they are\n"
    "Layers: CUT; DRILL, centres of the holes that the shop's way of cutting is too coarse for; MARK, nicks of 2 mm "
    "from the edge, to be cut through so that both faces show them;\n"
    "with --bend-lines BEND_UP, to be scribed on the drawn face only, and BEND_DOWN, on the other face only: a line "
    "scribed\n"
    "on the outside of a bend starts a crack.\n";

constexpr const char* kWrittenExitCodes =
    "Exit codes: 0 written, 2 bad input or usage.\n"
    "For plan and try: 0 feasible, 1 infeasible, 2 bad input or usage, 3 undecided.\n";

constexpr const char* kBarsHelp =
    "Examples:\n"
    "  tinwright bars 74 --shop shop.json\n"
    "  tinwright bars 2.9in --shop shop.json --brake finger\n"
    "  tinwright bars 74 --shop shop.json --brake press --vee 10\n"
    "      punches; walls that were bent in another V have another inside radius\n";
constexpr const char* kBarsExitCodes =
    "Exit codes: 0 a string comes under it on some brake, 1 none does, 2 bad input or usage.\n";

constexpr const char* kSuitHelp =
    "Examples:\n"
    "  tinwright suit part.json --shop shop.json\n"
    "      what might change, and what it buys; each change is planned before it is offered\n"
    "  tinwright suit part.json --shop shop.json --keep side_height --reach 8\n"
    "      by no more than 8 mm, and not the side height\n"
    "  tinwright suit part.json --shop shop.json --take 1 -o part-suited.json\n"
    "      write the part with the first suggestion taken\n"
    "  tinwright suit blank.dxf --shop shop.json --take 1 -o suited.dxf\n"
    "      a drawing is stretched between two parallel bends\n";
constexpr const char* kSuitExitCodes =
    "Exit codes: 0 something is offered or the part goes as drawn, 1 neither, 2 bad input or usage, 3 undecided.\n";

constexpr const char* kScreenHelp =
    "Examples:\n"
    "  tinwright screen housing.json bracket.json tray.json --shop shop.json\n"
    "  tinwright screen parts/*.json --shop shop.json --json table.json\n";
constexpr const char* kScreenExitCodes =
    "Exit codes: 0 every part goes on some brake, 1 one of them goes on none, 2 bad input or usage, 3 of one it is not "
    "decided.\n";

constexpr const char* kCheckHelp =
    "Examples:\n"
    "  tinwright check part.json\n"
    "      whatever the brake; webs beside windows for a leaf face of 25 mm\n"
    "  tinwright check part.json --shop shop.json --brake finger\n"
    "      with the load, the leaf and the nose of that brake\n"
    "  tinwright check part.json --json findings.json\n"
    "      for another program\n"
    "  tinwright explain web.folds\n"
    "      formula and source of a finding\n";
constexpr const char* kCheckExitCodes =
    "Exit codes: 0 no fault (there may be warnings), 1 at least one fault, 2 bad input or usage.\n";

constexpr const char* kExplainHelp =
    "Examples:\n"
    "  tinwright explain\n"
    "      every id with its title\n"
    "  tinwright explain hole.near-bend\n";
constexpr const char* kExplainExitCodes = "Exit codes: 0 told, 2 there is no such id.\n";

void addNumber(CLI::App& app, const NumberOption& option, double& value) {
    const std::string meaning =
        fmt::format("{} ({}{} to {}, default {})", option.meaning, option.whole ? "whole number " : "", option.least,
                    option.most, option.standard);
    const CLI::Validator in_range([&option](std::string& text) { return numberComplaint(option, text); }, "", "range");
    app.add_option(option.name, value, meaning)->check(in_range)->type_name("N")->take_last();
}

void addOptionalNumber(CLI::App& app, const NumberOption& option, std::optional<double>& value) {
    const std::string meaning =
        fmt::format("{} ({}{} to {})", option.meaning, option.whole ? "whole number " : "", option.least, option.most);
    const CLI::Validator in_range([&option](std::string& text) { return numberComplaint(option, text); }, "", "range");
    app.add_option(option.name, value, meaning)->check(in_range)->type_name("N")->take_last();
}

void addDrawing(CLI::App& app, DrawingChoice& drawing) {
    const char* const kGroup = "For a part in a .dxf file";
    const auto add = [&](const char* name, auto& value, const char* meaning, const char* type) {
        return app.add_option(name, value, meaning)->type_name(type)->group(kGroup);
    };
    add("--bends", drawing.bends_path, "how its lines are bent (default: PART.bends.json beside it)", "FILE");
    add("--units", drawing.units, "mm or in, whatever the drawing says", "UNITS")->check(CLI::IsMember({"mm", "in"}));
    add("--cut-layer", drawing.cut_layers, "a layer of cut lines; * at the end for any rest", "NAME")
        ->allow_extra_args(false);
    add("--bend-layer", drawing.bend_layers, "a layer of bend lines", "NAME")->allow_extra_args(false);
    add("--ignore-layer", drawing.ignored_layers, "a layer to leave out", "NAME")->allow_extra_args(false);
    add("--bend-line-type", drawing.bend_line_types, "a line type of bend lines", "NAME")->allow_extra_args(false);
}

void addPartAndLog(CLI::App& app, CommandLine& line) {
    app.add_option("PART", line.part_path, "the part: a recipe (JSON), or a flat blank (.dxf)")
        ->required()
        ->type_name("");
    addDrawing(app, line.drawing);
    app.add_option("--log", line.log_level, "what to tell on standard error (default warn)")
        ->check(CLI::IsMember({"trace", "debug", "info", "warn", "error", "off"}))
        ->type_name("LEVEL");
}

void addBrake(CLI::App& app, CommandLine& line) {
    app.add_option("--brake", line.brake, "only this brake of the shop (default: every one)")->type_name("NAME");
}

void addShared(CLI::App& app, CommandLine& line) {
    addPartAndLog(app, line);
    app.add_option("--shop", line.shop_path, "the shop file (JSON): brakes and their tools")
        ->required()
        ->type_name("FILE");
    addBrake(app, line);
    app.add_option("--formed", line.formed, "bends that are already folded")->type_name("a,b,...");
}

void addPlan(CLI::App& program, CommandLine& line) {
    CLI::App* plan = program.add_subcommand(
        "plan", "Rank the orders of folds that work, with bars or punches, holds and clearances.");
    addShared(*plan, line);
    addNumber(*plan, kPlansOption, line.plans);
    addNumber(*plan, kThreadsOption, line.threads);
    addNumber(*plan, kTimeLimitOption, line.time_limit_s);
    addNumber(*plan, kWorkOption, line.work);
    addNumber(*plan, kMemoryOption, line.memory_mb);
    plan->add_option("--json", line.json, "write the plan as JSON; - is standard output, instead of the text")
        ->type_name("FILE");
    plan->add_option("--sheet", line.sheet, "write the bench sheet: one page (HTML) to print or to open on a phone")
        ->type_name("FILE");
    plan->add_option("--svg", line.svg, "write every drawing of the sheet into this folder, made if need be")
        ->type_name("DIR");
    plan->add_option("--glb", line.glb, "write the best order as an animated 3-D file (glTF 2.0 binary)")
        ->type_name("FILE");
    plan->add_option("--export-constraints", line.constraints, "write the order problem as JSON, for other solvers")
        ->type_name("FILE");
    plan->add_flag("--verify", line.verify, "replay every plan with an independent collision check");
    plan->add_flag("--robust", line.robust,
                   "only orders whose folds are all shown to hold over the shop's tolerances; undecided when none is "
                   "but some go as drawn");
    plan->add_flag("--no-remedies", line.no_remedies,
                   "when no order works, or only a tight one: do not look for what would lift it");
    plan->footer(std::string(kPlanHelp) + kExitCodes);
    plan->callback([&line] { line.command = Command::kPlan; });
}

void addTry(CLI::App& program, CommandLine& line) {
    CLI::App* tried =
        program.add_subcommand("try", "Simulate one order and say, fold by fold, what clears and what hits.");
    addShared(*tried, line);
    tried->add_option("--order", line.order, "the strokes in order; bends made in one stroke are joined by +")
        ->required()
        ->type_name("a,b+c,...");
    tried->footer(std::string(kTryHelp) + kExitCodes);
    tried->callback([&line] { line.command = Command::kTry; });
}

void addBlank(CLI::App& program, CommandLine& line) {
    CLI::App* blank = program.add_subcommand("blank", "Write the flat blank as a drawing for the cutting table.");
    addPartAndLog(*blank, line);
    blank->add_option("-o,--output", line.out_path, "the drawing; its ending says which: .dxf or .svg")
        ->required()
        ->type_name("FILE");
    blank->add_option("--bends-out", line.bends_out, "write also how the lines are bent, for reading the drawing back")
        ->type_name("FILE");
    blank->add_flag("--bend-lines", line.bend_lines, "draw whole bend lines, each for the inside face of its bend");
    blank
        ->add_option("--shop", line.shop_path,
                     "mark the sight lines of the best order in this shop, and cut as it cuts")
        ->type_name("FILE");
    addBrake(*blank, line);
    blank->add_flag("--bend-marks", line.bend_marks, "mark the bend lines even with a shop");
    blank->add_flag("--kerf", line.kerf, "move outlines by half the shop's kerf (default: the cutting program does)");
    addOptionalNumber(*blank, kKerfWidthOption, line.kerf_width_mm);
    addNumber(*blank, kTimeLimitOption, line.time_limit_s);
    blank->footer(std::string(kBlankHelp) + kWrittenExitCodes);
    blank->callback([&line] { line.command = Command::kBlank; });
}

void addBars(CLI::App& program, CommandLine& line) {
    CLI::App* bars = program.add_subcommand(
        "bars",
        "Which strings of bars, or of punches, come under an inside width, and which widths next to it suit them.");
    bars->add_option("WIDTH", line.width, "the inside width: 74, 74mm or 2.9in")->required()->type_name("");
    bars->add_option("--shop", line.shop_path, "the shop file (JSON): brakes and their tools")
        ->required()
        ->type_name("FILE");
    addBrake(*bars, line);
    addOptionalNumber(*bars, kVeeOption, line.vee_mm);
    bars->add_option("--json", line.json, "write the answer as JSON; - is standard output, instead of the text")
        ->type_name("FILE");
    bars->footer(std::string(kBarsHelp) + kBarsExitCodes);
    bars->callback([&line] { line.command = Command::kBars; });
}

void addSuit(CLI::App& program, CommandLine& line) {
    CLI::App* suit = program.add_subcommand(
        "suit", "Which small changes of dimensions make the part suit the bars or punches of the shop.");
    addShared(*suit, line);
    suit->add_option("--only", line.suit.only, "change nothing but these dimensions")
        ->delimiter(',')
        ->type_name("a,b,...");
    suit->add_option("--keep", line.suit.keep, "leave these alone, besides those that the part locks")
        ->delimiter(',')
        ->type_name("a,b,...");
    addOptionalNumber(*suit, kReachOption, line.suit.reach_mm);
    addOptionalNumber(*suit, kTakeOption, line.suit.take);
    suit->add_option("-o,--output", line.out_path,
                     "where the changed part goes: a recipe, or for a drawing a .dxf with its bends file beside it")
        ->type_name("FILE");
    addNumber(*suit, kTimeLimitOption, line.time_limit_s);
    suit->add_option("--json", line.json, "write the suggestions as JSON; - is standard output, instead of the text")
        ->type_name("FILE");
    suit->footer(std::string(kSuitHelp) + kSuitExitCodes);
    suit->callback([&line] { line.command = Command::kSuit; });
}

void addCheck(CLI::App& program, CommandLine& line) {
    CLI::App* check = program.add_subcommand(
        "check", "What the metal does when the part is folded: faults, warnings and notes before any is cut.");
    addPartAndLog(*check, line);
    check->add_option("--shop", line.shop_path, "the shop file (JSON): check its brakes too")->type_name("FILE");
    addBrake(*check, line);
    check->add_option("--json", line.json, "write the findings as JSON; - is standard output, instead of the text")
        ->type_name("FILE");
    check->footer(std::string(kCheckHelp) + kCheckExitCodes);
    check->callback([&line] { line.command = Command::kCheck; });
}

void addExplain(CLI::App& program, CommandLine& line) {
    CLI::App* explain = program.add_subcommand("explain", "Formula, source and cure of a finding.");
    explain->add_option("ID", line.rule, "id of a finding, like web.folds (default: list them all)")->type_name("");
    explain->footer(std::string(kExplainHelp) + kExplainExitCodes);
    explain->callback([&line] { line.command = Command::kExplain; });
}

void addScreen(CLI::App& program, CommandLine& line) {
    CLI::App* screen = program.add_subcommand(
        "screen",
        "Which brakes of the shop make which parts: one table, what blocks, and what would help least dearly.");
    screen->add_option("PART", line.part_paths, "the parts: recipes (JSON), or flat blanks (.dxf)")
        ->required()
        ->type_name("");
    screen->add_option("--shop", line.shop_path, "the shop file (JSON): brakes and their tools")
        ->required()
        ->type_name("FILE");
    addBrake(*screen, line);
    addNumber(*screen, kThreadsOption, line.threads);
    addNumber(*screen, kTimeLimitOption, line.time_limit_s);
    addNumber(*screen, kWorkOption, line.work);
    screen->add_flag("--no-remedies", line.no_remedies, "the table and what blocks only");
    screen->add_option("--json", line.json, "write the table as JSON; - is standard output, instead of the text")
        ->type_name("FILE");
    screen->add_option("--log", line.log_level, "what to tell on standard error (default warn)")
        ->check(CLI::IsMember({"trace", "debug", "info", "warn", "error", "off"}))
        ->type_name("LEVEL");
    screen->footer(std::string(kScreenHelp) + kScreenExitCodes);
    screen->callback([&line] { line.command = Command::kScreen; });
}

void addStart(CLI::App& program, CommandLine& line) {
    CLI::App* start = program.add_subcommand("start", "Write the recipe of a part that holds a component.");
    addStartOptions(*start, line.start);
    start->add_option("-o,--output", line.out_path, "the recipe (JSON)")->required()->type_name("FILE");
    start
        ->add_option("--shop", line.shop_path,
                     "widen the fit gap so that the bars or punches of this shop come between the walls")
        ->type_name("FILE");
    addBrake(*start, line);
    start->footer(startHelp() + kWrittenExitCodes);
    start->callback([&line, start] {
        line.command = Command::kStart;
        line.start.gap_given = start->count("--gap") > 0;
    });
}

void addCalibrate(CLI::App& program, CommandLine& line) {
    CLI::App* calibrate =
        program.add_subcommand("calibrate", "From measured test strips to k-factor and deduction, for the shop file.");
    addCalibrateOptions(*calibrate, line.calibrate);
    calibrate->add_option("--json", line.json, "write the result as JSON; - is standard output, instead of the text")
        ->type_name("FILE");
    calibrate->footer(calibrateHelp() + kWrittenExitCodes);
    calibrate->callback([&line] { line.command = Command::kCalibrate; });
}

}  // namespace

ParsedCommandLine parseCommandLine(int argc, const char* const* argv) {
    CommandLine line;
    CLI::App program("tinwright: from a folded part and the brakes and tools of a shop to orders of folds that work.",
                     "tinwright");
    program.set_version_flag("--version", "tinwright " TINWRIGHT_VERSION);
    program.require_subcommand(1);
    program.footer(std::string(kProgramHelp) + kExitCodes);
    addPlan(program, line);
    addTry(program, line);
    addBlank(program, line);
    addBars(program, line);
    addSuit(program, line);
    addStart(program, line);
    addCalibrate(program, line);
    addScreen(program, line);
    addCheck(program, line);
    addExplain(program, line);
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        // The library has a code of its own for every kind of mistake; to the shell all of them are bad usage.
        return {std::nullopt, program.exit(error, std::cout, std::cerr) == 0 ? kFeasibleExit : kBadInputExit};
    }
    return {line, 0};
}

}  // namespace tinwright::app
