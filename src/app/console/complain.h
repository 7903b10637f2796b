// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/base/issue.h>

namespace tinwright::app {

/// Prints each issue to standard error, whatever the log level, and gives the exit code of bad input.
int complain(const Issues& issues);

}  // namespace tinwright::app
