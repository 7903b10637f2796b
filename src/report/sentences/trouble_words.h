// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/plan/trouble.h>
#include <tinwright/forming/rules/finding.h>
#include <tinwright/part/model/part.h>

namespace tinwright::report {

/// What is to be done besides for a fold, a sentence each.
[[nodiscard]] std::vector<std::string> careWords(const Part& part, const Care& care);
/// "bars packed, bars clamped", "tongs": in a table; empty: none.
[[nodiscard]] std::string careBrief(const Care& care);

/// "window: face folds at ...; and 2 more", of what is spoilt. Precondition: something is.
[[nodiscard]] std::string spoiltBrief(const std::vector<Finding>& spoiling);
/// "window (web.folds)": one after the other, for a table.
[[nodiscard]] std::string spoiltList(const std::vector<Finding>& spoiling);

/// Ways of a finding to be told in: "OVERLOAD: ", "FAULT: ", "SPOILS: ", or nothing.
[[nodiscard]] std::string gravityWords(const Finding& finding);

}  // namespace tinwright::report
