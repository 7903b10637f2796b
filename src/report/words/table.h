// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace tinwright::report {

/// Rows in columns as wide as their widest entry, up to 36; the first row is the head. Columns stand beside one another
/// where they fit, else there are as many tables as it takes, each with the first column. A blank line after each.
/// Precondition: all rows are as long, and there is one.
[[nodiscard]] std::string tableText(const std::vector<std::vector<std::string>>& rows);

}  // namespace tinwright::report
