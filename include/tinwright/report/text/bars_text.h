// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_fit.h>

namespace tinwright {

/// Inside widths that one string suits, with the names of its bars.
struct NamedWidths {
    WidthRange widths;
    std::string bars;
};

/// What the bars of one brake do under an inside width; of a press brake its punches, in one V.
struct BarsAnswer {
    BrakeInSetup brake;
    double wall_radius_mm = 0;  ///< inside, of the walls between which they stand
    double inside_width_mm = 0;
    std::vector<BarFit> fits;          ///< as barFits() ranks them
    std::vector<std::string> names;    ///< of their bars
    std::optional<NamedWidths> below;  ///< nearest width under it, and over it, that a string suits comfortably
    std::optional<NamedWidths> above;
};

/// Precondition: a press brake is in one V.
[[nodiscard]] BarsAnswer barsAnswer(const BrakeInSetup& brake, const Limits& limits, double inside_width_mm);

/// For a person at the bench; the inside width first, then string by string. No line is longer than kReportColumns.
[[nodiscard]] std::string barsText(const std::vector<BarsAnswer>& answers, const Limits& limits);

/// The same as JSON, format "tinwright-bars/1".
[[nodiscard]] std::string barsJson(const std::vector<BarsAnswer>& answers);

}  // namespace tinwright
