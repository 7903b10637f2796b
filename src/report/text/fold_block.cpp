// SPDX-License-Identifier: GPL-3.0-or-later
#include "text/fold_block.h"

#include <tinwright/report/data/columns.h>

#include "words/wrap.h"

namespace tinwright::report {
namespace {

std::string movesText(const char* label, const std::vector<std::string>& moves) {
    if (moves.empty()) return {};
    std::string text = labelled(label, "in this order:");
    for (const std::string& words : moves) text += labelled("", words);
    return text;
}

std::string optional(const char* label, const std::string& words) {
    return words.empty() ? "" : labelled(label, words);
}

}  // namespace

std::string foldText(const FoldEntry& fold) {
    const bool is_press = fold.on.brake->isPress();
    const FoldWords& words = fold.words;
    std::string text = wrapped("", "    ", fold.title, kReportColumns);
    text += labelled(is_press ? "Lay" : "Hold", words.hold);
    text += labelled(is_press ? "Back gauge" : "Sight line", words.sight);
    text += labelled(is_press ? "Punches" : "Bars", words.bars);
    text += optional("Dies", words.dies);
    text += optional("Overhang", words.stand);
    text += labelled(is_press ? "Stroke" : "Swing", words.swing);
    text += labelled("Clearance", words.clearance);
    text += labelled("Tolerances", words.tolerances);
    text += movesText("Way in", words.way_in) + movesText("Way out", words.way_out);
    return text + optional("Close it", words.closing);
}

}  // namespace tinwright::report
