// SPDX-License-Identifier: GPL-3.0-or-later
#include "webs/web_trouble.h"

#include <algorithm>

#include <tinwright/forming/metal/bending.h>

namespace tinwright::forming {

std::optional<WebTrouble> swungTrouble(const Leg& leg, const LegLoad& load, const std::optional<Strength>& strength) {
    const std::optional<WebSection> section = worstSection(leg, load);
    if (!section) return std::nullopt;
    WebTrouble trouble{.id = "web.folds",
                       .severity = Severity::kWarning,
                       .cut_out = section->cut_out,
                       .section = section,
                       .land_mm = 0,
                       .bow = {}};
    if (section->ratio() > 1) {
        // Weaker than the bend line even when both are as hard: it goes first whatever the metal.
        if (section->ratio() > load.hardening) trouble.severity = Severity::kFault;
        return trouble;
    }
    if (!strength) return std::nullopt;
    for (std::size_t i = 0; i < leg.cut_outs.size(); ++i) {
        const Angle bow = residualBow(leg, load, *strength, i);
        if (bow > trouble.bow) trouble.bow = bow, trouble.cut_out = i;
    }
    if (trouble.bow.deg() < kBowNoted_deg) return std::nullopt;
    trouble.id = "web.bows";
    trouble.severity = trouble.bow.deg() < kBowWarned_deg ? Severity::kNote : Severity::kWarning;
    return trouble;
}

std::optional<WebTrouble> heldTrouble(const Leg& leg, const HeldLoad& load) {
    for (std::size_t i = 0; i < leg.cut_outs.size(); ++i) {
        const Box box = boxOf(leg.cut_outs[i].outline);
        const double ahead_mm = box.min().y() - leg.strip_mm;
        if (ahead_mm <= 0) continue;  // it runs into the bend: there is no strip to twist, and less bend to make
        const double window_mm = std::min(box.max().x(), leg.to_mm) - std::max(box.min().x(), leg.from_mm);
        const double land_mm = ahead_mm + load.nose_mm;
        if (land_mm >= load.land_mm || window_mm <= longestWindow_mm(land_mm, load.thickness_mm, load.hardening))
            continue;
        return WebTrouble{.id = "web.land",
                          .severity = Severity::kWarning,
                          .cut_out = i,
                          .section = {},
                          .land_mm = land_mm,
                          .bow = {}};
    }
    return std::nullopt;
}

std::array<Vec2, 2> sectionOnBlank(const Leg& leg, const WebSection& section) {
    return {leg.toBlank(section.line.at(section.across.from_mm)), leg.toBlank(section.line.at(section.across.to_mm))};
}

double distance_mm(const WebSection& section) {
    return std::min(section.line.at(section.across.from_mm).y(), section.line.at(section.across.to_mm).y());
}

std::vector<Figure> sectionFigures(const WebSection& section, const std::optional<Strength>& strength,
                                   double thickness_mm) {
    std::vector<Figure> figures{{"moment_ratio", section.ratio(), 1.0},
                                {"web_mm", section.net_mm, {}},
                                {"full_width_mm", section.gross_mm, {}}};
    if (!strength) return figures;
    const double unit = plasticMoment_nmm(strength->yield_mpa, 1, thickness_mm);
    figures.push_back({"moment_nmm", unit * section.demand_mm, unit * section.capacity_mm});
    return figures;
}

}  // namespace tinwright::forming
