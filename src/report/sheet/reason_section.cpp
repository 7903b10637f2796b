// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <tinwright/brake/machines/brake.h>

#include "fold_drawings/fold_drawings.h"
#include "kinds/brake_words.h"
#include "paper/html.h"
#include "sentences/reason_text.h"
#include "sheet/sheet_parts.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {
namespace {

bool canBeDrawn(const Reason& reason) {
    return reason.stroke.bends != 0 && (reason.room_mm || (reason.panel.known() && reason.body.known()));
}

/// Nothing when the contact is not borne out by what would be drawn.
std::string contact(const SheetWork& work, const Reason& reason, std::size_t number) {
    const Bend& bend = work.shapes.part.bend(reason.stroke.first());
    const Angle set =
        Angle::degrees(bend.angle.deg() + work.report.shop.overbendFor_deg(work.part().material, *work.brake));
    const FoldScene scene(work.shapes, work.brake, {reason.formed, reason.stroke, set});
    const FoldView view = viewOf(scene, work.tools, reason);
    if (!view.tight && !view.room_mm) return {};
    const std::string name =
        fmt::format("{}, {}: {}", strokeName(work.part(), reason.bends()), sideWords(work.on(), reason),
                    view.room_mm ? wordsFor(*work.brake).terms.sheet.room : "first contact");
    const std::string file = fmt::format("contact-{:02}", number);
    const FoldDrawings& drawings = drawingsFor(*work.brake);
    std::string pictures;
    if (view.tight)
        pictures = work.keep(file, drawings.contact(view, name, reason.depth_mm > 0 ? toldDepth_mm(reason) : 0));
    pictures += work.keep(file + "-above", drawings.contactFromAbove(view, name + ", from above"));
    return wrap("div", pictures, "pics");
}

/// One for each sentence; `number` counts those that are drawn.
std::string cards(const SheetWork& work, const std::vector<ReasonSentence>& sentences, std::size_t& number) {
    std::string text;
    for (const ReasonSentence& sentence : sentences) {
        std::string item = element("p", unwrapped(printable(sentence.words)));
        if (canBeDrawn(*sentence.reason)) item += contact(work, *sentence.reason, ++number);
        text += wrap("div", item, "card");
    }
    return text;
}

}  // namespace

std::string reasonSection(const SheetWork& work, const BrakeEntry& brake) {
    const WhyNot& why = brake.why_not;
    if (why.told.empty()) return {};
    std::string text = element("h3", why.title);
    if (!why.introduction.empty()) text += element("p", why.introduction);
    if (!why.got_furthest.empty()) text += element("p", why.got_furthest);
    std::size_t number = 0;
    for (const CauseEntry& cause : why.causes) {
        if (!cause.title.empty()) text += element("h4", cause.title);
        text += cards(work, cause.sentences, number);
    }
    return text + element("p", "Looked at: " + brake.result().model);
}

std::string sectionHtml(const Section& section) {
    const std::string text =
        section.lines.empty() ? element("p", section.instead) : list(section.lines, section.is_ordered ? "ol" : "ul");
    return wrap("div", element("h3", section.title) + text, "keep");
}

}  // namespace tinwright::report
