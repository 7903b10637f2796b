// SPDX-License-Identifier: GPL-3.0-or-later
#include "options/option_table.h"

#include <charconv>
#include <cmath>
#include <system_error>

#include <fmt/format.h>

namespace tinwright::app {

std::string numberComplaint(const NumberRange& range, const std::string& text) {
    double value = 0;
    const char* end = text.data() + text.size();
    const auto [rest, error] = std::from_chars(text.data(), end, value);
    const bool is_number = error == std::errc{} && rest == end && std::isfinite(value);
    const bool in_range = is_number && value >= range.least && value <= range.most;
    if (in_range && (!range.whole || value == std::floor(value))) return {};
    return fmt::format("found \"{}\", expected a {}number from {} to {}", text, range.whole ? "whole " : "",
                       range.least, range.most);
}

}  // namespace tinwright::app
