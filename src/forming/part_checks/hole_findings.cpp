// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "checks/checks.h"
#include "measures/hole_distance.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

// A stamping design guide: distance from the start of the bend in thicknesses, by the kind and the length of the edge
// beside it.
constexpr double kRoundFactor = 1.5;
struct EdgeFactor {
    double to_mm;
    double thicknesses;
};
constexpr EdgeFactor kEdgeFactors[] = {{25, 2}, {50, 2.5}, {1e9, 3}};

double wanted_mm(const NamedCutOut& cut_out, double edge_mm, double thickness_mm) {
    if (cut_out.round) return kRoundFactor * thickness_mm;
    for (const EdgeFactor& factor : kEdgeFactors) {
        if (edge_mm <= factor.to_mm) return factor.thicknesses * thickness_mm;
    }
    return 0;
}

void addRemedies(const Part& part, const Legs& legs, std::size_t cut_out, const Nearness& near,
                 const WantedDistance& wanted, Finding& finding) {
    if (const auto move = moveAway(part, legs, cut_out, near, wanted)) finding.remedies.push_back(*move);
    finding.remedies.push_back(part.cut_outs[cut_out].round ? "drill it after folding" : "cut it after folding");
    finding.cures.push_back({.kind = CutOutCure::Kind::kCutAfter, .cut_out = cut_out, .bend = finding.bends.front()});
    if (!part.cut_outs[cut_out].round && near.distance_mm < 0)
        finding.remedies.push_back("leave tabs across it on the bend line and cut them out after folding");
}

Finding findingOf(const Part& part, const Legs& legs, BendId bend, std::size_t cut_out, const Nearness& near,
                  const WantedDistance& wanted) {
    const NamedCutOut& named = part.cut_outs[cut_out];
    const bool inside = near.isInBend();
    Finding finding = startFinding(inside ? "hole.in-bend" : "hole.near-bend",
                                   inside && named.round ? Severity::kFault : Severity::kWarning, named.name, {bend});
    const std::string& bend_name = part.bend(bend).name;
    if (inside) {
        finding.words = named.round
                            ? fmt::format("{} lies in bend {}: it is pulled oval and may tear", named.name, bend_name)
                            : fmt::format("{} runs across bend {}: its edges flare out there", named.name, bend_name);
    } else {
        finding.words = fmt::format("{} is {} mm from the start of bend {}, wanted {} mm: {}", named.name,
                                    millimetres(near.distance_mm), bend_name, roundedUp(near.wanted_mm),
                                    named.round ? "it is pulled oval" : "its edge is pulled out of line");
    }
    finding.figures = {{"distance_mm", near.distance_mm, near.wanted_mm}};
    addRemedies(part, legs, cut_out, near, wanted, finding);
    return finding;
}

}  // namespace

void addHoleDistances(const Part& part, std::vector<Finding>& findings) {
    if (part.cut_outs.empty()) return;
    const Legs legs = legsOf(part);
    const WantedDistance wanted = [&](const NamedCutOut& cut_out, double edge_mm, const Leg&) {
        return wanted_mm(cut_out, edge_mm, part.thickness_mm);
    };
    for (std::size_t cut_out = 0; cut_out < part.cut_outs.size(); ++cut_out) {
        if (part.cut_outs[cut_out].is_notch) continue;  // a notch by a bend's end is its relief
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            const auto near = nearness(part, legs[i], cut_out, wanted);
            if (near && near->isNear())
                findings.push_back(findingOf(part, legs, idAt<BendId>(i), cut_out, *near, wanted));
        }
    }
}

}  // namespace tinwright::forming
