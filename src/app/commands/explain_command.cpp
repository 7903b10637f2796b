// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/rules/rules.h>
#include <tinwright/io/json/json_cursor.h>
#include <tinwright/report/data/check_report.h>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/output_file.h"

namespace tinwright::app {
namespace {

/// The id that is spelt nearly so, and those of the same group.
Issue unknownRule(const std::string& id) {
    std::vector<std::string> all;
    std::string group;
    for (const Rule& rule : formingRules()) {
        all.emplace_back(rule.id);
        if (rule.id.substr(0, rule.id.find('.')) == id.substr(0, id.find('.')))
            group += (group.empty() ? "" : ", ") + std::string(rule.id);
    }
    const std::string nearest = nearestWord(id, all);
    std::string hint = nearest.empty() ? std::string() : "did you mean \"" + nearest + "\"?";
    if (!group.empty()) hint += (hint.empty() ? "" : " ") + ("of its group there are: " + group);
    return {"explain.id", "command line", "ID", '"' + id + '"', "an id that \"tinwright explain\" lists", hint};
}

}  // namespace

int runExplain(const CommandLine& line) {
    const Rule* rule = line.rule.empty() ? nullptr : findRule(line.rule);
    if (!line.rule.empty() && !rule) return complain({unknownRule(line.rule)});
    const Issues issues = writeStandardOutput(rule ? ruleText(*rule) : ruleList());
    return issues.empty() ? kFeasibleExit : complain(issues);
}

}  // namespace tinwright::app
