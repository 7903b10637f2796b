// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include "kinds/brake_words.h"
#include "kinds/gauge_text.h"
#include "kinds/vee_text.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {
namespace {

constexpr std::array kPunchAndDieRows{ToolTerms::Row{ToolRow::kUpper, "Punches"},
                                      ToolTerms::Row{ToolRow::kLower, "Dies"}};

constexpr BrakeTerms kPressTerms{
    .tools = {.upper_one = "punch",
              .upper = "punches",
              .upper_label = "Punches",
              .all = "punches and dies",
              .all_label = "Punches and dies",
              .rows = kPunchAndDieRows,
              .as_before = "punches and dies as for the fold before",
              .held_otherwise = " and sides at the back, other punches, dies or places",
              .strings_shown = 4,  // the brake is answered for each of its Vs
              .strings_are = "Of a press brake these are the punches of one height; dies may reach past the bend "
                             "wherever nothing hangs down there.",
              .none_more = "no single punch more between two walls makes it go as drawn"},
    .fold = {.hold = "Lay", .gauging = "Back gauge", .stroke = "Stroke", .stroke_card = "Angle"},
    .closing = {.closer = "a jaw",
                .along = ToolRow::kLower,
                .piece = "die",
                .pushed_in = "into the jaw",
                .close = "press",
                .hands_off = "Hands off the jaw; the tip of the punch goes into the empty V"},
    .sheet = {.set_up_heads = {"Punches", "Dies", "Change of tools"},
              .film_off = "peeled where punch and die bear",
              .lines_marked = "Bend lines that no stop sets marked with a pen, the drawn face marked as such",
              .has_sight_lines = false,  // the punch comes down on the bend line
              .blank_lines = "Chain: bend line, where the punch comes down. ",
              .room = "room for punches and dies",
              .seen_from_above = "punches and dies from above",
              .leaves_plainly = "the part simply comes out in front",
              .legend =
                  "In the sections, drawn at the end of the stroke: solid black is the sheet; dashed is how it lay "
                  "before, dotted where it passes; crossed hatching is punch and die, single hatching ram and bed; "
                  "tinted is the finger of the back gauge at its stop; thin lines are what lies behind or before the "
                  "cut. Dies stand still, the punch comes down; front and back each rise by half of the angle. From "
                  "above: tinted is the die under the sheet, the outline on it the punch. The two rows are seen from "
                  "the front, heights not to scale. The ring marks where it is tightest. ± is ISO 2768-1 class m, or "
                  "what the cut holds by ISO 9013 where that is more: off by more, stop and find out why before the "
                  "next fold."},
    .either_side = "whichever side is at the back",
    .set_up_label = "V",
    .nowhere_besides = ", or meet a side frame"};

/// The sides of the bends that are not held, ascending.
std::vector<PanelId> sidesInFront(const Part& part, const FoldStep& step) {
    std::vector<PanelId> sides;
    for (const BendId bend : bendsIn(step.stroke.bends)) {
        const Bend& line = part.bend(bend);
        const bool parent_held = std::find(step.held.begin(), step.held.end(), line.parent) != step.held.end();
        sides.push_back(parent_held ? line.child : line.parent);
    }
    std::sort(sides.begin(), sides.end());
    sides.erase(std::unique(sides.begin(), sides.end()), sides.end());
    return sides;
}

std::string noToolSuits(const Reason& reason) {
    if (reason.body.kind == BodyRef::Kind::kPunch)
        return "no punch is sharp and slim enough to press it to " + includedAndTurned(reason.set_angle.deg());
    return "no die suits it: the sheet would slip off the shoulders or meet the bottom of the V, or the ram cannot "
           "come down and rise so far";
}

std::string punchLike(double width_mm, const std::string& like) {
    return fmt::format("a punch {} mm wide with the section of {}", millimetres(width_mm), like);
}

class PressWords final : public BrakeWords {
public:
    PressWords() : BrakeWords(kPressTerms) {}

