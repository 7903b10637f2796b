// SPDX-License-Identifier: GPL-3.0-or-later
#include "text/fold_block.h"

#include <tinwright/report/data/columns.h>

#include "kinds/brake_words.h"
#include "sentences/trouble_words.h"
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
    const FoldLabels& labels = wordsFor(*fold.on.brake).terms.fold;
    const FoldWords& words = fold.words;
    std::string text = wrapped("", "    ", fold.title, kReportColumns);
    text += labelled(labels.hold, words.hold);
    text += labelled(labels.gauging, words.gauging);
    text += optional("Packing", words.packing);
    for (const std::string& care : words.care) text += labelled("Care", care);
    for (const FoldWords::Tools& row : words.tools) text += labelled(row.label, row.words);
    text += optional("Overhang", words.stand);
    text += labelled(labels.stroke, words.stroke);
    text += labelled("Clearance", words.clearance);
    text += labelled("Tolerances", words.tolerances);
    text += labelled("Time", fold.time);
    text += movesText("Way in", words.way_in) + movesText("Way out", words.way_out);
    text += optional("Close it", words.closing);
    for (const Finding& finding : fold.findings) {
        if (consequenceOf(finding) == Consequence::kSpoils)
            text += labelled("Trouble", gravityWords(finding) + finding.words + " (" + finding.id + ")");
    }
    return text;
}

}  // namespace tinwright::report
