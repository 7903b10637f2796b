// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/webs/cut_out_cures.h>

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "measures/leg.h"
#include "rules/wording.h"
#include "webs/web_remedies.h"

namespace tinwright {

using namespace forming;

namespace {

constexpr double kSameHole_mm = 1e-6;
constexpr double kLost_mm2 = 1e-6;  // of a cut-out that lies on its panel

double width_mm(const Part& part, const CutOutCure& cure) {
    const Leg leg = legFrame(part, cure.bend, cure.side);
    const Box box = boxOf(inFrame(leg, part.cut_outs[cure.cut_out].outline));
    return box.max().x() - box.min().x();
}

/// Takes the hole out of a region; false when it has none like it.
bool fillHole(Region& region, const Box& box) {
    const auto hole = std::find_if(region.holes.begin(), region.holes.end(),
                                   [&](const Polygon& one) { return isSameBox(boxOf(one), box, kSameHole_mm); });
    if (hole == region.holes.end()) return false;
    region.holes.erase(hole);
    return true;
}

/// Cuts holes that lie within it; false when one does not.
bool cutHoles(Region& region, const std::vector<Polygon>& holes) {
    if (holes.empty()) return true;
    double wanted_mm2 = area_mm2(region);
    for (const Polygon& hole : holes) wanted_mm2 -= std::abs(signedArea_mm2(hole));
    std::vector<Region> left = difference(region, holes);
    if (left.size() != 1 || left.front().holes.size() != region.holes.size() + holes.size() ||
        std::abs(area_mm2(left.front()) - wanted_mm2) > kLost_mm2)
        return false;
    region = std::move(left.front());
    return true;
}

std::vector<Polygon> outlinesWith(const Part& part, const CutOutCure& cure) {
    const Leg leg = legFrame(part, cure.bend, cure.side);
    const Polygon outline = inFrame(leg, part.cut_outs[cure.cut_out].outline);
    std::vector<Polygon> changed;
    switch (cure.kind) {
        case CutOutCure::Kind::kCutAfter: return {};
        case CutOutCure::Kind::kMoved: changed = {movedAway(outline, cure.by_mm)}; break;
        case CutOutCure::Kind::kNarrowed: changed = {narrowedBy(outline, cure.by_mm)}; break;
        case CutOutCure::Kind::kBridged: changed = bridgedBy(outline, cure.tabs, cure.by_mm); break;
    }
    for (Polygon& polygon : changed) {
        for (Vec2& point : polygon) point = leg.toBlank(point);
    }
    return changed;
}

}  // namespace

std::string cureWords(const Part& part, const CutOutCure& cure) {
    const std::string& name = part.cut_outs[cure.cut_out].name;
    const std::string& bend = part.bend(cure.bend).name;
    switch (cure.kind) {
        case CutOutCure::Kind::kMoved:
            return fmt::format("move {} {} mm away from bend {}", name, millimetres(cure.by_mm), bend);
        case CutOutCure::Kind::kNarrowed: {
            const double width = width_mm(part, cure);
            return fmt::format("narrow {} from {} to {} mm along bend {}", name, millimetres(width),
                               millimetres(width - cure.by_mm), bend);
        }
        case CutOutCure::Kind::kBridged:
            return cure.tabs == 1
                       ? fmt::format("leave a tab {} mm wide across the middle of {} and cut it out after folding",
                                     millimetres(cure.by_mm), name)
                       : fmt::format("leave {} tabs {} mm wide across {} and cut them out after folding", cure.tabs,
                                     millimetres(cure.by_mm), name);
        case CutOutCure::Kind::kCutAfter: break;
    }
    return fmt::format("{} {} after folding", part.cut_outs[cure.cut_out].round ? "drill" : "cut", name);
}

std::optional<Part> withCure(const Part& part, const CutOutCure& cure) {
    const NamedCutOut old = part.cut_outs[cure.cut_out];
    const Box box = boxOf(old.outline);
    Part changed = part;
    Region& region = changed.panels[old.panel.index()].region;
    if (old.is_notch || !fillHole(region, box) || !fillHole(changed.blank, box)) return std::nullopt;
    const std::vector<Polygon> outlines = outlinesWith(part, cure);
    if (!cutHoles(region, outlines) || !cutHoles(changed.blank, outlines)) return std::nullopt;
    const auto place = changed.cut_outs.begin() + static_cast<std::ptrdiff_t>(cure.cut_out);
    auto at = changed.cut_outs.erase(place);
    for (std::size_t i = outlines.size(); i-- > 0;) {
        NamedCutOut one = old;
        one.outline = outlines[i];
        one.round.reset();
        if (outlines.size() > 1) one.name += fmt::format(" {}", i + 1);
        if (old.round && cure.kind == CutOutCure::Kind::kMoved) {
            const Leg leg = legFrame(part, cure.bend, cure.side);
            one.round = RoundHole{old.round->centre + cure.by_mm * leg.y_axis, old.round->diameter_mm};
        }
        at = changed.cut_outs.insert(at, std::move(one));
    }
    return changed;
}

std::optional<Part> withCures(const Part& part, std::vector<CutOutCure> cures) {
    // The last cut-out first, so that those before it keep their places in the list.
    std::sort(cures.begin(), cures.end(),
              [](const CutOutCure& a, const CutOutCure& b) { return a.cut_out > b.cut_out; });
    std::optional<Part> changed = part;
    for (const CutOutCure& cure : cures) {
        if (changed) changed = withCure(*changed, cure);
    }
    return changed;
}

}  // namespace tinwright
