// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "checks/checks.h"
#include "metal/rating.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kNearRating = 0.8;

struct Asked {
    BendId bend;
    double length_mm = 0;
    RatedShare share;
};

bool isOver(double share) { return share > 1 + 1e-9; }

std::string percent(double share) { return fmt::format("{:.0f} %", 100 * share); }

/// Force at the tip of the leaf's face that bends a mm of the bend: its moment over the face's reach.
double leafForce_n(const BrakeInSetup& brake, const Asked& asked) {
    return asked.share.moment_nmm_per_mm * asked.length_mm / brake->leaf().leaf_faces.front().reach_mm;
}

void addUnrated(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const bool is_thicker =
        !brake->ratings.empty() && std::all_of(brake->ratings.begin(), brake->ratings.end(), [&](const Rating& rating) {
            return part.thickness_mm > rating.thickness_mm + 1e-9;
        });
    Finding finding =
        startFinding("force.unknown", is_thicker ? Severity::kWarning : Severity::kNote, part.material, {});
    finding.words = brake->ratings.empty()
                        ? "the shop file gives no rated thickness for this brake, so its load is not "
                          "checked: see the machine's manual"
                        : fmt::format(
                              "the strength of {} or of the sheet that the brake is rated for is not "
                              "known, so its load is not checked: see the machine's manual",
                              part.material);
    if (is_thicker)
        finding.words +=
            fmt::format("; {} mm is thicker than anything that it is rated for", millimetres(part.thickness_mm));
    findings.push_back(std::move(finding));
}

/// A bend that is longer than the rated sheet, and asks no more than that of it.
void addLong(const Part& part, const Asked& asked, std::vector<Finding>& findings) {
    Finding finding = startFinding("force.rating", Severity::kWarning, part.bend(asked.bend).name, {asked.bend});
    finding.words = fmt::format("{} mm are longer than the {} mm that the brake is rated for",
                                millimetres(asked.length_mm), millimetres(asked.share.rating->length_mm));
    finding.remedies = {"see the machine's manual"};
    finding.figures = {{"length_mm", asked.length_mm, asked.share.rating->length_mm}};
    findings.push_back(std::move(finding));
}

void addOverload(const Part& part, const Asked& asked, std::vector<Finding>& findings) {
    const RatedShare& share = asked.share;
    Finding finding = startFinding("force.rating", Severity::kOverload, part.bend(asked.bend).name, {asked.bend});
    finding.words = fmt::format(
        "{} mm of {} mm {} ask {}{} of the moment that the brake is rated for on each mm ({} mm {}) and {} of it "
        "altogether",
        millimetres(asked.length_mm), millimetres(part.thickness_mm), part.material, share.is_least ? "at least " : "",
        percent(share.per_length), millimetres(share.rating->thickness_mm), share.rating->material,
        percent(share.altogether));
    finding.remedies = {"another brake, or a thinner sheet"};
    if (!isOver(share.altogether))
        finding.remedies.emplace_back(
            "a short bend may go where the manual allows it: more setback, and watch bed and leaf for spring");
    finding.figures = {{"moment_share", share.per_length, 1.0},
                       {"whole_moment_share", share.altogether, 1.0},
                       {"moment_nm_per_m", share.moment_nmm_per_mm, share.rated_nmm_per_mm}};
    findings.push_back(std::move(finding));
}

/// The heaviest fold, so that a person knows what to expect at the handle.
void addHeaviest(const Part& part, const BrakeInSetup& brake, const Asked& asked, std::vector<Finding>& findings) {
    Finding finding = startFinding("force.moment", Severity::kNote, part.bend(asked.bend).name, {asked.bend});
    const double moment_nm = asked.share.moment_nmm_per_mm * asked.length_mm / 1000;
    finding.words = fmt::format(
        "the heaviest fold asks {}{:.0f} N m, {:.0f} N at the edge of the leaf's face, {} of the rated moment on each "
        "mm and {} of it altogether",
        asked.share.is_least ? "at least " : "up to ", moment_nm, leafForce_n(brake, asked),
        percent(asked.share.per_length), percent(asked.share.altogether));
    if (asked.share.per_length > kNearRating)
        finding.words += "; near the rating set the nose back 1.5 to 2 thicknesses";
    finding.figures = {{"moment_nm", moment_nm, {}},
                       {"leaf_force_n", leafForce_n(brake, asked), {}},
                       {"moment_share", asked.share.per_length, 1.0},
                       {"whole_moment_share", asked.share.altogether, 1.0}};
    findings.push_back(std::move(finding));
}

}  // namespace

void addRating(const Part& part, const Material* material, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    std::vector<Asked> all;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const double bend_mm = stripLength_mm(part.bends[i]);
        const auto share = ratedShare(brake, material, part.thickness_mm, bend_mm);
        if (!share) return addUnrated(part, brake, findings);
        all.push_back({idAt<BendId>(i), bend_mm, *share});
    }
    const std::size_t before = findings.size();
    for (const Asked& asked : all) {
        if (isOver(asked.share.per_length) || isOver(asked.share.altogether)) {
            addOverload(part, asked, findings);
        } else if (asked.length_mm > asked.share.rating->length_mm + 1e-9) {
            addLong(part, asked, findings);
        }
    }
    if (findings.size() > before || all.empty()) return;
    addHeaviest(
        part, brake,
        *std::max_element(all.begin(), all.end(),
                          [](const Asked& a, const Asked& b) { return a.share.altogether < b.share.altogether; }),
        findings);
}

void addUnknownMaterial(const Part& part, const Material* material, std::vector<Finding>& findings) {
    if (material) return;
    Finding finding = startFinding("material.unknown", Severity::kWarning, part.material, {});
    finding.words = fmt::format(
        "the materials file does not know {}: springback, least radius and force are not checked, and webs are "
        "compared without hardening, which is the least that the metal does",
        part.material);
    finding.remedies = {"name a material of tooling/materials.json that is near to it"};
    findings.push_back(std::move(finding));
}

}  // namespace tinwright::forming
