// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "kinds/brake_words.h"
#include "paper/html.h"
#include "sheet/sheet_parts.h"
#include "words/text_width.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

using Count = std::map<std::size_t, int>;  // pieces by kind of bar, in the shop's order

Count countOf(const FoldStep& step) {
    Count count;
    for (const PlacedTool& bar : step.tools) ++count[bar.tool.index()];
    return count;
}

std::string named(const BrakeInSetup& brake, const Count& count) {
    std::vector<std::string> names;
    const auto idOf = [&](std::size_t tool) { return brake->tool(idAt<ToolId>(tool)).id; };
    for (const auto& [bar, pieces] : count)
        names.push_back(pieces > 1 ? fmt::format("{} x {}", pieces, idOf(bar)) : idOf(bar));
    return listed(names);
}

/// What is in `a` beyond `b`.
Count more(const Count& a, const Count& b) {
    Count rest;
    for (const auto& [bar, pieces] : a) {
        const auto other = b.find(bar);
        const int left = pieces - (other == b.end() ? 0 : other->second);
        if (left > 0) rest[bar] = left;
    }
    return rest;
}

Count neededAtOnce(const Plan& plan) {
    Count most;
    for (const FoldStep& step : plan.folds) {
        for (const auto& [bar, pieces] : countOf(step)) most[bar] = std::max(most[bar], pieces);
    }
    return most;
}

std::string testStrip() {
    std::string head;
    for (const char* name :
         {"Test strip", "measured thickness", "length before", "leg a", "leg b", "angle got", "a + b - length"})
        head += element("th", name);
    std::string rows = wrap("tr", head);
    for (const char* name : {"1", "2"}) rows += row(name, std::vector<std::string>(6));
    return wrap("table", rows, "room");
}

std::string heads(const SheetTerms& terms) {
    std::string head;
    for (const char* name : {"Fold", "Done", "Bends"}) head += element("th", name);
    for (const char* name : terms.set_up_heads) head += element("th", name);
    return wrap("tr", head + element("th", "Set"));
}

}  // namespace

std::string barChange(const FoldEntry& fold) {
    const BrakeInSetup& brake = fold.on.brake;
    const FoldStep* before = fold.place.before;
    if (before == nullptr) return "put in " + named(brake, countOf(fold.step));
    const std::string pieces = wordsFor(*brake).terms.tools.all;
    if (fold.tools_stay) return "same " + pieces + ", same places";
    const Count out = more(countOf(*before), countOf(fold.step));
    const Count in = more(countOf(fold.step), countOf(*before));
    std::vector<std::string> words;
    if (!out.empty()) words.push_back("take out " + named(brake, out));
    if (!in.empty()) words.push_back("put in " + named(brake, in));
    return words.empty() ? "the same " + pieces + " at other places" : listed(words);
}

std::string setUpSection(const SheetWork& work, const PlanEntry& plan) {
    const BrakeWords& kind = wordsFor(*work.brake);
    std::string rows = heads(kind.terms.sheet);
    for (const FoldEntry& fold : plan.folds) {
        const FoldStep& step = fold.step;
        std::string cells = element("th", std::to_string(fold.place.number)) + wrap("td", tickBox()) +
                            element("td", strokeName(work.part(), step.bends()));
        for (const std::string& cell : kind.setUpCells(*work.brake, step, barChange(fold)))
            cells += element("td", cell);
        cells += element("td", kind.angle(step.toSet().deg()));
        rows += wrap("tr", cells);
    }
    std::string text = wrap("p",
                            tickBox() + xmlText(kind.terms.tools.all_label + std::string(" to lay out: ") +
                                                named(work.brake, neededAtOnce(plan.plan))),
                            "big");
    text += checklist(work);
    text += wrap("div", wrap("table", rows), "scroll");
    text += element(
        "p",
        "Fold a test strip of this sheet first: legs are measured over the outside. a + b - length is what the bend "
        "gains; compare it with the allowance that the blank was drawn with.");
    return wrap("div", element("h3", "Set-up") + text + wrap("div", testStrip(), "scroll"), "keep");
}

}  // namespace tinwright::report
