// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <string>

#include <nlohmann/json.hpp>

namespace tinwright::report {

using Json = nlohmann::ordered_json;  // keeps fields in the order in which they are documented

/// null when it is not finite; never -0.
[[nodiscard]] inline Json rounded(double value, double steps_per_unit) {
    if (!std::isfinite(value)) return nullptr;
    return std::round(value * steps_per_unit) / steps_per_unit + 0.0;  // + 0.0 turns -0 into 0
}

/// In mm, to the thousandth.
[[nodiscard]] inline Json lengthJson(double length_mm) { return rounded(length_mm, 1000.0); }

[[nodiscard]] inline Json textOrNull(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

}  // namespace tinwright::report
