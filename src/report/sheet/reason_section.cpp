// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <tinwright/brake/machines/brake.h>

#include "drawings/section_drawing.h"
#include "drawings/top_drawing.h"
#include "paper/html.h"
#include "sentences/reason_text.h"
#include "sentences/remedy_text.h"
#include "sentences/search_words.h"
#include "sheet/sheet_parts.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {
namespace {

bool canBeDrawn(const Reason& reason) {
    return !reason.bends.empty() && (reason.room_mm || (!reason.panel.empty() && !reason.body.empty()));
}

/// Nothing when the contact is not borne out by what would be drawn.
std::string contact(const SheetWork& work, const Reason& reason, std::size_t number) {
    const Bend& bend = work.shapes.part.bend(reason.bends.front());
    const Angle set =
        Angle::degrees(bend.angle.deg() + work.report.shop.overbendFor_deg(work.part().material, *work.brake));
    const FoldScene scene(work.shapes, work.brake, {reason.formed, reason.bends, reason.hold, set});
    const FoldView view = viewOf(scene, work.tools, reason);
    if (!view.tight && !view.room_mm) return {};
    const std::string side =
        reason.side.empty() ? "holding " + heldName(work.part(), reason.bends.front(), reason.hold) : reason.side;
    const std::string name = fmt::format(
        "{}, {}: {}", strokeName(work.part(), reason.bends), side,
        view.room_mm ? (work.brake->isPress() ? "room for punches and dies" : "room for bars") : "first contact");
    const std::string file = fmt::format("contact-{:02}", number);
    std::string pictures;
    if (view.tight) pictures = work.keep(file, contactDrawing(view, name, reason.depth_mm));
    pictures += work.keep(file + "-above", contactFromAbove(view, name + ", from above"));
    return wrap("div", pictures, "pics");
}

/// One for each sentence; `number` counts those that are drawn.
std::string cards(const SheetWork& work, const std::vector<Reason>& reasons, std::size_t& number) {
    std::string text;
    for (const ReasonSentence& sentence : sentencesOf(reasons, &work.part())) {
        std::string item = element("p", unwrapped(printable(sentence.words)));
        if (canBeDrawn(*sentence.reason)) item += contact(work, *sentence.reason, ++number);
        text += wrap("div", item, "card");
    }
    return text;
}

}  // namespace

std::string reasonSection(const SheetWork& work) {
    const BrakeResult& result = work.brake_report.result;
    if (toldReasons(result).empty()) return {};
    std::string text = element("h3", "Why not");
    if (!result.causes.empty()) {
        text += element("p", causesWords(result));
    } else if (result.verdict == Verdict::kInfeasible) {
        const std::vector<std::string> formed = bendNames(work.part(), result.reasons.front().formed);
        text += element("p", "However it is begun, it comes to a stop. Furthest: with " +
                                 (formed.empty() ? "nothing" : listed(formed)) + " folded, then:");
    }
    std::size_t number = 0;
    if (result.causes.empty()) text += cards(work, result.reasons, number);
    for (std::size_t i = 0; i < result.causes.size(); ++i) {
        if (result.causes.size() > 1) text += element("h4", fmt::format("Cause {}", i + 1));
        text += cards(work, result.causes[i].reasons, number);
    }
    return text + element("p", "Looked at: " + result.model);
}

std::string remedySection(const SheetWork& work) {
    if (!work.brake_report.remedies) return {};
    const RemedyReport& remedies = *work.brake_report.remedies;
    const std::vector<std::string> lines = remedyLines(work.report, remedies);
    if (lines.empty() && work.brake_report.result.verdict == Verdict::kFeasible) return {};
    const std::string text = lines.empty() ? element("p", noRemedyText(work.brake, remedies)) : list(lines, "ol");
    return wrap("div", element("h3", remedyTitle(work.brake_report)) + text, "keep");
}

}  // namespace tinwright::report
