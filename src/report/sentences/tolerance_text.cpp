// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/tolerance_text.h"

#include <vector>

#include <fmt/format.h>

#include <tinwright/base/words.h>

namespace tinwright::report {
namespace {

constexpr std::size_t kPairsTold = 3;

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
    const std::string least = trimmedNumber(box.leastCutting_mm(), 2);
    const std::string most = trimmedNumber(box.mostCutting_mm(), 2);
    return fmt::format("±{} mm sheet, ±{} mm cutting, ±{} mm bend lines, ±{}° bends",
                       trimmedNumber(box.thickness_mm, 2), least == most ? most : fmt::format("{} to {}", least, most),
                       trimmedNumber(box.bend_line_mm, 2), trimmedNumber(box.bend_angle.deg(), 2));
}

std::string holdingText(const Holding& holding) {
    if (!holding.looked_at) return "not worked out for press brakes, hems, nor parts over two brakes";
    const std::string over = toleranceText(holding.over);
    return holding.holds ? "holds over " + over + mayTouch(holding)
                         : fmt::format("not shown to hold over {}: {}", over, toText(holding));
}

}  // namespace tinwright::report
