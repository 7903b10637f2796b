// SPDX-License-Identifier: GPL-3.0-or-later
#include "cutting/cut_webs.h"

#include <algorithm>

#include <fmt/format.h>

#include <tinwright/part/edges/kerf.h>
#include <tinwright/part/model/round_hole.h>

#include "cutting/cut_names.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kNoise_mm = 1e-6;

Finding tooThin(const std::string& a, const std::string& b, double web_mm, double least_mm, CutProcess process) {
    Finding finding = startFinding("cut.web", Severity::kWarning, a);
    finding.words =
        fmt::format("Only {:.2f} mm of sheet between {} and {}: {} wants {:.4g} mm, or the web burns or bends away.",
                    web_mm, a, b, toText(process), least_mm);
    finding.remedies = {fmt::format("move or narrow one of them by {:.2f} mm", least_mm - web_mm)};
    finding.figures = {{"web_mm", web_mm, least_mm}};
    return finding;
}

void addClosedGaps(const Region& path, const CutPlan& plan, std::vector<Finding>& findings) {
    if (!plan.kerf_mm) return;
    const std::vector<Vec2> gaps = gapsNarrowerThan(path.outline, *plan.kerf_mm);
    if (gaps.empty()) return;
    Finding finding = startFinding("cut.narrow", Severity::kWarning, kOutlineName);
    finding.words = fmt::format(
        "{} of the outline narrower than the kerf of {:.4g} mm (the first at {:.1f}, {:.1f} mm): the cut comes out "
        "wider than drawn.",
        gaps.size() == 1 ? "A gap or notch" : fmt::format("{} gaps or notches", gaps.size()), *plan.kerf_mm,
        gaps.front().x(), gaps.front().y());
    finding.remedies = {fmt::format("widen to more than {:.4g} mm, or saw by hand", *plan.kerf_mm)};
    finding.figures = {{"gaps", static_cast<double>(gaps.size()), std::nullopt},
                       {"kerf_mm", *plan.kerf_mm, std::nullopt}};
    findings.push_back(std::move(finding));
}

/// Slots and necks of holes that the cut does not fit into.
void addNecks(const NamedLoop& hole, const CutPlan& plan, std::vector<Finding>& findings) {
    const auto is_told = [&](const Finding& finding) {
        return finding.id == "cut.narrow" && finding.feature == hole.name;
    };
    if (!plan.kerf_mm || std::any_of(plan.findings.begin(), plan.findings.end(), is_told)) return;
    const std::vector<Vec2> necks = necksNarrowerThan(*hole.polygon, *plan.kerf_mm);
    if (necks.empty()) return;
    Finding finding = startFinding("cut.narrow", Severity::kWarning, hole.name);
    finding.words = fmt::format(
        "a place of {} narrower than the kerf of {:.4g} mm (at {:.1f}, {:.1f} mm of the blank): the cut does not fit "
        "in.",
        hole.name, *plan.kerf_mm, necks.front().x(), necks.front().y());
    finding.remedies = {fmt::format("widen to more than {:.4g} mm, or saw by hand", *plan.kerf_mm)};
    finding.figures = {{"places", static_cast<double>(necks.size()), std::nullopt},
                       {"kerf_mm", *plan.kerf_mm, std::nullopt}};
    findings.push_back(std::move(finding));
}

}  // namespace

std::vector<Finding> webFindings(const Part& part, const Region& path, const Cutting& cutting, const CutPlan& plan) {
    std::vector<Finding> findings;
    addClosedGaps(path, plan, findings);
    const double least = cutting.least_web.forThickness_mm(part.thickness_mm);
    std::vector<NamedLoop> loops = namedHoles(part, path, plan);
    for (const NamedLoop& hole : loops) {
        if (!roundHole(*hole.polygon)) addNecks(hole, plan, findings);
    }
    loops.push_back({kOutlineName, &path.outline});
    for (std::size_t i = 0; i < loops.size(); ++i) {
        for (std::size_t j = i + 1; j < loops.size(); ++j) {
            const double web = distance_mm(*loops[i].polygon, *loops[j].polygon);
            if (web < least - kNoise_mm)
                findings.push_back(tooThin(loops[i].name, loops[j].name, web, least, cutting.process));
        }
    }
    return findings;
}

}  // namespace tinwright::forming
