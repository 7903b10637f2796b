// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/tolerance_text.h"

#include <vector>

#include <fmt/format.h>

#include <tinwright/base/words.h>

namespace tinwright::report {
namespace {

constexpr std::size_t kPairsTold = 3;

/// To the hundredth, without zeros at the end.
std::string hundredths(double value) {
    std::string text = fmt::format("{:.2f}", value);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string mayTouch(const Holding& holding) {
    if (holding.may_touch.empty()) return {};
    std::vector<std::string> pairs;
    for (const auto& pair : holding.may_touch) {
        if (pairs.size() < kPairsTold) pairs.push_back(fmt::format("{} to {}", pair[0], pair[1]));
    }
    if (holding.may_touch.size() > kPairsTold)
        pairs.push_back(counted(holding.may_touch.size() - kPairsTold, "more pair"));
    return "; drawn nearer than that, so that they may touch: " + listed(pairs);
}

}  // namespace

std::string toleranceText(const ToleranceBox& box) {
    const std::string least = hundredths(box.leastCutting_mm());
    const std::string most = hundredths(box.mostCutting_mm());
    return fmt::format("±{} mm sheet, ±{} mm cutting, ±{} mm bend lines, ±{}° bends", hundredths(box.thickness_mm),
                       least == most ? most : fmt::format("{} to {}", least, most), hundredths(box.bend_line_mm),
                       hundredths(box.bend_angle.deg()));
}

std::string holdingText(const Holding& holding) {
    if (!holding.looked_at) return "not worked out for press brakes, hems, nor parts over two brakes";
    const std::string over = toleranceText(holding.over);
    return holding.holds ? "holds over " + over + mayTouch(holding)
                         : fmt::format("not shown to hold over {}: {}", over, toText(holding));
}

}  // namespace tinwright::report
