// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/sentences/reason_words.h>

#include <fmt/format.h>

#include "sentences/closing_text.h"
#include "sentences/reason_text.h"
#include "sentences/tolerance_text.h"
#include "words/words.h"

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

std::string overAngleWords(const BrakeInSetup& brake, const Reason& reason) {
    // Sharper than this a bend is not made in one fold on any tools (an acute V has about 30 degrees: common practice).
    constexpr double kSharpestFold_deg = 150;
    const char* hem = reason.angle.deg() <= kSharpestFold_deg
                          ? ""
                          : "; so sharp a bend is folded sharp first and then pressed flat: draw it as a hem";
    const double set_deg = reason.set_angle.deg();
    const double most_deg = reason.at_deg;
    if (!brake->isPress()) {
        return fmt::format("the leaf must be set to {:.1f}° but only swings to {:.1f}°{}", set_deg, most_deg, hem);
    }
    return fmt::format(
        "a V of {:.4g}° cannot press to {:.4g}°: past {:.4g}° the sheet lies on its flanks; it takes a sharper V{}",
        180 - most_deg, set_deg, most_deg, hem);
}

std::string clampedWords(const FoldContext& on, const Reason& reason) {
    if (on.brake->isPress())
        return "over most of the bend the sheet does not reach over both shoulders of the V to the end of the stroke";
    return fmt::format("{} gives less than {:.1f} mm of sheet to clamp behind the nose line over most of the bend",
                       bodyName(on.part, on.brake, reason.panel), on.shop.limits.clamped_land_mm);
}

std::string trappedWords(const BrakeInSetup& brake) {
    if (brake->isPress()) {
        return "the part cannot be laid in or taken out again (out of the V and forward under the raised punch, along "
               "the machine off an end, or tilted): "
               "punches, dies, ram or side frames hold it";
    }
    return "no string of bars that covers the bend comes out again (with the part, up, along, back, forward or "
           "tilted): a bar or the part would be locked in";
}

std::string nowhereWords(const BrakeInSetup& brake) {
    const std::string ends =
        "the part cannot stand anywhere along this machine: it would have to hang past an end that is closed, or past "
        "both";
    return brake->isPress() ? ends + ", or meet a side frame" : ends;
}

std::string leafMeetsWords(const std::string& panel, const Reason& reason) {
    if (reason.at_deg > reason.angle.deg()) {
        return fmt::format(
            "the leaf meets {}, which stands beside the bend, at about {:.0f}°, past the {:.0f}° of the bend (overbend "
            "alone makes the "
            "contact: leave a little more room there, or fold this before it stands)",
            panel, reason.at_deg, reason.angle.deg());
    }
    return fmt::format(
        "{} sticks out past the nose line beside the bend and the leaf, as long as the machine, meets it at about "
        "{:.0f}°: hang it "
        "off an end, cut the notch deeper, or fold this before it is in the way",
        panel, reason.at_deg);
}

std::string panelHitWords(const FoldContext& on, const Reason& reason) {
    const std::string body = bodyName(on.part, on.brake, reason.body);
    if (ownStripMeets(reason))
        return fmt::format("the sheet in the bend itself runs into {}: cut a relief at the end of the bend", body);
    return fmt::format("{} runs into {} at about {:.0f}°{}", bodyName(on.part, on.brake, reason.panel), body,
                       reason.at_deg,
                       overbendAlone(reason) ? " (overbend alone makes the contact: open the corner a little)" : "");
}

std::string noToolWords(const Reason& reason) {
    if (reason.body.kind == BodyRef::Kind::kPunch)
        return fmt::format("no punch is sharp and slim enough to press it to {:.4g}°", reason.set_angle.deg());
    return "no die suits it: the sheet would slip off the shoulders or meet the bottom of the V, or the ram cannot "
           "come down and rise so far";
}

std::string toolsWords(const BrakeInSetup& brake, const Uncovered& what) {
    const auto named = [&](ToolRow row, const char* tools) {
        const bool of_it = what.like && brake->rowOf(*what.like) == row;
        return of_it ? fmt::format("{} like {}", tools, brake->tool(*what.like).id) : std::string(tools);
    };
    if (!brake->isPress()) return named(ToolRow::kUpper, "bars");
    if (what.lacks) return *what.lacks == ToolRow::kLower ? "dies" : "punches";
    return fmt::format("{}, with {} under them,", named(ToolRow::kUpper, "punches"), named(ToolRow::kLower, "dies"));
}

std::string uncoveredWords(const FoldContext& on, const Uncovered& what) {
    const std::string space =
        what.free_mm ? fmt::format("{:.1f} mm are free between what stands", *what.free_mm) : "there is room";
    return fmt::format(
        "no combination of the {} covers {:.1f} mm of bend where {} (gaps up to {:.1f} mm, ends up to {:.1f} mm)",
        toolsWords(on.brake, what), what.bend_mm, space, on.shop.limits.bar_gap_mm, on.shop.limits.uncovered_end_mm);
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

/// What goes on from "bend, side held: ".
std::string whyWords(const FoldContext& on, const Reason& reason) {
    switch (reason.code) {
        case ReasonCode::kHit:
            return fmt::format("{} hits the {} at about {:.0f}° and would go {:.1f} mm into it",
                               bodyName(on.part, on.brake, reason.panel), toText(reason.body.kind), reason.at_deg,
                               reason.depth_mm);
        case ReasonCode::kLeafLiftsHeld: return leafMeetsWords(bodyName(on.part, on.brake, reason.panel), reason);
        case ReasonCode::kPanelHit: return panelHitWords(on, reason);
        case ReasonCode::kNoBars: return uncoveredWords(on, reason.uncovered.value_or(Uncovered{}));
        case ReasonCode::kTooLittleClamped: return clampedWords(on, reason);
        case ReasonCode::kTrapped: return trappedWords(on.brake);
        case ReasonCode::kLeafAngle:
        case ReasonCode::kVeeAngle: return overAngleWords(on.brake, reason);
        case ReasonCode::kNoTools: return noToolWords(reason);
        case ReasonCode::kNowhere: return nowhereWords(on.brake);
        case ReasonCode::kNoHem:
            return reason.no_hem ? on.part.bend(reason.no_hem->bend).name + " " + toText(*reason.no_hem, on.part) : "";
        case ReasonCode::kNotClosed:
            return "it can be folded, but the hem is not closed: " +
                   closingTroubleWords(on.part, on.brake, reason.closing.value_or(ClosingTrouble{}));
        case ReasonCode::kNotHeld: return notHeldWords(on, reason.holding.value_or(Holding{}));
        case ReasonCode::kUndecided: break;
    }
    return undecidedWords(on, reason);
}

}  // namespace

std::string report::sideWords(const FoldContext& on, const Reason& reason) {
    const std::string held = heldName(on.part, reason.bends.front(), reason.hold);
    return on.brake->isPress() ? held + " at the back" : "holding " + held;
}

std::string report::reasonWordsOfSide(const FoldContext& on, const Reason& reason, const std::string& side) {
    return fmt::format("{}, {}{}: {}", strokeWords(on.part, reason.bends), side, whenWords(on.part, reason),
                       whyWords(on, reason));
}

std::string reasonWords(const FoldContext& on, const Reason& reason) {
    return reasonWordsOfSide(on, reason, sideWords(on, reason));
}

}  // namespace tinwright
