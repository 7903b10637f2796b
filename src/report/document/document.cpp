// SPDX-License-Identifier: GPL-3.0-or-later
#include "document/document.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "kinds/brake_words.h"
#include "remedies/needs_text.h"
#include "remedies/remedy_text.h"
#include "sentences/made_text.h"
#include "sentences/order_text.h"
#include "sentences/screen_words.h"
#include "sentences/search_words.h"
#include "sentences/split_words.h"
#include "words/safety_text.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

std::string upper(std::string text) {
    for (char& c : text) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return text;
}

std::string brakesWith(const PlanReport& report, Verdict verdict) {
    std::vector<std::string> names;
    for (const BrakeReport& brake : report.brakes) {
        if (brake.result.verdict == verdict) names.push_back(brake.result.brake->name);
    }
    return listed(names);
}

bool onlyHolding(const PlanReport& report) {
    return std::any_of(report.brakes.begin(), report.brakes.end(),
                       [](const BrakeReport& brake) { return brake.result.only_holding; });
}

/// Of single brakes.
std::string verdictSentence(const PlanReport& report) {
    const Verdict verdict = overallVerdict(report.brakes);
    const std::string on = brakesWith(report, verdict);
    switch (verdict) {
        case Verdict::kFeasible:
            return "can be folded on " + on +
                   (onlyHolding(report) ? ", by orders that are shown to hold over the tolerances." : ".");
        case Verdict::kInfeasible: return "cannot be folded on " + on + ": no order works.";
        case Verdict::kUndecided: break;
    }
    return (onlyHolding(report) ? "is not shown to hold over the tolerances in any order on "
                                : "is neither shown to go nor shown not to on ") +
           on + ".";
}

std::string verdictLine(const PlanReport& report) {
    const std::string& part = report.part.name;
    if (!goesOverTwo(report)) return upper(toText(report.verdict)) + ": " + part + " " + verdictSentence(report);
    const char* alone = overallVerdict(report.brakes) == Verdict::kInfeasible ? "works" : "is shown to work";
    return fmt::format("FEASIBLE OVER TWO BRAKES: {} can be folded over {}. On one brake alone no order {}.", part,
                       splitWords(report), alone);
}

std::string verdictOfIt(const PlanReport& report) {
    if (goesOverTwo(report)) return "can be folded over two brakes, on no single one";
    switch (report.verdict) {
        case Verdict::kFeasible: return "can be folded";
        case Verdict::kInfeasible: return "cannot be folded: no order works";
        case Verdict::kUndecided: break;
    }
    return "is undecided: no order is proven";
}

std::string countWords(const BrakeResult& result) {
    if (result.orders_feasible.empty() && result.orders_total.empty()) return "how many orders work is not known";
    const char* work = result.only_holding ? "orders are shown to hold" : "orders work";
    if (result.orders_feasible.empty()) return "how many of the " + result.orders_total + " orders work is not known";
    const std::string total = result.orders_total.empty() ? "an unknown number of" : result.orders_total;
    return fmt::format("{} of {} {}", result.orders_feasible, total, work);
}

PlanEntry planEntry(const Part& part, const Plan& plan, const PlanCheck* check, std::vector<FoldEntry> folds) {
    PlanEntry entry{
        plan, orderList(part, plan), duration(plan.cost_ms), atLeastMillimetres(plan.worst_clearance_mm), {},
        {},   std::move(folds)};
    if (check != nullptr) entry.replay = {check->checked, check->findings};
    return entry;
}

std::vector<PlanEntry> plansOf(const PlanReport& report, const BrakeReport& brake) {
    const FoldContext on = contextOf(report, brake);
    std::vector<PlanEntry> entries;
    for (std::size_t i = 0; i < brake.result.plans.size(); ++i) {
        const Plan& plan = brake.result.plans[i];
        const std::vector<FoldPlace> places = foldPlaces(plan.folds, report.formed);
        const std::vector<FoldActions> actions = foldActions(on.brake, plan.folds);
        std::vector<FoldEntry> folds;
        for (std::size_t f = 0; f < plan.folds.size(); ++f) {
            folds.push_back(foldEntry(on, plan.folds[f], places[f], actions[f]));
            // Findings are those of the best plan.
            if (i == 0 && f < brake.fold_findings.size()) folds.back().findings = brake.fold_findings[f];
        }
        const PlanCheck* check = i < brake.checks.size() ? &brake.checks[i] : nullptr;
        entries.push_back(planEntry(report.part, plan, check, std::move(folds)));
        if (i > 0) entries.back().difference = nextBestLine(report.part, on.brake, brake.result.plans, i);
    }
    return entries;
}

WhyNot whyNotOf(const FoldContext& on, const BrakeResult& result) {
    WhyNot why;
    why.told = toldReasons(result);
    if (why.told.empty()) return why;
    if (result.causes.empty()) {
        why.causes.push_back({{}, sentencesOf(on, result.reasons)});
        if (result.verdict == Verdict::kInfeasible) {
            const std::vector<std::string> formed = bendNames(on.part, result.reasons.front().formed);
            why.got_furthest = "However it is begun, it comes to a stop. Furthest: with " +
                               (formed.empty() ? "nothing" : listed(formed)) + " folded, then:";
        }
        return why;
    }
    why.introduction = causesWords(on, result);
    for (std::size_t i = 0; i < result.causes.size(); ++i) {
        const std::string title = result.causes.size() > 1 ? fmt::format("Cause {}", i + 1) : std::string();
        why.causes.push_back({title, sentencesOf(on, result.causes[i].reasons)});
    }
    return why;
}

