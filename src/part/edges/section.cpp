// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/edges/section.h>

#include <cmath>

#include <tinwright/base/contract.h>
#include <tinwright/geometry/polygons.h>
#include <tinwright/part/allowance/allowance.h>

namespace tinwright {

namespace {

constexpr double kUsualK = 0.44;

void check(const Section& section) {
    TINWRIGHT_REQUIRE(section.flats_mm.size() == section.angles_deg.size() + 1, "one flat more than bends");
    TINWRIGHT_REQUIRE(section.angles_deg.size() <= kMaxBends, "at most 64 bends");
    TINWRIGHT_REQUIRE(section.thickness_mm > 0 && section.length_mm > 0 && section.inside_radius_mm >= 0,
                      "sizes over 0");
    for (const double flat : section.flats_mm) TINWRIGHT_REQUIRE(flat > 0, "flat lengths over 0");
    for (const double angle : section.angles_deg) {
        TINWRIGHT_REQUIRE(angle != 0 && std::abs(angle) < 180, "bends turn by something, and under 180°");
    }
}

Bend makeBend(const Section& section, std::size_t index, double tangent_y) {
    const Angle angle = Angle::degrees(std::abs(section.angles_deg[index]));
    Bend bend;
    bend.name = "b" + std::to_string(index + 1);
    bend.parent = idAt<PanelId>(index);
    bend.child = idAt<PanelId>(index + 1);
    bend.angle = angle;
    bend.up = section.angles_deg[index] > 0;
    bend.inside_radius_mm = section.inside_radius_mm;
    const double by_rule = kFactorAllowance_mm(angle, section.inside_radius_mm, section.thickness_mm, kUsualK);
    bend.allowance_mm = section.allowance_mm > 0 ? section.allowance_mm : by_rule;
    bend.rule_value = (neutralRadius_mm(angle, bend.allowance_mm) - section.inside_radius_mm) / section.thickness_mm;
    bend.origin = Vec2(0, tangent_y + 0.5 * bend.allowance_mm);
    bend.spans = {{0, section.length_mm}};
    return bend;
}

void addEdges(Part& part, std::size_t index, std::size_t last) {
    const Polygon& ring = part.panels[index].region.outline;
    const PanelId id = idAt<PanelId>(index);
    const std::string& name = part.panels[index].name;
    if (index == 0) part.edges.push_back({name + ".start", id, ring[0], ring[1]});
    part.edges.push_back({name + ".right", id, ring[1], ring[2]});
    if (index == last) part.edges.push_back({name + ".end", id, ring[2], ring[3]});
    part.edges.push_back({name + ".left", id, ring[3], ring[0]});
}

}  // namespace

Part sectionPart(const Section& section) {
    check(section);
    Part part{.name = section.name,
              .material = section.material,
              .thickness_mm = section.thickness_mm,
              .grain_deg = {},
              .panels = {},
              .bends = {},
              .edges = {},
              .cut_outs = {},
              .film = Film::kUnsaid,
              .blank = {},
              .warnings = {}};
    double y = 0;
    for (std::size_t i = 0; i < section.flats_mm.size(); ++i) {
        const double end = y + section.flats_mm[i];
        part.panels.push_back({"p" + std::to_string(i), {rectangle(0, section.length_mm, y, end), {}}});
        addEdges(part, i, section.angles_deg.size());
        y = end;
        if (i == section.angles_deg.size()) break;
        part.bends.push_back(makeBend(section, i, y));
        y += part.bends.back().allowance_mm;
    }
    part.blank = {rectangle(0, section.length_mm, 0, y), {}};
    return part;
}

}  // namespace tinwright
