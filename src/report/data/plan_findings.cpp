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

using FoldFindings = std::vector<std::vector<Finding>>;

/// Beside a plan a cure of what spoils is told only when it was planned, as a remedy.
void leaveToRemedies(std::vector<Finding>& findings) {
    for (Finding& finding : findings) {
        if (consequenceOf(finding) == Consequence::kSpoils) finding.remedies.clear();
    }
}

FoldFindings findingsOfFolds(const Part& part, const Shop& shop, const Material* material,
                             const std::vector<FoldStep>& folds, const std::vector<BrakeInSetup>& brakes,
                             BendMask formed) {
    FoldFindings all;
    for (std::size_t i = 0; i < folds.size(); ++i) {
        all.push_back(foldFindings(partOnBrake(part, shop, brakes[i]), material, shop, brakes[i], folds[i], formed,
                                   Cures::kLeave));
        leaveToRemedies(all.back());
        formed |= folds[i].stroke.bends;
    }
    return all;
}

/// What the folds tell again, as they are made.
void leaveToFolds(const BrakeInSetup& brake, std::vector<Finding>& findings) {
    std::erase_if(findings, [&](const Finding& finding) { return isToldByFold(finding, brake); });
}

void addBrakeFindings(const PlanReport& report, BrakeReport& brake, const Material* material) {
    const BrakeInSetup& machine = brake.result.brake;
    brake.findings =
        brakeFindings(partOnBrake(report.part, report.shop, machine), material, report.shop, machine, Cures::kLeave);
    brake.fold_findings.clear();
    for (const Plan& plan : brake.result.plans) {
        const std::vector<BrakeInSetup> brakes(plan.folds.size(), machine);
        brake.fold_findings.push_back(
            findingsOfFolds(report.part, report.shop, material, plan.folds, brakes, report.formed));
    }
    leaveToRemedies(brake.findings);
    if (!brake.result.plans.empty()) leaveToFolds(machine, brake.findings);
}

bool isSame(const Finding& a, const Finding& b) {
    return a.id == b.id && a.brake == b.brake && a.feature == b.feature && a.words == b.words;
}

void addOnce(const std::vector<Finding>& more, std::vector<Finding>& all) {
    for (const Finding& finding : more) {
        if (std::none_of(all.begin(), all.end(), [&](const Finding& known) { return isSame(known, finding); }))
            all.push_back(finding);
    }
}

/// Of bends that were formed before nothing can be spoilt any more.
std::vector<Finding> spoilingOf(std::vector<Finding> findings, BendMask formed) {
    std::erase_if(findings, [&](const Finding& finding) {
        const bool is_done = !finding.bends.empty() && (maskOf(finding.bends) & ~formed) == 0;
        return is_done || consequenceOf(finding) != Consequence::kSpoils;
    });
    sortFindings(findings);
    return findings;
}

std::vector<Finding> spoilingOf(const std::vector<const std::vector<Finding>*>& of, const FoldFindings& folds,
                                BendMask formed) {
    std::vector<Finding> all;
    for (const std::vector<Finding>* findings : of) addOnce(*findings, all);
    for (const std::vector<Finding>& fold : folds) addOnce(fold, all);
    return spoilingOf(std::move(all), formed);
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
    leaveToRemedies(report.findings);
    for (BrakeReport& brake : report.brakes) addBrakeFindings(report, brake, material);
    if (!report.split) return;
    std::vector<BrakeInSetup> brakes;
    for (const std::size_t brake : report.split->brake_of_fold) brakes.push_back(report.split->setupOf(brake));
    report.split_findings =
        findingsOfFolds(report.part, report.shop, material, report.split->plan.folds, brakes, report.formed);
}

void addFindings(const TryReport& report, const Material* material, BrakeTry& tried) {
    const BrakeInSetup& brake = tried.result.brake;
    tried.findings = partFindings(report.part, material);
    std::vector<Finding> on_brake =
        brakeFindings(partOnBrake(report.part, report.shop, brake), material, report.shop, brake, Cures::kLeave);
    leaveToFolds(brake, on_brake);
    addOnce(on_brake, tried.findings);
    leaveToRemedies(tried.findings);
    sortFindings(tried.findings);
    const std::vector<FoldStep>& folds = tried.result.plan.folds;
    tried.fold_findings = findingsOfFolds(report.part, report.shop, material, folds,
                                          std::vector<BrakeInSetup>(folds.size(), brake), report.formed);
}

std::vector<Finding> allFindings(const PlanReport& report) {
    std::vector<Finding> all = report.findings;
    for (const BrakeReport& brake : report.brakes) {
        addOnce(brake.findings, all);
        if (brake.shown >= brake.fold_findings.size()) continue;
        for (const std::vector<Finding>& fold : brake.fold_findings[brake.shown]) addOnce(fold, all);
    }
    for (const std::vector<Finding>& fold : report.split_findings) addOnce(fold, all);
    sortFindings(all);
    return all;
}

std::vector<Finding> spoiling(const PlanReport& report, const BrakeReport& brake, std::size_t plan) {
    return spoilingOf({&report.findings, &brake.findings}, brake.fold_findings.at(plan), report.formed);
}

std::vector<Finding> spoilingOverTwo(const PlanReport& report) {
    std::vector<Finding> all = spoilingOf({&report.findings}, report.split_findings, report.formed);
    for (const BrakeReport& brake : report.brakes) {
        const auto made_elsewhere = [&] {
            BendMask elsewhere = report.formed;
            for (std::size_t b = 0; b < report.part.bends.size(); ++b) {
                if (report.split->brake_of_bend[b] != brake.brake) elsewhere |= bit(idAt<BendId>(b));
            }
            return elsewhere;
        }();
        std::vector<Finding> own = brake.findings;
        leaveToFolds(brake.result.brake, own);
        addOnce(spoilingOf(std::move(own), made_elsewhere), all);
    }
    sortFindings(all);
    return all;
}

std::vector<Finding> spoiling(const BrakeTry& tried, BendMask formed) {
    return spoilingOf({&tried.findings}, tried.fold_findings, formed);
}

}  // namespace tinwright
