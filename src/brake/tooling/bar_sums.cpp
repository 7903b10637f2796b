// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/tooling/bar_sums.h>

namespace tinwright {

BarSums::BarSums(const std::vector<Micron>& widths_um, const ToolCounts& available, int most_pieces)
    : sums_(static_cast<std::size_t>(most_pieces) + 1) {
    sums_[0][0] = ToolCounts(widths_um.size(), 0);
    for (std::size_t bar = 0; bar < widths_um.size(); ++bar) {
        for (int pieces = most_pieces - 1; pieces >= 0; --pieces) {  // downwards: a string is not extended twice by one
                                                                     // bar
            for (const auto& [sum, counts] : sums_[static_cast<std::size_t>(pieces)]) {
                ToolCounts more = counts;
                for (int k = 1; k <= available[bar] && pieces + k <= most_pieces; ++k) {
                    ++more[bar];
                    auto& longer = sums_[static_cast<std::size_t>(pieces) + static_cast<std::size_t>(k)];
                    if (longer.size() < kMaxSums) longer.try_emplace(sum + Micron{k} * widths_um[bar], more);
                }
            }
        }
    }
}

std::vector<Micron> toolWidths_um(const Brake& brake) {
    std::vector<Micron> widths;
    for (std::size_t i = 0; i < brake.toolCount(); ++i)
        widths.push_back(micronNearest(brake.tool(idAt<ToolId>(i)).width_mm));
    return widths;
}

}  // namespace tinwright
