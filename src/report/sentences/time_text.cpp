// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/time_text.h"

#include <array>
#include <string_view>

#include <fmt/format.h>

namespace tinwright::report {
namespace {

/// By TimeShare.
constexpr std::array<std::string_view, kTimeShares> kShareNames{
    "fold", "gauge", "tools", "leaf face", "packing", "care", "turn", "flip", "way in and out", "hem", "carry"};

/// Not rounded: shares add up.
std::string seconds(long long time_ms) { return fmt::format("{:.6g} s", static_cast<double>(time_ms) / 1000); }

}  // namespace

std::string timeText(const Times& times, const FoldActions& actions) {
    const TimeShares shares = timeShares_ms(times, actions);
    std::string text;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        if (shares[i] != 0)
            text += fmt::format("{}{} {}", text.empty() ? ": " : ", ", kShareNames[i], seconds(shares[i]));
    }
    return seconds(foldTime_ms(times, actions)) + text;
}

}  // namespace tinwright::report
