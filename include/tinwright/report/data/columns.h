// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>

namespace tinwright {

/// No line of a text report is longer, counted in characters (UTF-8).
inline constexpr std::size_t kReportColumns = 100;

}  // namespace tinwright
