// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/model/part.h>
#include <tinwright/sequence/plan/pins.h>

namespace tinwright::app {

/// "a,b+c": strokes of one or several bends each, as typed for the option named `place`. Codes: "order.empty",
/// "order.bend" (no such bend), "order.twice", "order.formed" (in `formed` already).
[[nodiscard]] Result<std::vector<std::vector<BendId>>> parseOrder(const Part& part, const std::string& text,
                                                                  const std::string& place, BendMask formed);

/// An order with what is held in some of its strokes.
struct HeldOrder {
    std::vector<std::vector<BendId>> strokes;
    std::vector<HoldPin> holds;
};

/// "a@face,b+c": the same, and after a stroke the panel whose side is held. Codes besides: "order.panel".
[[nodiscard]] Result<HeldOrder> parseHeldOrder(const Part& part, const std::string& text, const std::string& place,
                                               BendMask formed);

/// "a=face,b=web": bends and the panel of each whose side is held. Codes: "order.bend", "order.panel", "order.formed",
/// "order.hold" (not of that form).
[[nodiscard]] Result<std::vector<HoldPin>> parseHolds(const Part& part, const std::string& text,
                                                      const std::string& place, BendMask formed);

/// "a,b": bends already folded; nothing for an empty text.
[[nodiscard]] Result<BendMask> parseFormed(const Part& part, const std::string& text);

/// What lies between the commas, without the blanks beside them.
[[nodiscard]] std::vector<std::string> splitAtCommas(const std::string& text);

}  // namespace tinwright::app
