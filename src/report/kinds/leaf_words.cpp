// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include "kinds/brake_words.h"
#include "words/corner_words.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {
namespace {

constexpr std::array kBarRows{ToolTerms::Row{ToolRow::kUpper, "Bars"}};

constexpr BrakeTerms kLeafTerms{
    .tools = {.upper_one = "bar",
              .upper = "bars",
              .upper_label = "Bars",
              .all = "bars",
              .all_label = "Bars",
              .rows = kBarRows,
              .as_before = "bars at the same places as for the fold before",
              .held_otherwise = " and holds, other bars or places",
              .strings_shown = 12,
              .strings_are = "",
              .none_more = "no single bar more makes it go as drawn"},
    .fold = {.hold = "Hold", .gauging = "Sight line", .stroke = "Swing", .stroke_card = "Swing"},
    .closing = {.closer = "a clamp",
                .along = ToolRow::kUpper,
                .piece = "bar",
                .pushed_in = "under the bars",
                .close = "clamp",
                .hands_off = "Hands off the clamp"},
    .sheet = {.set_up_heads = {"Bars", "Change of bars", "Leaf face"},
              .film_off = "peeled where bar, bed and leaf bear",
              .lines_marked = "Sight lines marked with a pen, the drawn face marked as such",
              .has_sight_lines = true,
              .blank_lines = "Chain: bend line. Dashed: sight line, to be set under the nose; shown on the face that "
                             "lies up. ",
              .room = "room for bars",
              .seen_from_above = "bars from above",
              .leaves_plainly = "bars and part simply lift away",
              .legend =
                  "In the sections: solid black is held, outlined swings; dashed is where it ends, dotted where it "
                  "passes; crossed hatching is the bar, single hatching bed, beam and leaf; thin lines are what lies "
                  "behind or before the cut. The ring marks where it is tightest. ± is ISO 2768-1 class m, or what the "
                  "cut holds by ISO 9013 where that is more: off by more, stop and find out why before the next fold."},
    .either_side = "",
    .set_up_label = "Setback",
    .nowhere_besides = ""};

std::string leafShort(const FoldContext& on, const Reason& reason) {
    const std::string cure =
        reason.setback_mm ? fmt::format("; a setback of {:.1f} mm does", std::floor(*reason.setback_mm * 10) / 10)
                          : std::string("; no setback does, the flange is too short");
    return fmt::format(
        "the leaf does not reach {}: {:.1f} mm are missing to {:.1f} mm of sheet on the leaf (setback {} mm){}",
        bodyName(on.part, on.brake, reason.panel), std::ceil(reason.depth_mm * 10) / 10, on.shop.limits.leaf_land_mm,
        millimetres(on.brake.setback_mm()), cure);
}

std::string leafMeets(const FoldContext& on, const Reason& reason) {
    const std::string panel = bodyName(on.part, on.brake, reason.panel);
    if (reason.at_deg > reason.angle.deg()) {
        const std::string cure = openedWords(on, reason);
        return fmt::format(
            "the leaf meets {}, which stands beside the bend, at about {:.0f}°, past the {:.0f}° of the bend (overbend "
            "alone makes the contact: {})",
            panel, reason.at_deg, reason.angle.deg(), cure.empty() ? "fold this before it stands" : cure);
    }
    return fmt::format(
        "{} sticks out past the nose line beside the bend and the leaf, as long as the machine, meets it at about "
        "{:.0f}°: hang it off an end, cut the notch deeper, or fold this before it is in the way",
        panel, reason.at_deg);
}

std::string newBar(const NewBar& bar) {
    const char* most = bar.milled ? "at most " : "";
    return fmt::format("a bar {} mm wide, {}{} mm deep and {}{} mm high with the nose of {}", millimetres(bar.width_mm),
                       most, millimetres(bar.depth_mm), most, millimetres(bar.height_mm), printable(bar.like));
}

class LeafWords final : public BrakeWords {
public:
    LeafWords() : BrakeWords(kLeafTerms) {}

    [[nodiscard]] std::string lies(const Part& part, const FoldStep& step) const override {
        return panelNames(part, step.held) + " under the bars";
    }

    [[nodiscard]] std::string side(const std::string& held) const override { return "holding " + held; }

    [[nodiscard]] std::string has(const std::string& held) const override { return "holds " + held; }

    [[nodiscard]] std::string gauging(const Part& /*part*/, const BrakeInSetup& /*brake*/,
                                      const FoldStep& step) const override {
        if (step.sight_from_edge.empty())
            return "no straight edge is parallel to this bend: set it by its scribed line";
        return fmt::format("{} mm from edge {}: scribe it there, set it under the nose", millimetres(step.sight_mm),
                           step.sight_from_edge);
    }

