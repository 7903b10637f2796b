// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/report/data/bar_datum.h>

#include "paper/drawing.h"
#include "scene/fold_view.h"

namespace tinwright::report {

/// The machine seen from above before the swing, operator at the foot: the part as it lies, bars where they stand with
/// the figures of both ends from the datum edge (else from the bend's left end), nose line, ends of the machine that
/// are near. Of a press brake dies lie under the part, side frames that are near stand behind it, and punches and dies
/// are shown from the front at the foot (PressRows).
[[nodiscard]] Drawing topDrawing(const FoldView& view, const std::optional<BarDatum>& datum, const std::string& title);

/// What stands in the way of a fold, seen from above: the first contact, or the room that no string of bars fills.
[[nodiscard]] Drawing contactFromAbove(const FoldView& view, const std::string& title);

}  // namespace tinwright::report
