// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/rules/rules.h>

#include <algorithm>

#include <tinwright/forming/rules/finding.h>

#include "rules/rule_tables.h"

namespace tinwright {

namespace {

const std::vector<Rule>& sorted() {
    static const std::vector<Rule> kRules = [] {
        std::vector<Rule> rules;
        for (const auto table : {forming::metalRules(), forming::pressRules(), forming::cuttingRules()})
            rules.insert(rules.end(), table.begin(), table.end());
        std::sort(rules.begin(), rules.end(), [](const Rule& a, const Rule& b) { return a.id < b.id; });
        return rules;
    }();
    return kRules;
}

}  // namespace

std::vector<Rule> formingRules() { return sorted(); }

const Rule* findRule(std::string_view id) {
    const auto found = std::lower_bound(sorted().begin(), sorted().end(), id,
                                        [](const Rule& rule, std::string_view wanted) { return rule.id < wanted; });
    return found != sorted().end() && found->id == id ? &*found : nullptr;
}

const char* toText(Severity severity) {
    switch (severity) {
        case Severity::kNote: return "note";
        case Severity::kWarning: return "warning";
        case Severity::kFault: return "fault";
        case Severity::kOverload: return "overload";
    }
    return "note";
}

}  // namespace tinwright