    [[nodiscard]] std::string angle(double turned_deg) const override { return degrees(turned_deg); }

    [[nodiscard]] std::string finishedAngle(double turned_deg) const override {
        return "turned from flat " + degrees(turned_deg);
    }

    [[nodiscard]] std::string stroke(const BrakeInSetup& brake, const FoldStep& step) const override {
        const double ahead_deg = step.leaf_angle.deg() - step.set_angle.deg();
        return (brake->leaf().leaf_faces.size() > 1 ? ", " + step.leaf_face + " leaf face" : std::string()) +
               (ahead_deg > 0.05
                    ? fmt::format("; {} of it since the leaf stands off the sheet at this setback", degrees(ahead_deg))
                    : std::string());
    }

    [[nodiscard]] std::string why(const FoldContext& on, const Reason& reason) const override {
        switch (reason.code) {
            case ReasonCode::kLeafLiftsHeld: return leafMeets(on, reason);
            case ReasonCode::kTooLittleClamped:
                return fmt::format(
                    "{} gives less than {:.1f} mm of sheet to clamp behind the nose line over most of the bend",
                    bodyName(on.part, on.brake, reason.panel), on.shop.limits.clamped_land_mm);
            case ReasonCode::kTrapped:
                return "no string of bars that covers the bend comes out again (with the part, up, along, back, "
                       "forward or tilted): a bar or the part would be locked in";
            case ReasonCode::kLeafShort: return leafShort(on, reason);
            case ReasonCode::kLeafJams:
                return fmt::format(
                    "the leaf would press {:.1f} mm into the sheet at {:.0f}°: the setback is {} mm, the sheet {} mm; "
                    "a "
                    "setback of {} mm does",
                    reason.depth_mm, reason.at_deg, millimetres(on.brake.setback_mm()),
                    millimetres(on.part.thickness_mm), millimetres(on.part.thickness_mm));
            case ReasonCode::kLeafAngle:
                return fmt::format("the leaf must be set to {:.1f}° but only swings to {:.1f}°", reason.set_angle.deg(),
                                   reason.at_deg);
            default: return {};
        }
    }

    [[nodiscard]] std::string toolsThatLack(const Brake& brake, const Uncovered& what) const override {
        return what.like ? "bars like " + brake.tool(*what.like).id : std::string("bars");
    }

    [[nodiscard]] std::string newPieces(const std::vector<NewBar>& pieces) const override {
        std::vector<std::string> bars;
        for (const NewBar& bar : pieces) bars.push_back(newBar(bar));
        return listed(bars) +
               (bars.size() == 1 ? ", bought or milled from bar stock" : ", all bought or milled from bar stock");
    }

    [[nodiscard]] std::string wantedPiece(const WantedBar& piece) const override {
        return fmt::format("a bar {} mm wide with the section of {} ({} mm deep)", millimetres(piece.width_mm),
                           piece.like, millimetres(piece.clamp_depth_mm));
    }

    [[nodiscard]] std::string setUp(const BrakeInSetup& brake, double /*thickness_mm*/,
                                    const Plan* plan) const override {
        const std::vector<FoldStep> none;
        const std::vector<FoldStep>& folds = plan != nullptr ? plan->folds : none;
        const bool is_changed = std::any_of(folds.begin(), folds.end(), [&](const FoldStep& fold) {
            return fold.packing && fold.packing->setback_mm != brake.setback_mm();
        });
        return fmt::format("{} mm from nose line to hinge, the same for all folds{}", millimetres(brake.setback_mm()),
                           is_changed ? " but those that are packed up" : "");
    }

    [[nodiscard]] std::string toolsOfPlan(const BrakeInSetup& /*brake*/, const Plan& /*plan*/) const override {
        return {};
    }

    [[nodiscard]] std::array<std::string, 3> setUpCells(const Brake& brake, const FoldStep& step,
                                                        const std::string& change) const override {
        const std::string packed =
            step.packing ? fmt::format(", packed up {} mm, setback {} mm", millimetres(step.packing->height_mm),
                                       millimetres(step.packing->setback_mm))
                         : std::string();
        return {standing(brake, step, ToolRow::kUpper), change, step.leaf_face + packed};
    }
};

}  // namespace

const BrakeWords& wordsOfKind(const LeafBrake& /*kind*/) {
    static const LeafWords kWords;
    return kWords;
}

}  // namespace tinwright::report
