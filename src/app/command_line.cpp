// SPDX-License-Identifier: GPL-3.0-or-later
#include "command_line.h"

#include <iostream>

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include "exit_code.h"

namespace tinwright::app {
namespace {

constexpr const char* kExitCodes = "Exit codes: 0 feasible, 1 infeasible, 2 bad input or usage, 3 undecided.\n";

constexpr const char* kProgramHelp =
    "Examples:\n"
    "  tinwright plan part.json --shop shop.json\n"
    "  tinwright try part.json --shop shop.json --order left,right,front+back\n"
    "Each command has more: tinwright plan --help, tinwright try --help.\n";

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
    "  tinwright plan part.json --shop shop.json --sheet sheet.html\n"
    "      drawings and cards for the bench\n";

constexpr const char* kTryHelp =
    "Examples:\n"
    "  tinwright try part.json --shop shop.json --order left,right,front,back\n"
    "      four strokes\n"
    "  tinwright try part.json --shop shop.json --brake finger --order tab-a+tab-b,left,right\n"
    "      tab-a and tab-b in one stroke\n"
    "  tinwright try part.json --shop shop.json --formed left --order right\n"
    "      go on with a part that has one bend already\n";

void addNumber(CLI::App& app, const NumberOption& option, double& value) {
    const std::string meaning =
        fmt::format("{} ({}{} to {}, default {})", option.meaning, option.whole ? "whole number " : "", option.least,
                    option.most, option.standard);
    const CLI::Validator in_range([&option](std::string& text) { return numberComplaint(option, text); }, "", "range");
    app.add_option(option.name, value, meaning)->check(in_range)->type_name("N")->take_last();
}

void addShared(CLI::App& app, CommandLine& line) {
    app.add_option("PART", line.part_path, "the part: a recipe file (JSON)")->required()->type_name("");
    app.add_option("--shop", line.shop_path, "the shop file (JSON): brakes and their bars")
        ->required()
        ->type_name("FILE");
    app.add_option("--brake", line.brake, "only this brake of the shop (default: every one)")->type_name("NAME");
    app.add_option("--formed", line.formed, "bends that are already folded")->type_name("a,b,...");
    app.add_option("--log", line.log_level, "what to tell on standard error (default warn)")
        ->check(CLI::IsMember({"trace", "debug", "info", "warn", "error", "off"}))
        ->type_name("LEVEL");
}

void addPlan(CLI::App& program, CommandLine& line) {
    CLI::App* plan =
        program.add_subcommand("plan", "Rank the orders of folds that work, with bars, holds and clearances.");
    addShared(*plan, line);
    addNumber(*plan, kPlansOption, line.plans);
    addNumber(*plan, kThreadsOption, line.threads);
    addNumber(*plan, kTimeLimitOption, line.time_limit_s);
    plan->add_option("--json", line.json, "write the plan as JSON; - is standard output, instead of the text")
        ->type_name("FILE");
    plan->add_option("--sheet", line.sheet, "write the bench sheet: one page (HTML) to print or to open on a phone")->type_name("FILE");
    plan->add_option("--svg", line.svg, "write every drawing of the sheet into this folder, made if need be")->type_name("DIR");
    plan->add_option("--glb", line.glb, "write the best order as an animated 3-D file (glTF 2.0 binary)")->type_name("FILE");
    plan->add_flag("--verify", line.verify, "replay every plan with an independent collision check");
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

}  // namespace

ParsedCommandLine parseCommandLine(int argc, const char* const* argv) {
    CommandLine line;
    CLI::App program("tinwright: from a folded part and the brake and bars of a shop to orders of folds that work.",
                     "tinwright");
    program.set_version_flag("--version", "tinwright " TINWRIGHT_VERSION);
    program.require_subcommand(1);
    program.footer(std::string(kProgramHelp) + kExitCodes);
    addPlan(program, line);
    addTry(program, line);
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        // The library has a code of its own for every kind of mistake; to the shell all of them are bad usage.
        return {std::nullopt, program.exit(error, std::cout, std::cerr) == 0 ? kFeasibleExit : kBadInputExit};
    }
    return {line, 0};
}

}  // namespace tinwright::app
