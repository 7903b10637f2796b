// SPDX-License-Identifier: GPL-3.0-or-later
#include "options/parse.h"

#include <iostream>
#include <type_traits>

#include <CLI/CLI.hpp>

#include "console/exit_code.h"

namespace tinwright::app {
namespace {

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

CLI::Option* addValue(CLI::App& app, const Option& option) {
    return std::visit(
        [&](const auto& target) -> CLI::Option* {
            using Target = std::decay_t<decltype(target)>;
            if constexpr (std::is_same_v<Target, bool*>) {
                return app.add_flag(option.name, *target, option.meaning);
            } else if constexpr (std::is_pointer_v<Target>) {
                return app.add_option(option.name, *target, option.meaning)->type_name(option.type);
            } else {
                return app.add_option_function<std::string>(option.name, target, option.meaning)
                    ->type_name(option.type);
            }
        },
        option.target);
}

void addOption(CLI::App& app, const Option& option) {
    CLI::Option* added = addValue(app, option);
    if (option.group != nullptr) added->group(option.group);
    if (option.numbers > 0) added->expected(option.numbers);
    if (option.style == ListStyle::kCommas) added->delimiter(',');
    if (option.style == ListStyle::kEach) added->allow_extra_args(false);
    if (!option.words.empty()) added->check(CLI::IsMember(option.words));
    if (option.range != nullptr) {
        const NumberRange range = *option.range;
        added->check(CLI::Validator([range](std::string& text) { return numberComplaint(range, text); }, "", "range"));
    }
    if (option.required) added->required();
    if (option.last_counts) added->take_last();
    if (option.given != nullptr) added->each([given = option.given](const std::string&) { *given = true; });
}

}  // namespace

ParsedCommandLine parseCommandLine(int argc, const char* const* argv, const std::vector<Command>& commands) {
    CLI::App program("tinwright: from a folded part and the brakes and tools of a shop to orders of folds that work.",
                     "tinwright");
    program.set_version_flag("--version", "tinwright " TINWRIGHT_VERSION);
    program.require_subcommand(1);
    program.footer(std::string(kProgramHelp) + kVerdictExitCodes);
    ParsedCommandLine parsed;
    for (const Command& command : commands) {
        CLI::App* added = program.add_subcommand(command.name, command.title);
        for (const Option& option : command.options) addOption(*added, option);
        added->footer(command.footer);
        added->callback([&parsed, &command] { parsed.command = &command; });
    }
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        // The library has a code of its own for every kind of mistake; to the shell all of them are bad usage.
        return {nullptr, program.exit(error, std::cout, std::cerr) == 0 ? kFeasibleExit : kBadInputExit};
    }
    return parsed;
}

}  // namespace tinwright::app
