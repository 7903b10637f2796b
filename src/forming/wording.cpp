// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording.h"

#include <cmath>

#include <fmt/format.h>

namespace tinwright::forming {

namespace {

std::string oneDecimal(double value) {
    std::string text = fmt::format("{:.1f}", value);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text == "-0" ? "0" : text;
}

}  // namespace

std::string millimetres(double length_mm) { return oneDecimal(length_mm); }
std::string roundedUp(double length_mm) { return oneDecimal(std::ceil(length_mm * 10 - 1e-6) / 10); }
std::string degrees(Angle angle) { return oneDecimal(angle.deg()) + "°"; }

std::string listed(const std::vector<std::string>& things) {
    std::string text;
    for (std::size_t i = 0; i < things.size(); ++i) {
        if (i > 0) text += i + 1 == things.size() ? " and " : ", ";
        text += things[i];
    }
    return text;
}

std::string bendNames(const Part& part, const std::vector<BendId>& bends) {
    std::vector<std::string> names;
    for (const BendId bend : bends) names.push_back(part.bend(bend).name);
    return listed(names);
}

}  // namespace tinwright::forming
