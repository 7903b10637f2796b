// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/part/model/bend_frame.h>

namespace tinwright::report {

std::string atLeastMillimetres(double length_mm) {
    // The little extra keeps 1.3, which is not exact in binary, from being said as 1.2.
    return shortNumber(std::floor(length_mm * 10.0 + 1e-6) / 10.0);
}

std::string degrees(double angle_deg) { return shortNumber(angle_deg) + "°"; }

std::string turnWords(const Bend& bend) {
    const std::string way = bend.up ? " up" : " down";
    if (!bend.hem) return degrees(bend.angle.deg()) + way;
    return bend.hem->gap_mm > 0 ? fmt::format("hem{}, {} mm open", way, millimetres(bend.hem->gap_mm))
                                : "closed hem" + way;
}

std::string minutes(double angle_deg) {
    const auto all = static_cast<long>(std::lround(angle_deg * 60));
    if (all % 60 == 0) return fmt::format("{}°", all / 60);
    return all < 60 ? fmt::format("{}'", all) : fmt::format("{}° {}'", all / 60, all % 60);
}

std::string duration(long long time_ms) {
    const long long seconds = (time_ms + 500) / 1000;
    if (seconds < 60) return fmt::format("{} s", seconds);
    if (seconds < 3600) return fmt::format("{} min {:02} s", seconds / 60, seconds % 60);
    return fmt::format("{} h {:02} min", seconds / 3600, seconds / 60 % 60);
}

std::string percent(double share) {
    // The little extra keeps a share of 0.87, which is not exact in binary, from being said as 86%.
    return std::isfinite(share) ? fmt::format("{:.0f}%", std::floor(share * 100.0 + 1e-6)) : "?";
}

std::string placeWords(double x_mm, double bend_length_mm) {
    constexpr double kSamePlace_mm = 0.05;
    const double past_mm = x_mm - bend_length_mm;
    if (std::abs(x_mm) < kSamePlace_mm) return "at the bend's left end";
    if (std::abs(past_mm) < kSamePlace_mm) return "at the bend's right end";
    if (x_mm < 0) return millimetres(-x_mm) + " mm past the bend's left end";
    if (past_mm > 0) return millimetres(past_mm) + " mm past the bend's right end";
    return millimetres(x_mm) + " mm right of the bend's left end";
}

std::string strokeName(const Part& part, const std::vector<BendId>& bends) {
    return joined(bends, "+", [&](BendId bend) { return part.bend(bend).name; });
}

std::vector<std::string> bendNames(const Part& part, BendMask bends) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (contains(bends, idAt<BendId>(i))) names.push_back(part.bends[i].name);
    }
    return names;
}

std::string panelNames(const Part& part, const std::vector<PanelId>& panels) {
    std::vector<std::string> names;
    for (const PanelId panel : panels) names.push_back(part.panel(panel).name);
    return listed(names);
}

std::string bodyName(const Part& part, const BrakeInSetup& brake, BodyRef body) {
    if (body.kind == BodyRef::Kind::kPanel) return part.panel(body.panel()).name;
    const std::string kind = toText(body.kind);
    if (body.kind == BodyRef::Kind::kStrip) return kind + " " + part.bend(body.bend()).name;
    return body.isTool() && body.id != BodyRef::kAny ? kind + " " + brake->tool(body.bar()).id : kind;
}

std::string heldName(const Part& part, BendId bend, Side hold) {
    const Bend& line = part.bend(bend);
    return part.panel(heldPanel(line, hold)).name;
}

std::string swungName(const Part& part, BendId bend, Side hold) { return heldName(part, bend, opposite(hold)); }

}  // namespace tinwright::report
