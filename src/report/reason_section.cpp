// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "html.h"
#include "reason_text.h"
#include "section_drawing.h"
#include "sheet_parts.h"
#include "words.h"

namespace tinwright::report {
namespace {

/// Where a search ends proven without an order, each bend that is left has a reason with either side held: what has none is
/// formed in that state.
BendMask stuckState(const Part& part, const std::vector<Reason>& reasons) {
    BendMask left = 0;
    for (const Reason& reason : reasons) {
        for (const BendId bend : reason.bends) left |= bit(bend);
    }
    return allFormed(part) & ~left;
}

bool isContact(const Reason& reason) { return !reason.bends.empty() && !reason.panel.empty() && !reason.body.empty(); }

/// Nothing when the contact is not borne out by what would be drawn.
std::string contact(const SheetWork& work, const Reason& reason, BendMask formed, std::size_t number) {
    const Bend& bend = work.part().bend(reason.bends.front());
    const Angle set = Angle::degrees(bend.angle.deg() + work.report.shop.overbendFor_deg(work.part().material));
    const FoldScene scene(work.shapes, work.brake, {formed, reason.bends, reason.hold, set});
    const FoldView view = viewOf(scene, work.tools, reason);
    if (!view.tight) return {};
    const std::string name = fmt::format("{}, holding {}: first contact", strokeName(work.part(), reason.bends),
                                         heldName(work.part(), reason.bends.front(), reason.hold));
    return work.keep(fmt::format("contact-{:02}", number), contactDrawing(view, name, reason.depth_mm));
}

}  // namespace

std::string reasonSection(const SheetWork& work) {
    const BrakeResult& result = work.brake_report.result;
    if (result.reasons.empty()) return {};
    const bool proven = result.verdict == Verdict::kInfeasible;
    const BendMask formed = stuckState(work.part(), result.reasons);
    std::string text = element("h3", "Why not");
    if (proven) {
        std::vector<std::string> names;
        for (std::size_t i = 0; i < work.part().bends.size(); ++i) {
            if (contains(formed, idAt<BendId>(i))) names.push_back(work.part().bends[i].name);
        }
        text += element("p", "However it is begun, it comes to a stop. Furthest: with " + (names.empty() ? "nothing" : listed(names)) + " folded, then:");
    }
    std::size_t number = 0;
    for (const Reason& reason : result.reasons) {
        const std::string sentence = unwrapped(reasonsText(work.part(), {reason}));
        std::string item = element("p", sentence.starts_with("- ") ? sentence.substr(2) : sentence);
        if (proven && isContact(reason)) item += contact(work, reason, formed, ++number);
        text += wrap("div", item, "card");
    }
    return text + element("p", "Looked at: " + result.model);
}

}  // namespace tinwright::report
