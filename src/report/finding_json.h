// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <nlohmann/json.hpp>

#include <tinwright/forming/finding.h>

namespace tinwright::report {

using Json = nlohmann::ordered_json;  // keeps fields in the order in which they are documented

/// As src/report/CHECK_FORMAT.md describes `findings[]`.
[[nodiscard]] Json findingsJson(const Part& part, const std::vector<Finding>& findings);

}  // namespace tinwright::report
