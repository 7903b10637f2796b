// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/ids.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/brake/shop/material.h>
#include <tinwright/forming/rules/finding.h>
#include <tinwright/part/model/part.h>
#include <tinwright/part/recipe/recipe_changes.h>
#include <tinwright/report/data/fold_context.h>
#include <tinwright/report/data/made_report.h>
#include <tinwright/sequence/plan/planner.h>
#include <tinwright/sequence/plan/split_plan.h>
#include <tinwright/sequence/remedies/machine_needs.h>
#include <tinwright/sequence/remedies/remedies.h>

namespace tinwright {

/// What an independent replay said of one plan.
struct PlanCheck {
    bool checked = false;               ///< false: nobody replayed it, the findings are empty
    std::vector<std::string> findings;  ///< empty on a checked plan: the replay agrees
};

/// What would lift what stands in the way on one brake.
struct RemedyReport {
    std::vector<Tweakable> dimensions;  ///< that might change
    Remedies found;
    std::vector<std::vector<DimensionChange>> changes;  ///< of each remedy: every dimension that is another length with
                                                        ///< it
};

/// Planning on one brake of the shop, and what became of its plans when they were replayed.
struct BrakeReport {
    std::size_t brake = 0;  ///< into Shop::brakes
    BrakeResult result;
    std::vector<PlanCheck> checks;  ///< one for each of result.plans, or empty when none was asked for
    std::vector<Finding> findings;  ///< what the metal does on this brake, the graver first; but for what the folds of
                                    ///< its plans tell
    std::vector<std::vector<std::vector<Finding>>> fold_findings;  ///< by plan, of each fold; empty: nobody looked
    std::optional<RemedyReport> remedies;                          ///< none: nobody looked, or nothing asks for them
    std::optional<MachineNeeds> needs;  ///< none: nobody looked, or the part goes on a brake of the shop
    std::size_t shown = 0;              ///< into result.plans: the one that is told fold by fold, drawn and moved
    /// Null when no order works.
    [[nodiscard]] const Plan* shownPlan() const { return shown < result.plans.size() ? &result.plans[shown] : nullptr; }
};

/// Which orders a report is about.
enum class OrderSource {
    kBest,    ///< ranked; the best is shown
    kPicked,  ///< ranked; a person picked the one that is shown
    kOwn,     ///< a person's own, one for each brake: nothing is ranked or counted
};

/// All that a plan says to a person or to another program. Refers to part and shop, which outlive it.
struct PlanReport {
    const Part& part;
    const Shop& shop;
    BendMask formed = 0;                    ///< bends that were already folded
    Verdict verdict = Verdict::kUndecided;  ///< overallVerdict() of all of it
    std::vector<BrakeReport> brakes;
    std::vector<std::string> warnings;  ///< never change the verdict
    std::vector<Finding> findings;      ///< what the metal does whatever the brake, and what the shop's way of cutting
                                        ///< makes of the blank
    bool split_tried = false;           ///< orders over two brakes were looked for
    std::optional<SplitPlan> split = std::nullopt;  ///< the best of them, when no single brake makes the part
    std::optional<PlanCheck> split_check = std::nullopt;
    std::vector<std::vector<Finding>> split_findings = {};  ///< of each fold of it
    Pins pins = {};
    OrderSource source = OrderSource::kBest;
    std::optional<MadeReport> made = std::nullopt;  ///< `part` is the part as made; none: as drawn
};

/// The part on one of the brakes of its report.
[[nodiscard]] FoldContext contextOf(const PlanReport& report, const BrakeReport& brake);

/// Fills in the findings of the report and its brakes, and of every fold of the plans shown. `material`: as
/// partFindings().
void addFindings(PlanReport& report, const Material* material);

/// All of them, with those of the folds of the plans shown, the graver first, each once.
[[nodiscard]] std::vector<Finding> allFindings(const PlanReport& report);

/// What a plan of a brake spoils, the graver first, each once: by the part, by the brake, by its folds. Not empty for
/// the best plan of a brake whose verdict is with trouble. Precondition: addFindings() was there.
[[nodiscard]] std::vector<Finding> spoiling(const PlanReport& report, const BrakeReport& brake, std::size_t plan);
/// Of the order over two brakes.
[[nodiscard]] std::vector<Finding> spoilingOverTwo(const PlanReport& report);

/// A person's own order on one brake.
struct BrakeTry {
    std::size_t brake = 0;  ///< into Shop::brakes
    TryResult result;
    std::vector<Finding> findings;                    ///< of part and brake; but for what the folds tell
    std::vector<std::vector<Finding>> fold_findings;  ///< of each step that goes
};

/// What a person's own order came to, on each brake asked about.
struct TryReport {
    const Part& part;
    const Shop& shop;
    BendMask formed = 0;
    std::vector<std::vector<BendId>> order;  ///< as asked
    std::vector<BrakeTry> brakes;
    std::vector<std::string> warnings;
    Pins pins = {};
    std::optional<MadeReport> made = std::nullopt;  ///< as in PlanReport
};

/// Fills in the findings of an order on a brake. `material`: as partFindings().
void addFindings(const TryReport& report, const Material* material, BrakeTry& tried);
/// What it spoils, as of a plan.
[[nodiscard]] std::vector<Finding> spoiling(const BrakeTry& tried, BendMask formed);

/// One verdict for several brakes, that of the best of them: feasible if any is, else with trouble, else undecided,
/// else infeasible. No brake at all is infeasible.
[[nodiscard]] Verdict overallVerdict(const std::vector<BrakeReport>& brakes);
[[nodiscard]] Verdict overallVerdict(const std::vector<BrakeTry>& brakes);
/// That of two brakes together when the part goes over them and on no single one, and no replay of that plan found
/// anything wrong.
[[nodiscard]] Verdict overallVerdict(const PlanReport& report);
/// It goes over two brakes, on no single one.
[[nodiscard]] bool goesOverTwo(const PlanReport& report);

}  // namespace tinwright
