// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/pin_words.h"

#include <algorithm>

#include <fmt/format.h>

#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {
namespace {

/// Where a panel lies that is pinned, on the brakes of the report.
std::string pinnedPlace(const PlanReport& report) {
    std::size_t presses = 0;
    for (const BrakeReport& brake : report.brakes) presses += brake.result.brake->isPress() ? 1 : 0;
    if (presses == 0) return "held";
    return presses == report.brakes.size() ? "at the back" : "held, on a press brake at the back";
}

std::string toolIds(const std::vector<std::string>& ids, const char* noun) {
    return fmt::format("{}{} {}", noun, ids.size() == 1 ? "" : noun[0] == 'p' ? "es" : "s", listed(ids));
}

void addTools(const ToolPins& pins, std::vector<std::string>& words) {
    if (pins.vee_mm) words.push_back(fmt::format("V {:.4g} alone", *pins.vee_mm));
    if (!pins.bars.empty()) words.push_back(toolIds(pins.bars, "bar") + " alone");
    if (!pins.without_bars.empty()) words.push_back("without " + toolIds(pins.without_bars, "bar"));
    if (!pins.punches.empty()) words.push_back(toolIds(pins.punches, "punch") + " alone");
}

}  // namespace

std::vector<std::string> pinWords(const PlanReport& report) {
    const Part& part = report.part;
    const Pins& pins = report.pins;
    std::vector<std::string> words;
    for (const HoldPin& pin : pins.holds) {
        words.push_back(
            fmt::format("{} with {} {}", part.bend(pin.bend).name, part.panel(pin.panel).name, pinnedPlace(report)));
    }
    if (!pins.first.empty())
        words.push_back("first " +
                        joined(pins.first, ", ", [&](BendMask stroke) { return strokeName(part, bendList(stroke)); }));
    for (const BeforePin& pin : pins.before) {
        words.push_back(
            fmt::format("{} before {}, or in one stroke with it", part.bend(pin.first).name, part.bend(pin.then).name));
    }
    addTools(pins.tools, words);
    return words;
}

std::string withoutPinsWords(const BrakeResult& result) {
    if (!result.without_pins) return {};
    switch (*result.without_pins) {
        case Verdict::kInfeasible: return "without the pins no order works either";
        case Verdict::kUndecided: return "whether an order works without the pins is not decided";
        default: break;
    }
    return "without the pins an order works";
}

std::string withoutPinsWords(const PlanReport& report) {
    if (!report.pins.any()) return {};
    std::vector<std::string> works;
    bool none = true;
    for (const BrakeReport& brake : report.brakes) {
        const Verdict without = brake.result.without_pins.value_or(brake.result.verdict);
        none = none && without == Verdict::kInfeasible;
        if (without != Verdict::kInfeasible && without != Verdict::kUndecided)
            works.push_back(printable(brake.result.brake->name));
    }
    if (!works.empty()) return "Without the pins an order works on " + listed(works);
    return none ? "Without the pins none works either" : "Whether one works without the pins is not decided";
}

}  // namespace tinwright::report
