// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/table.h"

#include <algorithm>

#include <tinwright/report/data/columns.h>

#include "words/wrap.h"

namespace tinwright::report {

namespace {

constexpr std::size_t kWidestName = 36;
constexpr std::size_t kGap = 2;

std::string fitted(const std::string& text, std::size_t width) {
    std::string cut = text;
    while (columns(cut) > width) {  // whole characters
        do cut.pop_back();
        while (!cut.empty() && (static_cast<unsigned char>(cut.back()) & 0xC0U) == 0x80U);
        if (!cut.empty() && static_cast<unsigned char>(cut.back()) >= 0xC0U) cut.pop_back();
    }
    return cut + std::string(width - columns(cut), ' ');
}

// A column is as wide as its widest entry.
std::vector<std::size_t> widthsOf(const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> widths(rows.front().size(), 0);
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::min(std::max(widths[i], columns(row[i])), kWidestName);
    }
    return widths;
}

}  // namespace

std::string tableText(const std::vector<std::vector<std::string>>& rows) {
    const std::vector<std::size_t> widths = widthsOf(rows);
    std::string text;
    std::size_t from = 1;
    while (from < widths.size()) {
        std::size_t to = from;
        std::size_t width = widths[0];
        while (to < widths.size() && (to == from || width + kGap + widths[to] <= kReportColumns))
            width += kGap + widths[to++];
        for (const auto& row : rows) {
            std::string line = fitted(row[0], widths[0]);
            for (std::size_t i = from; i < to; ++i) line += std::string(kGap, ' ') + fitted(row[i], widths[i]);
            line.erase(line.find_last_not_of(' ') + 1);
            text += line + "\n";
        }
        text += "\n";
        from = to;
    }
    return text;
}

}  // namespace tinwright::report
