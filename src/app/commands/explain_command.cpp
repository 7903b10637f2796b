// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/base/words.h>
#include <tinwright/forming/rules/rules.h>
#include <tinwright/report/data/check_report.h>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/output_file.h"

namespace tinwright::app {
namespace {

constexpr const char* kExplainHelp =
    "Examples:\n"
    "  tinwright explain\n"
    "      every id with its title\n"
    "  tinwright explain hole.near-bend\n"
    "Exit codes: 0 told, 2 there is no such id.\n";

struct ExplainArguments {
    std::string rule;  ///< id of a finding; empty: all of them
};

std::vector<Option> explainOptions(ExplainArguments& arguments) {
    return {{.name = "ID",
             .target = &arguments.rule,
             .meaning = "id of a finding, like web.folds (default: list them all)"}};
}

/// The id that is spelt nearly so, and those of the same group.
Issue unknownRule(const std::string& id) {
    std::vector<std::string> all;
    std::vector<std::string_view> group;
    for (const Rule& rule : formingRules()) {
        all.emplace_back(rule.id);
        if (rule.id.substr(0, rule.id.find('.')) == id.substr(0, id.find('.'))) group.push_back(rule.id);
    }
    std::string hint = didYouMean(id, all);
    if (!group.empty()) hint += (hint.empty() ? "" : " ") + ("of its group there are: " + joined(group, ", "));
    return {"explain.id", "command line", "ID", '"' + id + '"', "an id that \"tinwright explain\" lists", hint};
}

int runExplain(const ExplainArguments& arguments) {
    const Rule* rule = arguments.rule.empty() ? nullptr : findRule(arguments.rule);
    if (!arguments.rule.empty() && !rule) return complain({unknownRule(arguments.rule)});
    const Issues issues = writeStandardOutput(rule ? ruleText(*rule) : ruleList());
    return issues.empty() ? kFeasibleExit : complain(issues);
}

}  // namespace

Command explainCommand() {
    return makeCommand("explain", "Formula, source and cure of a finding.", kExplainHelp, explainOptions, runExplain);
}

}  // namespace tinwright::app
