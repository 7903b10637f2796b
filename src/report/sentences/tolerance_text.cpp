// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/tolerance_text.h"

#include <cmath>
#include <vector>

#include <fmt/format.h>

#include <tinwright/base/words.h>

#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr std::size_t kPairsTold = 3;

std::string mayTouch(const Part& part, const BrakeInSetup& brake, const Holding& holding) {
    if (holding.may_touch.empty()) return {};
    std::vector<std::string> pairs;
    for (const auto& pair : holding.may_touch) {
        if (pairs.size() < kPairsTold)
            pairs.push_back(fmt::format("{} to {}", bodyName(part, brake, pair[0]), bodyName(part, brake, pair[1])));
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

std::string openWords(const Part& part, const BrakeInSetup& brake, const Holding& holding) {
    switch (holding.open) {
        case Holding::Open::kLine: return "rests on lines that agree only as far as the folds between them are true";
        case Holding::Open::kWayIn: return "is not shown to let part and bars in as told";
        case Holding::Open::kWayOut: return "is not shown to let part and bars out as told";
        case Holding::Open::kStroke:
        case Holding::Open::kNothing: break;
    }
    const std::string between = holding.between[0].known()
                                    ? fmt::format(" between {} and {}", bodyName(part, brake, holding.between[0]),
                                                  bodyName(part, brake, holding.between[1]))
                                    : "";
    if (holding.lacks_mm <= 0) return "lacks room" + between;
    return fmt::format("lacks {:.1f} mm{}", std::ceil(holding.lacks_mm * 10 - 1e-6) / 10, between);
}

std::string holdingText(const Part& part, const BrakeInSetup& brake, const Holding& holding) {
    if (!holding.looked_at) return "not worked out for press brakes, hems, nor parts over two brakes";
    const std::string over = toleranceText(holding.over);
    return holding.holds ? "holds over " + over + mayTouch(part, brake, holding)
                         : fmt::format("not shown to hold over {}: {}", over, openWords(part, brake, holding));
}

}  // namespace tinwright::report
