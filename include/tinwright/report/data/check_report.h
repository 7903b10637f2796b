// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/forming/rules/finding.h>
#include <tinwright/forming/rules/rules.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// What `tinwright check` has to say. Refers to the part, which outlives it.
struct CheckReport {
    const Part& part;
    std::string shop;                   ///< its name; empty: none was given
    std::vector<std::string> brakes;    ///< that were looked at
    std::vector<MachineKind> kinds;     ///< of those brakes
    std::vector<Finding> findings;      ///< sorted
    std::vector<std::string> warnings;  ///< of the part itself
};

/// Faults, warnings, notes; for a person at the bench. No line is longer than kReportColumns.
[[nodiscard]] std::string checkText(const CheckReport& report);

/// The same for a program, format "tinwright-check/1" (src/report/CHECK_FORMAT.md).
[[nodiscard]] std::string checkJson(const CheckReport& report);

/// What stands behind an id: meaning, formula, source and cure.
[[nodiscard]] std::string ruleText(const Rule& rule);
/// Every id with its title, a line each.
[[nodiscard]] std::string ruleList();

}  // namespace tinwright
