// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/report/data/screen_report.h>
#include <tinwright/report/text/text.h>

#include "remedies/needs_text.h"
#include "remedies/remedy_text.h"
#include "sentences/screen_words.h"
#include "sentences/split_words.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {

namespace {

using namespace report;

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

// Brakes beside one another when they fit, else as many tables as it takes.
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

std::string brakeLines(const ScreenedPart& part, const BrakeReport& brake) {
    const std::string blocks = blockWords(part.report, brake);
    std::string text;
    const std::string name = printable(brake.result.brake->name) + ": ";
    if (!blocks.empty()) text += bullet(name + blocks);
    if (const std::string remedy = leastRemedy(part.report, brake); !remedy.empty())
        text += bullet((blocks.empty() ? name : "  ") + "would help: " + remedy);
    return text;
}

std::string partText(const ScreenedPart& part) {
    std::string text;
    for (const BrakeReport& brake : part.report.brakes) text += brakeLines(part, brake);
    if (const std::string split = splitWords(part.report); !split.empty()) text += bullet("over two brakes: " + split);
    std::string needs;
    for (const std::string& line : needsLines(part.report)) needs += bullet(line);
    if (!needs.empty()) text += "  A machine that would make it:\n" + needs;
    return text.empty() ? "" : heading(printable(part.report.part.name), '-') + text + "\n";
}

}  // namespace

std::string screenText(const std::vector<ScreenedPart>& parts) {
    if (parts.empty()) return {};
    std::vector<std::vector<std::string>> rows{{"Part"}};
    for (const BrakeReport& brake : parts.front().report.brakes) rows[0].push_back(printable(brake.result.brake->name));
    for (const ScreenedPart& part : parts) {
        rows.push_back({printable(part.report.part.name)});
        for (const BrakeReport& brake : part.report.brakes) rows.back().push_back(verdictWords(brake));
    }
    std::string text = labelled("Shop", printable(parts.front().report.shop.name)) + "\n" + tableText(rows);
    for (const ScreenedPart& part : parts) text += partText(part);
    return text;
}

}  // namespace tinwright
