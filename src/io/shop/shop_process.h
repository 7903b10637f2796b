// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/brake/shop/cutting.h>
#include <tinwright/io/json/json_cursor.h>
#include <tinwright/part/allowance/measured_bends.h>

namespace tinwright {

/// "overbend" of a shop file or of a brake.
[[nodiscard]] Overbend readOverbend(const JsonCursor& at);

/// "measured_bends" of a shop file.
[[nodiscard]] MeasuredBends readMeasuredBends(const JsonCursor& shop);

/// "cutting" of a shop file: the defaults of its process, and what the shop says instead.
[[nodiscard]] std::optional<Cutting> readCutting(const JsonCursor& shop);

}  // namespace tinwright
