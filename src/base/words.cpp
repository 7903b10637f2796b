// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/base/words.h>

#include <cmath>

#include <fmt/format.h>

namespace tinwright {

std::string shortNumber(double value) {
    if (!std::isfinite(value)) return "?";
    std::string text = fmt::format("{:.1f}", value);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text == "-0" ? "0" : text;
}

std::string counted(std::size_t count, const std::string& noun) {
    return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

std::string listed(const std::vector<std::string>& things) {
    std::string text;
    for (std::size_t i = 0; i < things.size(); ++i) {
        if (i > 0) text += i + 1 == things.size() ? " and " : ", ";
        text += things[i];
    }
    return text;
}

}  // namespace tinwright
