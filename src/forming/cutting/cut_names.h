// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/forming/cutting/cut_plan.h>

namespace tinwright::forming {

inline constexpr const char* kOutlineName = "the outline";

struct NamedLoop {
    std::string name;
    const Polygon* polygon = nullptr;
};

/// Holes of a cut path by the cut-out or drilled hole they are; "a hole" where it is none of them alone. Points into
/// `path`.
[[nodiscard]] std::vector<NamedLoop> namedHoles(const Part& part, const Region& path, const CutPlan& plan);

}  // namespace tinwright::forming
