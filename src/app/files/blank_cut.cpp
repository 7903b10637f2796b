// SPDX-License-Identifier: GPL-3.0-or-later
#include "files/blank_cut.h"

#include <fmt/format.h>

#include <tinwright/base/words.h>
#include <tinwright/part/edges/kerf.h>
#include <tinwright/report/sentences/allowance_text.h>

namespace tinwright::app {
namespace {

Issue kerfIssue(const char* found, std::string expected, const char* hint) {
    return {"blank.kerf", "command line", "--kerf", found, std::move(expected), hint};
}

Result<double> wantedKerf_mm(const KerfChoice& choice, const ShopChoice& shop, const Part& part,
                             const std::optional<Cutting>& cutting) {
    if (choice.width_mm) return *choice.width_mm;
    if (shop.path.empty())
        return kerfIssue("a kerf and no shop", "--shop FILE whose \"cutting\" has \"kerfs\", or --kerf-width MM", "");
    if (!cutting)
        return kerfIssue("a shop that does not say how it cuts",
                         "\"cutting\" with \"kerfs\" in " + shop.path + ", or --kerf-width MM", "");
    if (const auto kerf = cutting->kerf_mm(part.thickness_mm)) return *kerf;
    return kerfIssue(
        "no kerf for this sheet",
        fmt::format("\"kerfs\" in {} that reach {:.4g} mm sheet, or --kerf-width MM", shop.path, part.thickness_mm),
        "measure it: the width of a test cut");
}

std::string fromText(const DrilledHole& hole) {
    if (hole.from.empty()) return "no straight edge to measure from";
    return joined(hole.from, ", ", [](const EdgeDistance& from) {
        return fmt::format("{:.1f} mm from {}", from.distance_mm, from.edge);
    });
}

std::string drillLine(const DrilledHole& hole) {
    const std::string pilot = hole.cut_pilot_mm ? fmt::format("pilot of {:.2f} mm cut", *hole.cut_pilot_mm)
                              : hole.pilot_mm < hole.diameter_mm ? fmt::format("first drill {:.4g} mm", hole.pilot_mm)
                                                                 : std::string("in one go");
    return fmt::format("             {}: {:.4g} mm, {}; {}\n", hole.name, hole.diameter_mm, fromText(hole), pilot);
}

std::string kerfText(const BlankCut& cut) {
    if (cut.kerf_mm)
        return fmt::format("Paths are moved by half a kerf of {:.4g} mm: turn the kerf off in the cutting program.",
                           *cut.kerf_mm);
    return cut.plan ? cut.plan->kerf_words : std::string();
}

}  // namespace

Result<BlankCut> blankCut(const KerfChoice& kerf, const JobChoice& job, const Part& part,
                          const std::optional<Cutting>& cutting) {
    BlankCut cut;
    if (cutting) {
        cut.plan = cutPlan(part, *cutting);
        if (!cut.plan->drilled.empty()) cut.cut = cutRegion(part, *cut.plan);
    }
    if (!kerf.asked()) return cut;
    const Result<double> kerf_mm = wantedKerf_mm(kerf, job.shop, part, cutting);
    if (!kerf_mm) return kerf_mm.issues();
    cut.kerf_mm = kerf_mm.value();
    Result<KerfPath> path = kerfPath(cut.cut.value_or(part.blank), kerf_mm.value());
    if (!path) {
        Issues issues = path.issues();
        for (Issue& issue : issues) issue.file = job.part.path;
        return issues;
    }
    cut.cut = std::move(path.value().path);
    cut.notes = std::move(path.value().notes);
    return cut;
}

std::vector<Vec2> drillCentres(const BlankCut& cut) {
    std::vector<Vec2> centres;
    if (cut.plan) {
        for (const DrilledHole& hole : cut.plan->drilled) centres.push_back(hole.centre);
    }
    return centres;
}

std::string cutText(const BlankCut& cut) {
    std::string text;
    if (const std::string kerf = kerfText(cut); !kerf.empty()) text += "  Kerf       " + kerf + "\n";
    if (cut.plan) {
        if (!cut.plan->drilled.empty()) {
            text += fmt::format("  DRILL      {}; not cut, to be drilled (distances on the flat blank):\n",
                                counted(cut.plan->drilled.size(), "centre mark"));
            for (const DrilledHole& hole : cut.plan->drilled) text += drillLine(hole);
        }
        if (!cut.plan->dross_words.empty()) text += "  Dross      " + cut.plan->dross_words + "\n";
        if (!cut.plan->film_words.empty()) text += "  Film       " + cut.plan->film_words + "\n";
        for (const Finding& finding : cut.plan->findings) {
            if (finding.id != "cut.hole") text += fmt::format("  Look out   {} [{}]\n", finding.words, finding.id);
        }
    }
    for (const std::string& note : cut.notes) text += "  Look out   " + note + "\n";
    return text;
}

std::vector<std::string> cutComments(const Part& part, const BlankCut& cut) {
    std::vector<std::string> lines{
        fmt::format("{}, {:.4g} mm {}, lengths in mm", part.name, part.thickness_mm, part.material)};
    if (!part.bends.empty()) lines.push_back("bend allowance: " + allowanceText(part));
    if (cut.plan) lines.push_back(fmt::format("cut by {}", toText(cut.plan->process)));
    if (const std::string kerf = kerfText(cut); !kerf.empty()) lines.push_back(kerf);
    return lines;
}

}  // namespace tinwright::app