std::vector<Section> sectionsOfPlans(const FoldContext& on, const BrakeResult& result) {
    std::vector<Section> sections;
    Section forced{"In every order that works", forcedWords(on, result), {}};
    if (!result.plans.empty() && !forced.lines.empty()) sections.push_back(std::move(forced));
    return sections;
}

std::vector<Section> sectionsOfBrake(const PlanReport& report, const BrakeReport& brake) {
    std::vector<Section> sections;
    if (!brake.remedies) return sections;
    Section remedies{remedyTitle(brake), remedyLines(report, *brake.remedies), {}, true};
    if (remedies.lines.empty() && brake.result.verdict == Verdict::kFeasible) return sections;
    remedies.instead = noRemedyText(brake.result.brake, *brake.remedies);
    sections.push_back(std::move(remedies));
    return sections;
}

BrakeEntry brakeEntry(const PlanReport& report, const BrakeReport& brake) {
    const FoldContext on = contextOf(report, brake);
    const BrakeResult& result = brake.result;
    BrakeEntry entry{brake, on, countWords(result), {}, {}, provenWords(result), {}, {}, {}, {}, {}, {}};
    const BrakeWords& kind = wordsFor(*on.brake);
    entry.set_up =
        kind.setUp(on.brake, report.part.thickness_mm, result.plans.empty() ? nullptr : &result.plans.front());
    if (!result.plans.empty()) {
        entry.tools = kind.toolsOfPlan(on.brake, result.plans.front());
        entry.free_runs = freeRuns(result.plans.front());
    }
    entry.plans = plansOf(report, brake);
    entry.of_plans = sectionsOfPlans(on, result);
    entry.why_not = whyNotOf(on, result);
    entry.of_brake = sectionsOfBrake(report, brake);
    entry.cautions = cautions({kindOf(*on.brake)});
    return entry;
}

SplitEntry splitEntry(const PlanReport& report) {
    const SplitPlan& split = *report.split;
    const std::vector<FoldPlace> places = foldPlaces(split, report.formed);
    std::vector<BrakeInSetup> brakes;
    for (const std::size_t brake : split.brake_of_fold) brakes.push_back(split.setupOf(brake));
    const std::vector<FoldActions> actions = foldActions(brakes, split.plan.folds);
    std::vector<FoldEntry> folds;
    for (std::size_t f = 0; f < split.plan.folds.size(); ++f) {
        const FoldContext on{report.part, report.shop, split.setupOf(split.brake_of_fold[f])};
        folds.push_back(foldEntry(on, split.plan.folds[f], places[f], actions[f]));
        folds.back().is_carried_to = f == 0 || split.brake_of_fold[f] != split.brake_of_fold[f - 1];
    }
    const PlanCheck* check = report.split_check ? &*report.split_check : nullptr;
    return {split, planEntry(report.part, split.plan, check, std::move(folds)), splitWords(report),
            duration(static_cast<long long>(split.times_carried) * report.shop.times.carry_ms)};
}

bool anyFailed(const std::vector<BrakeEntry>& brakes) {
    return std::any_of(brakes.begin(), brakes.end(), [](const BrakeEntry& brake) {
        return std::any_of(brake.report.checks.begin(), brake.report.checks.end(),
                           [](const PlanCheck& check) { return check.checked && !check.findings.empty(); });
    });
}

}  // namespace

PlanDocument planDocument(const PlanReport& report) {
    PlanDocument document{report, {}, {}, {}, false, {}, {}, {}, {}, {}, {}, {}, {}};
    document.sheet = fmt::format("{:.4g} mm {}, {}", report.part.thickness_mm, report.part.material,
                                 counted(report.part.bends.size(), "bend"));
    document.verdict = verdictLine(report);
    document.verdict_of_it = verdictOfIt(report);
    std::vector<MachineKind> kinds;
    for (const BrakeReport& brake : report.brakes) {
        document.brakes.push_back(brakeEntry(report, brake));
        kinds.push_back(kindOf(*document.brakes.back().on.brake));
    }
    document.replay_failed =
        anyFailed(document.brakes) || (report.split_check && !report.split_check->findings.empty());
    if (report.split) document.split.emplace(splitEntry(report));
    if (report.made) {
        document.as_made = {kMadeTitle, madeLines(report.part, *report.made, report.formed), {}};
        document.made_cures = {kMadeCureTitle, madeCures(report.part, *report.made), {}};
    }
    document.side_by_side = {"Brakes side by side", sideBySide(report), {}};
    document.needs = {"A machine that would make it, each planned with these figures", needsLines(report), {}};
    document.findings = allFindings(report);
    document.cautions = cautions(kinds);
    return document;
}

}  // namespace tinwright::report
