// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>

namespace tinwright {

/// Whether the thing is one of the list.
template <class Things, class Thing>
[[nodiscard]] bool holds(const Things& things, const Thing& thing) {
    return std::find(things.begin(), things.end(), thing) != things.end();
}

}  // namespace tinwright
