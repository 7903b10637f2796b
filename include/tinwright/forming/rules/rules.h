// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string_view>
#include <vector>

namespace tinwright {

/// What stands behind the findings of one id.
struct Rule {
    std::string_view id;       ///< "web.folds"
    std::string_view title;    ///< a line
    std::string_view meaning;  ///< what happens to the metal, for a person at the bench
    std::string_view formula;  ///< as computed, with units
    std::string_view source;   ///< where it was published; "common practice" or "from memory" where it is
    std::string_view cure;     ///< what can be done about it in general
};

/// Every rule, ascending by id.
[[nodiscard]] std::vector<Rule> formingRules();

/// By id; nullptr when there is none. Lives as long as the program.
[[nodiscard]] const Rule* findRule(std::string_view id);

}  // namespace tinwright
