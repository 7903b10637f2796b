// SPDX-License-Identifier: GPL-3.0-or-later
#include <deque>
#include <optional>

#include <tinwright/report/data/screen_report.h>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/material_of.h"
#include "files/output_file.h"
#include "work/plan_brakes.h"
#include "work/remedies.h"

namespace tinwright::app {
namespace {

struct Screened {
    CommandLine line;
    Inputs inputs;
};

// All of them before any is planned: what is wrong with the last file is told at once.
Issues readParts(const CommandLine& line, std::deque<Screened>& parts) {
    Issues issues;
    for (const std::string& path : line.part_paths) {
        Screened part{line, {}};
        part.line.part_path = path;
        Result<Inputs> inputs = readInputs(part.line);
        if (!inputs) {
            append(issues, inputs.issues());
            continue;
        }
        part.inputs = std::move(inputs).value();
        parts.push_back(std::move(part));
    }
    return issues;
}

PlanReport planOf(const Screened& screened) {
    const Inputs& inputs = screened.inputs;
    PlanReport report{inputs.part, inputs.shop, inputs.formed, Verdict::kUndecided, {}, inputs.warnings, {}};
    report.brakes = planBrakes(screened.line, inputs, inputs.part.name);
    report.verdict = overallVerdict(report.brakes);
    if (!screened.line.no_remedies) {
        addRemedies(screened.line, inputs, report);
        addSplit(screened.line, inputs, report);
        addNeeds(screened.line, inputs, report);
    }
    const std::optional<Material> material = materialOf(inputs.part);
    addFindings(report, material ? &*material : nullptr);
    return report;
}

Verdict worstOf(const std::vector<ScreenedPart>& parts) {
    Verdict worst = Verdict::kFeasible;
    for (const ScreenedPart& part : parts) {
        if (part.report.verdict == Verdict::kInfeasible) return Verdict::kInfeasible;
        if (part.report.verdict == Verdict::kUndecided) worst = Verdict::kUndecided;
    }
    return worst;
}

Issues writeAll(const CommandLine& line, const std::vector<ScreenedPart>& parts) {
    if (line.json && *line.json == "-") return writeStandardOutput(screenJson(parts));
    if (line.json) {
        std::vector<std::string> read = line.part_paths;
        read.push_back(line.shop_path);
        Issues issues = writeFile(*line.json, screenJson(parts), read);
        if (!issues.empty()) return issues;
    }
    return writeStandardOutput(screenText(parts));
}

}  // namespace

int runScreen(const CommandLine& read) {
    CommandLine line = read;
    line.plans = 1;
    std::deque<Screened> inputs;
    if (const Issues issues = readParts(line, inputs); !issues.empty()) return complain(issues);
    std::vector<ScreenedPart> parts;
    for (const Screened& screened : inputs) parts.push_back({screened.line.part_path, planOf(screened)});
    const Issues issues = writeAll(line, parts);
    return issues.empty() ? exitCode(worstOf(parts)) : complain(issues);
}

}  // namespace tinwright::app
