// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/sentences/reason_words.h>

#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "kinds/brake_words.h"
#include "sentences/closing_text.h"
#include "sentences/reason_text.h"
#include "sentences/tolerance_text.h"
#include "words/corner_words.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {
namespace {

using namespace report;

/// "a + b" of the bends of a stroke.
std::string strokeWords(const Part& part, const std::vector<BendId>& bends) {
    std::string names;
    for (const BendId bend : bends) names += (names.empty() ? "" : " + ") + part.bend(bend).name;
    return names;
}

/// ", once a and b are folded, while c is flat", of what holds in many states.
std::string whenWords(const Part& part, const Reason& reason) {
    if (!reason.flat) return {};
    const auto names = [&](BendMask mask) {
        const std::vector<std::string> list = bendNames(part, mask);
        return listed(list) + (list.size() == 1 ? " is" : " are");
    };
    std::string text;
    if (reason.formed != 0) text += ", once " + names(reason.formed) + " folded";
    if (*reason.flat != 0) text += ", while " + names(*reason.flat) + " flat";
    return text;
}

/// Sharper than this a bend is not made in one fold on any tools (an acute V has about 30 degrees: common practice).
std::string sharperThanAnyFold(const Reason& reason) {
    constexpr double kSharpestFold_deg = 150;
    return reason.angle.deg() <= kSharpestFold_deg
               ? ""
               : "; so sharp a bend is folded sharp first and then pressed flat: draw it as a hem";
}

std::string panelHitWords(const FoldContext& on, const Reason& reason) {
    const std::string body = bodyName(on.part, on.brake, reason.body);
    if (ownStripMeets(reason))
        return fmt::format("the sheet in the bend itself runs into {}: cut a relief at the end of the bend", body);
    const std::string cure = openedWords(on, reason);
    const std::string overbend =
        overbendAlone(reason) ? " (overbend alone makes the contact" + (cure.empty() ? ")" : ": " + cure + ")") : "";
    return fmt::format("{} runs into {} at about {}{}", bodyName(on.part, on.brake, reason.panel), body,
                       wordsFor(*on.brake).about(reason.at_deg), overbend);
}

std::string uncoveredWords(const FoldContext& on, const Reason& reason) {
    constexpr double kNone_mm = 0.05;
    const Uncovered what = reason.uncovered.value_or(Uncovered{});
    const bool is_none = what.free_mm && *what.free_mm < kNone_mm && reason.panel.known();
    const std::string space = is_none
                                  ? bodyName(on.part, on.brake, reason.panel) + " is in their way over the middle of it"
                              : what.free_mm ? fmt::format("{:.1f} mm are free between what stands", *what.free_mm)
                                             : "there is room";
    return fmt::format(
        "no combination of the {} covers {:.1f} mm of bend where {} (gaps up to {:.1f} mm, ends up to {:.1f} mm)",
        wordsFor(*on.brake).toolsThatLack(*on.brake, what), what.bend_mm, space, on.shop.limits.bar_gap_mm,
        on.shop.limits.uncovered_end_mm);
}

std::string notOneStrokeWords(const FoldContext& on, const KeptApart& apart) {
    const Bend& one = on.part.bend(apart.one);
    const Bend& other = on.part.bend(apart.other);
    switch (apart.why) {
        case KeptApart::Why::kAngles:
            return fmt::format("one stroke bends by one angle, {} is bent by {:.4g}° and {} by {:.4g}°", one.name,
                               one.angle.deg(), other.name, other.angle.deg());
        case KeptApart::Why::kHem:
            return fmt::format("{} is a hem and {} is not; hems are closed right after their fold, with hems alone",
                               one.hem ? one.name : other.name, one.hem ? other.name : one.name);
        case KeptApart::Why::kHemGaps:
            return fmt::format("hems are closed together to one gap, {} has one of {:.4g} mm and {} of {:.4g} mm",
                               one.name, one.hem->gap_mm, other.name, other.hem->gap_mm);
        case KeptApart::Why::kHeldAndMoved:
            return fmt::format("{} would have to be held for {} and to move for {} at once",
                               on.part.panel(apart.panel).name, one.name, other.name);
        case KeptApart::Why::kNotOnLine: break;
    }
    return fmt::format("{} and {} do not lie on one line", one.name, other.name);
}

std::string notHeldWords(const FoldContext& on, const Holding& holding) {
    if (!holding.looked_at) {
        return "goes as drawn; whether it holds over the tolerances is not worked out for press brakes and parts with "
               "hems";
    }
    return "goes as drawn, but is not shown to hold over the tolerances with any bars tried; with the first that go "
           "it " +
           openWords(on.part, on.brake, holding);
}

std::string undecidedWords(const FoldContext& on, const Reason& reason) {
    if (reason.closing) {
        return "whether the hem closes is not decided: " + closingTroubleWords(on.part, on.brake, *reason.closing);
    }
    return "neither proven clear nor proven to hit: something passes within a tenth of a millimetre or so";
}

std::string notPackedWords(const Reason& reason) {
    if (!reason.not_packed) return {};
    const std::string height = millimetres(reason.not_packed->height_mm);
    if (reason.not_packed->presses_mm > 0) {
        return fmt::format("; packed up {} mm the leaf would press {:.1f} mm into the sheet at this setback", height,
                           reason.not_packed->presses_mm);
    }
    return fmt::format("; to pack the sheet up {} mm there is no room beside what hangs under it", height);
}

std::string hitWords(const FoldContext& on, const Reason& reason) {
    const std::string fillet = meetsFilletInDepth(on, reason)
                                   ? fmt::format(" (the bar's depth of {} mm against the fillet)",
                                                 millimetres(on.brake->bar(*reason.tool)->clamp_depth_mm))
                                   : "";
    return fmt::format("{} hits the {} at about {} and would go {:.1f} mm into it{}{}",
                       bodyName(on.part, on.brake, reason.panel), toText(reason.body.kind),
                       wordsFor(*on.brake).about(reason.at_deg), toldDepth_mm(reason), fillet, notPackedWords(reason));
}

std::string nowhereWords(const FoldContext& on, const Reason& reason) {
    double longest_mm = 0;
    for (const BendId bend : reason.bends()) longest_mm = std::max(longest_mm, stripExtent_mm(on.part.bend(bend)));
    if (longest_mm > on.brake->length_mm)
        return fmt::format("the machine is too short: the bend is {} mm long, the machine {} mm",
                           millimetres(longest_mm), millimetres(on.brake->length_mm));
    return std::string(
               "the part cannot stand anywhere along this machine: it would have to hang past an end that is closed, "
               "or past both") +
           wordsFor(*on.brake).terms.nowhere_besides;
}

/// What goes on from "bend, side held: ", with the tools that a reason is told for.
std::string whyWords(const FoldContext& on, const Reason& reason) {
    switch (reason.code) {
        case ReasonCode::kHit: return hitWords(on, reason);
        case ReasonCode::kPanelHit: return panelHitWords(on, reason);
        case ReasonCode::kNoBars: return uncoveredWords(on, reason);
        case ReasonCode::kLeafLiftsHeld:
        case ReasonCode::kTooLittleClamped:
        case ReasonCode::kTrapped:
        case ReasonCode::kNoTools:
        case ReasonCode::kLeafShort:
        case ReasonCode::kLeafJams: return wordsFor(*on.brake).why(on, reason);
        case ReasonCode::kLeafAngle:
        case ReasonCode::kVeeAngle: return wordsFor(*on.brake).why(on, reason) + sharperThanAnyFold(reason);
        case ReasonCode::kNowhere: return nowhereWords(on, reason);
        case ReasonCode::kNoHem:
            return reason.no_hem ? on.part.bend(reason.no_hem->bend).name + " " + toText(*reason.no_hem, on.part) : "";
        case ReasonCode::kNotClosed:
            return "it can be folded, but the hem is not closed: " +
                   closingTroubleWords(on.part, on.brake, reason.closing.value_or(ClosingTrouble{}));
        case ReasonCode::kNotOneStroke: return notOneStrokeWords(on, reason.apart.value_or(KeptApart{}));
        case ReasonCode::kNotHeld: return notHeldWords(on, reason.holding.value_or(Holding{}));
        case ReasonCode::kUndecided: break;
    }
    return undecidedWords(on, reason);
}

/// "with punch S100 ", of a reason that does not name its tools itself.
std::string toolWords(const FoldContext& on, const std::vector<const Reason*>& reasons) {
    std::vector<std::string> tools;
    for (const Reason* one : reasons) {
        if (one->uncovered && one->uncovered->like == one->tool) return {};
        const std::string kind =
            one->body.kind == BodyRef::Kind::kDie ? "die" : wordsFor(*on.brake).terms.tools.upper_one;
        tools.push_back(kind + " " + printable(on.brake->tool(*one->tool).id));
    }
    return "with " + listed(tools) + " ";
}

/// Of each kind of tools that was tried; kinds of which the same is so are named together.
std::string whyWithEach(const FoldContext& on, const Reason& reason) {
    if (reason.also.empty() || !reason.tool) return whyWords(on, reason);
    std::vector<std::pair<std::string, std::vector<const Reason*>>> all;  // why, of which
    const auto tell = [&](const Reason& one) {
        std::string why = whyWords(on, one);
        auto known = std::find_if(all.begin(), all.end(), [&](const auto& other) { return other.first == why; });
        if (known == all.end()) known = all.insert(all.end(), {why, {}});
        known->second.push_back(&one);
    };
    tell(reason);
    for (const Reason& other : reason.also) tell(other);
    std::string text;
    for (const auto& [why, reasons] : all) text += (text.empty() ? "" : "; ") + toolWords(on, reasons) + why;
    return text;
}

}  // namespace

std::string report::sideWords(const FoldContext& on, const Reason& reason) {
    return wordsFor(*on.brake).side(heldName(on.part, reason.stroke.first(), reason.stroke.hold));
}

std::string report::reasonWordsOfSide(const FoldContext& on, const Reason& reason, const std::string& side) {
    return fmt::format("{}, {}{}: {}", strokeWords(on.part, reason.bends()), side, whenWords(on.part, reason),
                       whyWithEach(on, reason));
}

std::string reasonWords(const FoldContext& on, const Reason& reason) {
    if (reason.code == ReasonCode::kNotOneStroke)  // whichever side is held
        return fmt::format("{} in one stroke{}: {}", strokeWords(on.part, reason.bends()), whenWords(on.part, reason),
                           whyWords(on, reason));
    return reasonWordsOfSide(on, reason, sideWords(on, reason));
}

}  // namespace tinwright
