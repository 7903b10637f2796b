// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/sentences/allowance_text.h>

#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace tinwright {

std::string allowanceRuleText(const Bend& bend) {
    switch (bend.rule) {
        case AllowanceRule::kKFactor: return fmt::format("k-factor {:.3g}", bend.rule_value);
        case AllowanceRule::kDin6935: return fmt::format("DIN 6935, factor {:.3g}", bend.rule_value);
        case AllowanceRule::kHandbook: return "FAA handbook";
        case AllowanceRule::kMeasured:
            return fmt::format("measured by the shop, k {:.3g} ({})", bend.rule_value, bend.rule_source);
    }
    return {};
}

std::string allowanceText(const Part& part) {
    std::vector<std::pair<std::string, std::string>> rules;  // rule, bends
    for (const Bend& bend : part.bends) {
        std::string rule = allowanceRuleText(bend);
        const auto same =
            std::find_if(rules.begin(), rules.end(), [&](const auto& entry) { return entry.first == rule; });
        if (same == rules.end())
            rules.emplace_back(std::move(rule), bend.name);
        else
            same->second += ", " + bend.name;
    }
    if (rules.size() == 1) return rules.front().first;
    std::string text;
    for (const auto& [rule, bends] : rules) text += fmt::format("{}{} ({})", text.empty() ? "" : "; ", rule, bends);
    return text;
}

const char* toText(AllowanceRule rule) {
    switch (rule) {
        case AllowanceRule::kKFactor: return "k-factor";
        case AllowanceRule::kDin6935: return "din-6935";
        case AllowanceRule::kHandbook: return "handbook";
        case AllowanceRule::kMeasured: return "measured";
    }
    return "";
}

}  // namespace tinwright
