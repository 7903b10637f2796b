// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/forming/cutting/cut_plan.h>

namespace tinwright::forming {

/// Two edges of the flat blank that a person can measure a point of a panel from: edges of the panel before others,
/// edges that the point lies square to before their extensions, near before far.
[[nodiscard]] std::vector<EdgeDistance> edgeDistances(const Part& part, PanelId panel, const Vec2& point);

}  // namespace tinwright::forming
