// SPDX-License-Identifier: GPL-3.0-or-later
#include <vector>

#include <fmt/format.h>

#include <tinwright/forming/cutting/cut_plan.h>

#include "paper/html.h"
#include "sheet/sheet_parts.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

std::string fromText(const DrilledHole& hole) {
    std::vector<std::string> words;
    for (const EdgeDistance& from : hole.from)
        words.push_back(fmt::format("{} from {}", millimetres(from.distance_mm), from.edge));
    return words.empty() ? "by its mark" : listed(words);
}

std::string drillTable(const CutPlan& plan) {
    std::string head;
    for (const char* name : {"No.", "Hole", "ø mm", "First ø mm", "Centre, mm", "Why not cut"})
        head += element("th", name);
    std::string rows = wrap("tr", head);
    std::size_t number = 0;
    for (const DrilledHole& hole : plan.drilled) {
        std::string cells = element("th", "D" + std::to_string(++number));
        for (const std::string& cell :
             {hole.name, fmt::format("{:.4g}", hole.diameter_mm),
              fmt::format("{:.4g}", hole.pilot_mm) +
                  (hole.cut_pilot_mm ? fmt::format("; {:.4g} is cut", *hole.cut_pilot_mm) : ""),
              fromText(hole), hole.reason}) {
            cells += element("td", cell);
        }
        rows += wrap("tr", cells);
    }
    return wrap("div", wrap("table", rows, "whole"), "scroll");
}

}  // namespace

std::optional<CutProcess> cutProcess(const SheetWork& work) {
    const std::optional<Cutting>& cutting = work.report.shop.cutting;
    return cutting ? std::optional(cutting->process) : std::nullopt;
}

std::string cutSection(const SheetWork& work) {
    if (!work.report.shop.cutting) return {};
    const CutPlan plan = cutPlan(work.part(), *work.report.shop.cutting);
    std::vector<std::string> lines;
    for (const std::string& line : {plan.kerf_words, plan.dross_words, plan.film_words}) {
        if (!line.empty()) lines.push_back(line);
    }
    std::vector<Finding> findings = plan.findings;
    std::erase_if(findings, [](const Finding& finding) { return finding.id == "cut.hole"; });  // the drill list has
                                                                                               // them
    std::string text =
        element("h3", fmt::format("Cut ({}) and drill", toText(plan.process))) + list(lines) + findingList(findings);
    if (!plan.drilled.empty()) {
        text += wrap("p", tickBox() + std::string("Drilled:")) + drillTable(plan);
        text += element("p",
                        "Centre punch at the mark, clamp the sheet, drill in steps, deburr both faces. Holes near a "
                        "bend are drilled after it is folded.");
    }
    return wrap("div", text, "keep");
}

}  // namespace tinwright::report
