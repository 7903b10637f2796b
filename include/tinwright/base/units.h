// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace tinwright {

inline constexpr double kMmPerInch = 25.4;  ///< exact by definition

}  // namespace tinwright
