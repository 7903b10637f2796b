// SPDX-License-Identifier: GPL-3.0-or-later
#include "engine/reason_words.h"

#include <fmt/format.h>

namespace tinwright {

namespace {

// Sharper than this a bend is not made in one fold on any tools (an acute V has about 30 degrees: common practice).
std::string hemWords(double bend_deg) {
    constexpr double kSharpestFold_deg = 150;
    if (bend_deg <= kSharpestFold_deg) return {};
    return "; so sharp a bend is folded sharp first and then pressed flat: draw it as a hem";
}

}  // namespace

std::string ReasonWords::overAngle(double bend_deg, double set_deg, double most_deg) const {
    const std::string hem = hemWords(bend_deg);
    if (!brake->isPress())
        return fmt::format("the leaf must be set to {:.1f}° but only swings to {:.1f}°{}", set_deg, most_deg, hem);
    return fmt::format(
        "a V of {:.4g}° cannot press to {:.4g}°: past {:.4g}° the sheet lies on its flanks; it takes a sharper V{}",
        180 - most_deg, set_deg, most_deg, hem);
}

std::string ReasonWords::noLand(const std::string& held, const Limits& limits) const {
    if (brake->isPress())
        return "over most of the bend the sheet does not reach over both shoulders of the V to the end of the stroke";
    return fmt::format("{} gives less than {:.1f} mm of sheet to clamp behind the nose line over most of the bend",
                       held, limits.clamped_land_mm);
}

std::string ReasonWords::trapped() const {
    if (brake->isPress()) {
        return "the part cannot be laid in or taken out again (out of the V and forward under the raised punch, along "
               "the machine off an end, or tilted): "
               "punches, dies, ram or side frames hold it";
    }
    return "no string of bars that covers the bend comes out again (with the part, up, along, back, forward or "
           "tilted): a bar or the part would be locked in";
}

std::string ReasonWords::nowhere() const {
    const std::string ends =
        "the part cannot stand anywhere along this machine: it would have to hang past an end that is closed, or past "
        "both";
    return brake->isPress() ? ends + ", or meet a side frame" : ends;
}

std::string ReasonWords::leafMeets(const std::string& panel, double at_deg, double bend_deg) const {
    if (at_deg > bend_deg) {
        return fmt::format(
            "the leaf meets {}, which stands beside the bend, at about {:.0f}°, past the {:.0f}° of the bend (overbend "
            "alone makes the "
            "contact: leave a little more room there, or fold this before it stands)",
            panel, at_deg, bend_deg);
    }
    return fmt::format(
        "{} sticks out past the nose line beside the bend and the leaf, as long as the machine, meets it at about "
        "{:.0f}°: hang it "
        "off an end, cut the notch deeper, or fold this before it is in the way",
        panel, at_deg);
}

std::string ReasonWords::noTool(ToolRow row, double set_deg) const {
    if (row == ToolRow::kUpper) return fmt::format("no punch is sharp and slim enough to press it to {:.4g}°", set_deg);
    return "no die suits it: the sheet would slip off the shoulders or meet the bottom of the V, or the ram cannot "
           "come down and rise so far";
}

std::string ReasonWords::noString(std::optional<ToolRow> lacks, double bend_mm, const std::string& space,
                                  const Limits& limits) const {
    const char* both = brake->isPress() ? "punches, with dies under them," : "bars";
    const char* tools = !lacks ? both : (*lacks == ToolRow::kLower ? "dies" : "punches");
    return fmt::format(
        "no combination of the {} covers {:.1f} mm of bend where {} (gaps up to {:.1f} mm, ends up to {:.1f} mm)",
        tools, bend_mm, space, limits.bar_gap_mm, limits.uncovered_end_mm);
}

}  // namespace tinwright
