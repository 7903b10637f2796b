// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/allowance/gauge.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <iterator>

#include <tinwright/base/units.h>

namespace tinwright {

namespace {

constexpr std::array<std::string_view, 5> kWords{"steel-msg", "galvanized", "stainless", "aluminium-bs", "uk-swg"};

// Inches; 0: not in the chart. Steel, galvanized, stainless and aluminium columns: published sheet gauge charts (steel
// reproduces from the ounces per square foot, aluminium from 0.005 x 92^((36-n)/39), both to 0.0001 in).
// SWG column: from memory of the Imperial Standard Wire Gauge; 16, 18, 20, 22 agree with a UK sheet dealer's mm chart.
struct Row {
    int gauge;
    std::array<double, 5> inch;
};
constexpr Row kRows[] = {
    {7, {.1793, 0, .1875, .1443, .176}},       {8, {.1644, .1681, .1719, .1285, .160}},
    {9, {.1495, .1532, .1562, .1144, .144}},   {10, {.1345, .1382, .1406, .1019, .128}},
    {11, {.1196, .1233, .1250, .0907, .116}},  {12, {.1046, .1084, .1094, .0808, .104}},
    {13, {.0897, .0934, .0937, .0720, .092}},  {14, {.0747, .0785, .0781, .0641, .080}},
    {16, {.0598, .0635, .0625, .0508, .064}},  {18, {.0478, .0516, .0500, .0403, .048}},
    {20, {.0359, .0396, .0375, .0320, .036}},  {22, {.0299, .0336, .0312, .0253, .028}},
    {24, {.0239, .0276, .0250, .0201, .022}},  {26, {.0179, .0217, .0187, .0159, .018}},
    {28, {.0149, .0187, .0156, .0126, .0148}}, {30, {.0120, .0157, .0125, .0100, .0124}},
};

}  // namespace

std::string_view toText(GaugeSystem system) { return kWords.at(static_cast<std::size_t>(system)); }

std::optional<GaugeSystem> gaugeSystemFrom(std::string_view word) {
    const auto it = std::find(kWords.begin(), kWords.end(), word);
    if (it == kWords.end()) return std::nullopt;
    return static_cast<GaugeSystem>(it - kWords.begin());
}

std::optional<double> gaugeThickness_mm(GaugeSystem system, int gauge) {
    const auto row = std::find_if(std::begin(kRows), std::end(kRows), [&](const Row& r) { return r.gauge == gauge; });
    if (row == std::end(kRows)) return std::nullopt;
    const double inch = row->inch.at(static_cast<std::size_t>(system));
    return inch > 0 ? std::optional(inch * kMmPerInch) : std::nullopt;
}

}  // namespace tinwright
