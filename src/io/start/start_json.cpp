// SPDX-License-Identifier: GPL-3.0-or-later
#include "start/start_json.h"

#include <cmath>

#include <fmt/format.h>

#include "start/start_sizes.h"

namespace tinwright {

double StartJson::length(double mm) const {
    constexpr double kDigits = 1e11;  // 20 m in these is still exact in a double
    return std::round((inches_ ? mm / kMmPerInch : mm) * kDigits) / kDigits;
}

std::string StartJson::text(double mm) const { return fmt::format("{:.8g}", length(mm)); }

StartJson::Json StartJson::named(double mm, const std::string& name) const {
    return {{"value", length(mm)}, {"name", name}};
}

StartJson::Json StartJson::mating(double mm, const std::string& name) const {
    return {{"value", length(mm)}, {"name", name}, {"locked", true}, {"measured", "inside"}};
}

}  // namespace tinwright
