// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "checks/checks.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kParallel = 0.26;  // sine of about 15°: bends that meet at less of an angle make no corner
constexpr double kNone_t = 0.2;  // thicknesses: a gap less than this is left by how the corner was drawn, not a relief
// FAA-H-8083-31, relief holes in aluminium sheet: 1/8 in up to 0.064 in, 3/16 in over it.
constexpr double kThinAluminium_mm = 0.064 * 25.4;
constexpr double kThinHole_mm = 3.175;
constexpr double kThickHole_mm = 4.7625;

struct Corner {
    BendId a;
    BendId b;
    double relief_mm = 0;  ///< side of the square between the ends of the two strips
};

double distance_mm(const Vec2& point, const Vec2& from, const Vec2& to) {
    const Vec2 edge = to - from;
    const double share = std::clamp((point - from).dot(edge) / std::max(edge.squaredNorm(), 1e-12), 0.0, 1.0);
    return (point - from - share * edge).norm();
}

Polygon stripOf(const Bend& bend, const StripSpan& span) {
    const Vec2 half = 0.5 * bend.allowance_mm * bend.toward_child;
    const Vec2 from = bend.origin + span.from_mm * bend.along;
    const Vec2 to = bend.origin + span.to_mm * bend.along;
    return {from - half, to - half, to + half, from + half};
}

double distance_mm(const Polygon& a, const Polygon& b) {
    double least = 1e9;
    for (std::size_t i = 0; i < a.size(); ++i) {
        for (std::size_t j = 0; j < b.size(); ++j) {
            least = std::min({least, distance_mm(a[i], b[j], b[(j + 1) % b.size()]),
                              distance_mm(b[j], a[i], a[(i + 1) % a.size()])});
        }
    }
    return least;
}

double distance_mm(const Bend& a, const Bend& b) {
    double least = 1e9;
    for (const StripSpan& of_a : a.spans) {
        for (const StripSpan& of_b : b.spans) least = std::min(least, distance_mm(stripOf(a, of_a), stripOf(b, of_b)));
    }
    return least;
}

bool sharePanel(const Bend& a, const Bend& b) {
    return a.parent == b.parent || a.parent == b.child || a.child == b.parent;
}

double wantedRelief_mm(const Part& part, const Material* material) {
    if (!material || material->family != "aluminium") return part.thickness_mm;
    return part.thickness_mm <= kThinAluminium_mm + 1e-9 ? kThinHole_mm : kThickHole_mm;
}

std::vector<Corner> cornersUnder(const Part& part, double wanted_mm) {
    std::vector<Corner> corners;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        for (std::size_t j = i + 1; j < part.bends.size(); ++j) {
            const Bend& a = part.bends[i];
            const Bend& b = part.bends[j];
            if (!sharePanel(a, b) || std::abs(a.along.x() * b.along.y() - a.along.y() * b.along.x()) < kParallel)
                continue;
            const double relief_mm = std::numbers::sqrt2 * distance_mm(a, b);
            if (relief_mm < wanted_mm - 1e-6) corners.push_back({idAt<BendId>(i), idAt<BendId>(j), relief_mm});
        }
    }
    return corners;
}

std::string cornerName(const Part& part, const Corner& corner) {
    return part.bend(corner.a).name + "/" + part.bend(corner.b).name;
}

/// One finding for all corners of a kind: they are cured in the same way.
void addCorners(const Part& part, const Material* material, const std::vector<Corner>& corners, bool missing,
                double wanted_mm, std::vector<Finding>& findings) {
    if (corners.empty()) return;
    const bool aluminium = material && material->family == "aluminium";
    Finding finding = startFinding(missing ? "relief.missing" : "relief.small",
                                   aluminium || !missing ? Severity::kWarning : Severity::kNote, "");
    std::vector<std::string> names;
    double least_mm = 1e9;
    for (const Corner& corner : corners) {
        names.push_back(cornerName(part, corner));
        least_mm = std::min(least_mm, corner.relief_mm);
        for (const BendId bend : {corner.a, corner.b}) {
            if (std::find(finding.bends.begin(), finding.bends.end(), bend) == finding.bends.end())
                finding.bends.push_back(bend);
        }
    }
    std::sort(finding.bends.begin(), finding.bends.end());
    finding.feature = (names.size() == 1 ? "corner " : "corners ") + listed(names);
    finding.words = missing ? "the two bends run up to one point with no relief hole there: the corner bulges, and "
                              "hard sheet cracks from it"
                            : fmt::format("the relief between the two bends is {} mm, less than {} mm",
                                          millimetres(least_mm), roundedUp(wanted_mm));
    finding.remedies = {
        fmt::format("a relief hole of {} mm or more where the two bends start (corner \"relief\" of the recipe)",
                    roundedUp(std::max(wanted_mm, 2 * part.bend(corners.front().a).inside_radius_mm)))};
    finding.figures = {{"relief_mm", missing ? 0.0 : least_mm, wanted_mm}};
    findings.push_back(std::move(finding));
}

}  // namespace

void addCornerReliefs(const Part& part, const Material* material, std::vector<Finding>& findings) {
    const double wanted_mm = wantedRelief_mm(part, material);
    std::vector<Corner> missing;
    std::vector<Corner> small;
    for (const Corner& corner : cornersUnder(part, wanted_mm))
        (corner.relief_mm < kNone_t * part.thickness_mm ? missing : small).push_back(corner);
    addCorners(part, material, missing, true, wanted_mm, findings);
    addCorners(part, material, small, false, wanted_mm, findings);
}

}  // namespace tinwright::forming
