// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "start/start_parts.h"

namespace tinwright {

namespace {

// "inside_width 61 = 60 + 2 x 0.5 fit gap. "
std::string sum(const StartDraft& draft, std::size_t axis) {
    const int walls = draft.sizes.wallsAcross(axis);
    if (walls == 0) return {};
    const std::size_t of = axis == 0 ? draft.sizes.view.width : draft.sizes.view.depth;
    const double inside = axis == 0 ? draft.sizes.across_mm : draft.sizes.along_mm;
    return fmt::format("{} {} = {} + {} x {} fit gap. ", baseDimension(draft, axis), draft.json.text(inside),
                       draft.json.text(draft.choice.component_mm[of]), walls, draft.json.text(draft.choice.gap_mm[of]));
}

std::string height(const StartDraft& draft) {
    const StartSizes& s = draft.sizes;
    if (draft.choice.shape == StartShape::kBracket) return {};
    const auto text = [&](double mm) { return draft.json.text(mm); };
    const std::string name = heightName(draft.choice.shape);
    std::string words =
        fmt::format("Up its walls the component needs {} = {} + 1 x {} fit gap", text(s.least_height_mm),
                    text(draft.choice.component_mm[s.view.height]), text(draft.choice.gap_mm[s.view.height]));
    if (s.far == FarEdge::kTurnedIn)
        return words + fmt::format("; {} {} under the lips, locked. ", name, text(s.inside_height_mm));
    const double more = s.inside_height_mm - s.least_height_mm;
    const double over_all = s.inside_height_mm + s.thickness_mm;
    words += s.far == FarEdge::kTurnedOut ? fmt::format("; {} {} = {} inside + {} sheet, over all", name,
                                                        text(over_all), text(s.inside_height_mm), text(s.thickness_mm))
                                          : fmt::format("; {} {} inside", name, text(s.inside_height_mm));
    return words + (more > 0 ? fmt::format(", {} more than that. ", text(more)) : ", and may grow. ");
}

std::string boss(const StartDraft& draft) {
    if (!draft.choice.boss) return {};
    const StartOpening hole = startOpenings(draft.choice, draft.sizes).back();
    const double gap = 0.5 * (hole.width_mm - draft.choice.boss->diameter_mm);
    return fmt::format("boss_hole_diameter {} = {} + 2 x {}. ", draft.json.text(hole.width_mm),
                       draft.json.text(draft.choice.boss->diameter_mm), draft.json.text(gap));
}

std::string corners(const StartDraft& draft) {
    if (draft.choice.corners != StartCorners::kWeld) return {};
    return fmt::format("Corners butt, square, with a gap of {} to be welded without filler. ",
                       draft.json.text(draft.sizes.corner_gap_mm));
}

std::string view(const StartDraft& draft) {
    const auto& at = draft.sizes.view.at;
    std::string words = fmt::format(
        "The drawn face is the inside: seen from the {} of the component, the edges front, right, back, left of the {} "
        "are its ",
        toText(openSide(draft.choice)), baseName(draft.choice.shape));
    for (std::size_t edge = 0; edge < 4; ++edge) words += fmt::format("{}{}", toText(at[edge]), edge < 3 ? ", " : ".");
    return words;
}

}  // namespace

std::string startNotes(const StartDraft& draft) {
    const auto& size = draft.choice.component_mm;
    const std::string component =
        fmt::format("Started from a component {} wide, {} deep, {} high. ", draft.json.text(size[0]),
                    draft.json.text(size[1]), draft.json.text(size[2]));
    const std::string radius =
        draft.choice.radius_from.empty()
            ? ""
            : fmt::format("Inside radius {}: {}. ", draft.json.text(draft.sizes.radius_mm), draft.choice.radius_from);
    return component + radius + sum(draft, 0) + sum(draft, 1) + height(draft) + corners(draft) + boss(draft) +
           view(draft);
}

}  // namespace tinwright
