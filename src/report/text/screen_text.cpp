// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/report/data/screen_report.h>
#include <tinwright/report/text/text.h>

#include "remedies/needs_text.h"
#include "remedies/remedy_text.h"
#include "sentences/screen_words.h"
#include "sentences/split_words.h"
#include "words/table.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {

namespace {

using namespace report;

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
