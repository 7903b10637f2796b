// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/issue.h>

namespace tinwright::app {

/// Hint of an issue: "did you mean ...?", or nothing when none of the words is near.
[[nodiscard]] std::string didYouMean(std::string_view word, const std::vector<std::string>& known);

/// Prints each issue to standard error, whatever the log level, and gives the exit code of bad input.
int complain(const Issues& issues);

}  // namespace tinwright::app
