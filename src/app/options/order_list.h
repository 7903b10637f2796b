// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/model/part.h>

namespace tinwright::app {

/// "a,b+c": strokes of one or several bends each, as typed for the option named `place`. Codes: "order.empty",
/// "order.bend" (no such bend), "order.twice", "order.formed" (in `formed` already).
[[nodiscard]] Result<std::vector<std::vector<BendId>>> parseOrder(const Part& part, const std::string& text,
                                                                  const std::string& place, BendMask formed);

/// "a,b": bends already folded; nothing for an empty text.
[[nodiscard]] Result<BendMask> parseFormed(const Part& part, const std::string& text);

}  // namespace tinwright::app
