// SPDX-License-Identifier: GPL-3.0-or-later
#include "cut_webs.h"

#include <fmt/format.h>

#include "cut_names.h"

namespace tinwright::forming {

namespace {

constexpr double kNoise_mm = 1e-6;
// Parts of the outline that a kerf closes but that are smaller than this are rounding.
constexpr double kNothing_mm2 = 0.01;

Finding tooThin(const std::string& a, const std::string& b, double web_mm, double least_mm, CutProcess process) {
    Finding finding{"cut.web", Gravity::kWarning, a, "", {}, "", {}, {}, std::nullopt};
    finding.words = fmt::format("Only {:.2f} mm of sheet between {} and {}: {} wants {:.4g} mm, or the web burns or bends away.", web_mm, a, b, toText(process), least_mm);
    finding.remedies = {fmt::format("move or narrow one of them by {:.2f} mm", least_mm - web_mm)};
    finding.figures = {{"web_mm", web_mm, least_mm}};
    return finding;
}

// What growing by half a kerf closes up, the torch cannot run into.
void addClosedGaps(const Region& path, const CutPlan& plan, std::vector<Finding>& findings) {
    if (!plan.kerf_mm) return;
    const Region outline{path.outline, {}};
    const double half = 0.5 * *plan.kerf_mm;
    double closed_mm2 = 0;
    for (const Region& piece : grown(outline, half)) {
        for (const Region& back : grown(piece, -half)) closed_mm2 += area_mm2(back);
    }
    closed_mm2 -= area_mm2(outline);
    if (closed_mm2 < kNothing_mm2) return;
    Finding finding{"cut.narrow", Gravity::kWarning, kOutlineName, "", {}, "", {}, {}, std::nullopt};
    finding.words = fmt::format("The outline has a gap or notch narrower than the kerf of {:.4g} mm: it comes out as one cut, wider than drawn.", *plan.kerf_mm);
    finding.remedies = {fmt::format("widen it to more than {:.4g} mm, or saw it by hand", *plan.kerf_mm)};
    finding.figures = {{"closed_mm2", closed_mm2, std::nullopt}, {"kerf_mm", *plan.kerf_mm, std::nullopt}};
    findings.push_back(std::move(finding));
}

}  // namespace

std::vector<Finding> webFindings(const Part& part, const Region& path, const Cutting& cutting, const CutPlan& plan) {
    std::vector<Finding> findings;
    addClosedGaps(path, plan, findings);
    const double least = cutting.least_web.forThickness_mm(part.thickness_mm);
    std::vector<NamedLoop> loops = namedHoles(part, path, plan);
    loops.push_back({kOutlineName, &path.outline});
    for (std::size_t i = 0; i < loops.size(); ++i) {
        for (std::size_t j = i + 1; j < loops.size(); ++j) {
            const double web = distance_mm(*loops[i].polygon, *loops[j].polygon);
            if (web < least - kNoise_mm) findings.push_back(tooThin(loops[i].name, loops[j].name, web, least, cutting.process));
        }
    }
    return findings;
}

}  // namespace tinwright::forming
