// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands/commands.h"

#include <algorithm>

#include <fmt/format.h>

#include <tinwright/report/json/plan_json.h>
#include <tinwright/report/text/text.h>
#include <tinwright/sequence/plan/planner.h>

#include "console/complain.h"
#include "console/exit_code.h"
#include "console/log.h"
#include "files/inputs.h"
#include "files/output_file.h"
#include "files/part_file.h"
#include "files/pinned_inputs.h"
#include "files/sheet_output.h"
#include "work/made_lines.h"
#include "work/own_orders.h"

namespace tinwright::app {
namespace {

constexpr const char* kTryHelp =
    "Examples:\n"
    "  tinwright try part.json --shop shop.json --order left,right,front,back\n"
    "      four strokes\n"
    "  tinwright try part.json --shop shop.json --brake finger --order tab-a+tab-b,left,right\n"
    "      tab-a and tab-b in one stroke\n"
    "  tinwright try part.json --shop shop.json --formed left --order right\n"
    "      go on with a part that has one bend already\n"
    "  tinwright try part.json --shop shop.json --made left=35.2 --order right\n"
    "      the same when that one came out at 35.2 mm outside\n"
    "  tinwright try part.json --shop shop.json --order left@floor,right@right,front+back --sheet sheet.html\n"
    "      with the floor held for left and right itself for right; the bench sheet of this order\n";

struct TryArguments {
    JobChoice job;
    std::string order;                ///< "a@face,b+c,d"
    std::optional<std::string> json;  ///< file, or "-"
    SheetChoice drawings;
    PinChoice pins;
};

std::vector<Option> tryOptions(TryArguments& arguments) {
    std::vector<Option> options = jobOptions(arguments.job);
    append(options, madeOptions(arguments.job));
    options.push_back({.name = "--order",
                       .target = &arguments.order,
                       .meaning =
                           "the strokes in order; bends made in one stroke are joined by +; @PANEL after a stroke "
                           "holds the side on which the panel lies",
                       .type = "a@PANEL,b+c,...",
                       .required = true});
    options.push_back(jsonOption("order as a plan, when it works,", arguments.json));
    append(options, sheetOptions(arguments.drawings));
    append(options, pinOptions(arguments.pins, false));
    return options;
}

/// An order that goes on no brake leaves no paper: what stands in its way is told.
Issues writePapers(const TryArguments& arguments, const Inputs& inputs, const TryReport& report) {
    const std::vector<std::string> files = inputFiles(arguments.job.part, arguments.job.shop);
    const PlanReport own = ownOrders(inputs, report);
    if (own.brakes.empty()) {
        for (const BrakeTry& tried : report.brakes)
            logError(fmt::format("the order stops at fold {} of {} on {}: nothing is written",
                                 std::min(tried.result.plan.folds.size() + 1, report.order.size()), report.order.size(),
                                 tried.result.brake->name));
        return arguments.json == "-" ? Issues{} : writeStandardOutput(tryText(report));
    }
    Issues issues = writeSheet(arguments.drawings, files, own, inputs.material);
    if (!issues.empty()) return issues;
    return writeAnswer(
        arguments.json, files, [&] { return planJson(own); }, [&] { return tryText(report); });
}

int runTry(const TryArguments& arguments) {
    Result<Inputs> read = readInputs(arguments.job, &arguments.order);
    if (!read) return complain(read.issues());
    Inputs& inputs = read.value();
    if (const Issues issues = pinInputs(arguments.pins, inputs); !issues.empty()) return complain(issues);
    TryReport report{inputs.part, inputs.shop, inputs.formed, inputs.order, {}, inputs.warnings, inputs.pins, {}};
    report.made = inputs.made;
    if (report.made) report.made->lines = triedLines(inputs);
    for (const std::size_t brake : inputs.brakes) {
        report.brakes.push_back(
            {brake,
             tryOrder(inputs.part, inputs.shop, brake, inputs.order, inputs.formed, inputs.pins, inputs.sheet()),
             {},
             {}});
        addFindings(report, inputs.sheet(), report.brakes.back());
    }
    const bool papers = arguments.json || arguments.drawings.any();
    const Issues issues = papers ? writePapers(arguments, inputs, report) : writeStandardOutput(tryText(report));
    return issues.empty() ? exitCode(overallVerdict(report.brakes)) : complain(issues);
}

}  // namespace

Command tryCommand() {
    return makeCommand("try", "Simulate one order and say, fold by fold, what clears and what hits.",
                       std::string(kTryHelp) + kVerdictExitCodes, tryOptions, runTry);
}

}  // namespace tinwright::app