    [[nodiscard]] std::string lies(const Part& part, const FoldStep& step) const override {
        return fmt::format("{} at the back, {} in front", panelNames(part, step.held),
                           panelNames(part, sidesInFront(part, step)));
    }

    [[nodiscard]] std::string side(const std::string& held) const override { return held + " at the back"; }

    [[nodiscard]] std::string has(const std::string& held) const override {
        return fmt::format("has {} at the back", held);
    }

    [[nodiscard]] std::string gauging(const Part& part, const BrakeInSetup& brake,
                                      const FoldStep& step) const override {
        return gaugeText(part, brake, step);
    }

    [[nodiscard]] std::string angle(double turned_deg) const override { return includedAndTurned(turned_deg); }

    [[nodiscard]] std::string finishedAngle(double turned_deg) const override {
        return includedAndTurned(turned_deg) + " from flat";
    }

    [[nodiscard]] std::string stroke(const BrakeInSetup& /*brake*/, const FoldStep& step) const override {
        return fmt::format("; the punch goes {} mm into the V from where it touches the sheet",
                           millimetres(step.depth_mm));
    }

    [[nodiscard]] std::string why(const FoldContext& /*on*/, const Reason& reason) const override {
        switch (reason.code) {
            case ReasonCode::kTooLittleClamped:
                return "over most of the bend the sheet does not reach over both shoulders of the V to the end of the "
                       "stroke";
            case ReasonCode::kTrapped:
                return "the part cannot be laid in or taken out again (out of the V and forward under the raised "
                       "punch, along the machine off an end, or tilted): punches, dies, ram or side frames hold it";
            case ReasonCode::kVeeAngle:
                return fmt::format(
                    "a V of {} cannot press to {}: past {} the sheet lies on its flanks; it takes a sharper V",
                    degrees(180 - reason.at_deg), angle(reason.set_angle.deg()), angle(reason.at_deg));
            case ReasonCode::kNoTools: return noToolSuits(reason);
            default: return {};
        }
    }

    [[nodiscard]] std::string toolsThatLack(const Brake& brake, const Uncovered& what) const override {
        if (what.lacks) return *what.lacks == ToolRow::kLower ? "dies" : "punches";
        const auto named = [&](ToolRow row, const std::string& tools) {
            const bool of_it = what.like && brake.rowOf(*what.like) == row;
            return of_it ? tools + " like " + brake.tool(*what.like).id : tools;
        };
        return fmt::format("{}, with {} under them,", named(ToolRow::kUpper, "punches"),
                           named(ToolRow::kLower, "dies"));
    }

    [[nodiscard]] std::string newPieces(const std::vector<NewBar>& pieces) const override {
        std::vector<std::string> punches;
        for (const NewBar& punch : pieces) punches.push_back(punchLike(punch.width_mm, printable(punch.like)));
        return listed(punches) +
               (punches.size() == 1 ? ", bought or cut from a longer one" : ", all bought or cut from longer ones");
    }

    [[nodiscard]] std::string wantedPiece(const WantedBar& piece) const override {
        return punchLike(piece.width_mm, piece.like);
    }

    [[nodiscard]] std::string setUp(const BrakeInSetup& brake, double thickness_mm,
                                    const Plan* /*plan*/) const override {
        return veeText(brake, thickness_mm);
    }

    [[nodiscard]] std::string toolsOfPlan(const BrakeInSetup& brake, const Plan& plan) const override {
        return punchesAndDies(brake, plan);
    }

    [[nodiscard]] std::array<std::string, 3> setUpCells(const Brake& brake, const FoldStep& step,
                                                        const std::string& change) const override {
        return {standing(brake, step, ToolRow::kUpper), standing(brake, step, ToolRow::kLower), change};
    }
};

}  // namespace

const BrakeWords& wordsOfKind(const PressBrake& /*kind*/) {
    static const PressWords kWords;
    return kWords;
}

}  // namespace tinwright::report
