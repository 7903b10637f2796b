// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/data/plan_report.h>

#include <algorithm>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/checks/check.h>
#include <tinwright/forming/cutting/cut_plan.h>

#include "data/fold_place.h"

namespace tinwright {
namespace {

void addBrakeFindings(const PlanReport& report, BrakeReport& brake, const Material* material) {
    const BrakeInSetup& machine = brake.result.brake;
    const PartOnBrake folded = partOnBrake(report.part, report.shop, machine);
    brake.findings = brakeFindings(folded, material, report.shop, machine);
    if (brake.shownPlan() == nullptr) return;
    const std::vector<FoldStep>& folds = brake.shownPlan()->folds;
    for (const report::FoldPlace& place : report::foldPlaces(folds, report.formed)) {
        brake.fold_findings.push_back(
            foldFindings(folded, material, report.shop, machine, folds[place.number - 1], place.formed_before));
    }
}

}  // namespace

void addFindings(PlanReport& report, const Material* material) {
    report.findings = partFindings(report.part, material);
    // A plan says itself to what angle the leaf is set, by the shop's own figure.
    std::erase_if(report.findings, [](const Finding& finding) { return finding.id == "angle.springback"; });
    if (report.shop.cutting) {
        for (Finding& finding : cutPlan(report.part, *report.shop.cutting).findings)
            report.findings.push_back(std::move(finding));
        sortFindings(report.findings);
    }
    for (BrakeReport& brake : report.brakes) addBrakeFindings(report, brake, material);
}

std::vector<Finding> allFindings(const PlanReport& report) {
    std::vector<Finding> all = report.findings;
    const auto add = [&](const std::vector<Finding>& more) {
        for (const Finding& finding : more) {
            const auto same = [&](const Finding& known) {
                return known.id == finding.id && known.brake == finding.brake && known.feature == finding.feature &&
                       known.words == finding.words;
            };
            if (std::none_of(all.begin(), all.end(), same)) all.push_back(finding);
        }
    };
    for (const BrakeReport& brake : report.brakes) {
        add(brake.findings);
        for (const std::vector<Finding>& fold : brake.fold_findings) add(fold);
    }
    sortFindings(all);
    return all;
}

}  // namespace tinwright
