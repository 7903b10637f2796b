// SPDX-License-Identifier: GPL-3.0-or-later
#include "options/pin_list.h"

#include <algorithm>

#include <fmt/format.h>

#include "options/order_list.h"

namespace tinwright::app {
namespace {

Issue against(const char* place, std::string found) {
    return {"pin.against", "command line", place, std::move(found), "what one order can keep", ""};
}

std::string quotedBend(const Part& part, BendId bend) { return '"' + part.bend(bend).name + '"'; }

Issues addHolds(const PinChoice& choice, const Part& part, BendMask formed, Pins& pins) {
    Issues issues;
    for (const std::string& text : choice.holds) {
        const Result<std::vector<HoldPin>> holds = parseHolds(part, text, "--hold", formed);
        if (!holds) {
            append(issues, holds.issues());
            continue;
        }
        for (const HoldPin& pin : holds.value()) {
            const auto known = std::find_if(pins.holds.begin(), pins.holds.end(),
                                            [&](const HoldPin& other) { return other.bend == pin.bend; });
            if (known == pins.holds.end()) {
                pins.holds.push_back(pin);
            } else if (known->hold != pin.hold) {
                issues.push_back(
                    against("--hold", fmt::format("{} held by \"{}\" and by \"{}\", which lie on either "
                                                  "side of it",
                                                  quotedBend(part, pin.bend), part.panel(known->panel).name,
                                                  part.panel(pin.panel).name)));
            }
        }
    }
    return issues;
}

Issues addFirst(const PinChoice& choice, const Part& part, BendMask formed, Pins& pins) {
    if (!choice.first) return {};
    const auto order = parseOrder(part, *choice.first, "--first", formed);
    if (!order) return order.issues();
    for (const std::vector<BendId>& stroke : order.value()) pins.first.push_back(maskOf(stroke));
    return {};
}

Issues addBefore(const PinChoice& choice, const Part& part, BendMask formed, Pins& pins) {
    Issues issues;
    for (const std::string& text : choice.before) {
        const auto order = parseOrder(part, text, "--before", formed);
        if (!order) {
            append(issues, order.issues());
            continue;
        }
        const std::vector<std::vector<BendId>>& strokes = order.value();
        if (strokes.size() < 2)
            issues.push_back(
                {"order.before", "command line", "--before", '"' + text + '"', "two bends or more: a,b", ""});
        for (std::size_t i = 0; i + 1 < strokes.size(); ++i) {
            for (const BendId first : strokes[i]) {
                for (const BendId then : strokes[i + 1]) pins.before.push_back({first, then});
            }
        }
    }
    return issues;
}

/// By bend, those that come after it by what is settled, by way of others too.
std::vector<BendMask> laterThan(const Part& part, const Pins& pins) {
    std::vector<BendMask> later(part.bends.size(), 0);
    for (const BeforePin& pin : pins.before) later[pin.first.index()] |= bit(pin.then);
    for (std::size_t by = 0; by < later.size(); ++by) {
        for (BendMask& of : later) of |= contains(of, idAt<BendId>(by)) ? later[by] : 0;
    }
    return later;
}

std::size_t strokeOf(const Pins& pins, BendId bend) {
    return static_cast<std::size_t>(
        std::find_if(pins.first.begin(), pins.first.end(), [&](BendMask stroke) { return contains(stroke, bend); }) -
        pins.first.begin());
}

Issues contradictions(const Part& part, const Pins& pins) {
    Issues issues;
    const std::vector<BendMask> later = laterThan(part, pins);
    for (const BeforePin& pin : pins.before) {
        if (contains(later[pin.then.index()], pin.first)) {
            issues.push_back(against("--before", fmt::format("{0} before {1}, and {1} before {0}",
                                                             quotedBend(part, pin.first), quotedBend(part, pin.then))));
        } else if (strokeOf(pins, pin.first) > strokeOf(pins, pin.then)) {
            issues.push_back(
                against("--first", fmt::format("{} earlier than {}, which --before wants to come before it",
                                               quotedBend(part, pin.then), quotedBend(part, pin.first))));
        }
    }
    return issues;
}

}  // namespace

Issues addOrderPins(const PinChoice& choice, const Part& part, BendMask formed, Pins& pins) {
    Issues issues = addHolds(choice, part, formed, pins);
    append(issues, addFirst(choice, part, formed, pins));
    append(issues, addBefore(choice, part, formed, pins));
    return issues.empty() ? contradictions(part, pins) : issues;
}

}  // namespace tinwright::app
