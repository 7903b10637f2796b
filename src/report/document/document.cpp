// SPDX-License-Identifier: GPL-3.0-or-later
#include "document/document.h"

#include <algorithm>
#include <cctype>
#include <cstdlib>

#include <fmt/format.h>

#include "kinds/brake_words.h"
#include "remedies/needs_text.h"
#include "remedies/remedy_text.h"
#include "sentences/made_text.h"
#include "sentences/order_text.h"
#include "sentences/pin_words.h"
#include "sentences/screen_words.h"
#include "sentences/search_words.h"
#include "sentences/split_words.h"
#include "sentences/trouble_words.h"
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

/// Of the first of the brakes on which the part goes.
std::string troubleSentence(const PlanReport& report) {
    const auto brake = std::find_if(report.brakes.begin(), report.brakes.end(),
                                    [](const BrakeReport& one) { return one.result.verdict == Verdict::kWithTrouble; });
    if (report.source == OrderSource::kOwn) return "it spoils " + spoiltBrief(spoiling(report, *brake, 0));
    const char* which =
        brake->result.work.proven_best ? "every order spoils something: " : "the best order found spoils something: ";
    return which + spoiltBrief(spoiling(report, *brake, 0));
}

/// Of single brakes.
std::string verdictSentence(const PlanReport& report) {
    const Verdict verdict = overallVerdict(report.brakes);
    const std::string on = brakesWith(report, verdict);
    switch (verdict) {
        case Verdict::kFeasible:
            return "can be folded on " + on + asPinned(report.pins.any()) +
                   (onlyHolding(report) ? ", by orders that are shown to hold over the tolerances." : ".");
        case Verdict::kWithTrouble:
            return "can be folded on " + on + asPinned(report.pins.any()) + ", but " + troubleSentence(report) + ".";
        case Verdict::kInfeasible:
            return "cannot be folded on " + on + asPinned(report.pins.any()) + ": no order works." +
                   (report.pins.any() ? " " + withoutPinsWords(report) + "." : "");
        case Verdict::kUndecided: break;
    }
    return (onlyHolding(report) ? "is not shown to hold over the tolerances in any order on "
                                : "is neither shown to go nor shown not to on ") +
           on + asPinned(report.pins.any()) + ".";
}

std::string verdictLine(const PlanReport& report) {
    const std::string& part = report.part.name;
    if (!goesOverTwo(report)) {
        const bool none_so = report.pins.any() && report.verdict == Verdict::kInfeasible;
        return upper(toText(report.verdict) + asPinned(none_so)) + ": " + part + " " + verdictSentence(report);
    }
    const char* alone = overallVerdict(report.brakes) == Verdict::kInfeasible ? "works" : "is shown to work";
    const bool in_trouble = report.verdict == Verdict::kWithTrouble;
    const std::string spoils =
        in_trouble ? ", but the order spoils something: " + spoiltBrief(spoilingOverTwo(report)) : "";
    return fmt::format("FEASIBLE{} OVER TWO BRAKES: {} can be folded over {}{}{}. On one brake alone no order {}.",
                       in_trouble ? " WITH TROUBLE" : "", part, splitWords(report), asPinned(report.pins.any()), spoils,
                       alone);
}

std::string verdictOfIt(const PlanReport& report) {
    if (goesOverTwo(report)) {
        const bool in_trouble = report.verdict == Verdict::kWithTrouble;
        return "can be folded over two brakes, on no single one" +
               (in_trouble ? ", but the order spoils something: " + spoiltBrief(spoilingOverTwo(report)) : "");
    }
    if (report.source == OrderSource::kOwn)
        return "goes in the order given" +
               (report.verdict == Verdict::kWithTrouble ? ", but " + troubleSentence(report) : "");
    switch (report.verdict) {
        case Verdict::kFeasible: return "can be folded" + asPinned(report.pins.any());
        case Verdict::kWithTrouble:
            return "can be folded" + asPinned(report.pins.any()) + ", but " + troubleSentence(report);
        case Verdict::kInfeasible:
            return "cannot be folded" + asPinned(report.pins.any()) + ": no order works" +
                   (report.pins.any() ? ". " + withoutPinsWords(report) : "");
        case Verdict::kUndecided: break;
    }
    return "is undecided: no order is proven";
}

std::string countWords(const BrakeResult& result) {
    if (result.orders_feasible.empty() && result.orders_total.empty()) return "how many orders work is not known";
    const char* work = result.only_holding ? "orders are shown to hold" : "orders work";
    if (result.orders_feasible.empty()) return "how many of the " + result.orders_total + " orders work is not known";
    const std::string total = result.orders_total.empty() ? "an unknown number of" : result.orders_total;
    return fmt::format("{} of {} {}{}", result.orders_feasible, total, work, asPinned(result.as_pinned));
}

/// "bars packed at fold 2, tongs at folds 3 and 4".
std::string careOf(const Plan& plan) {
    std::vector<std::pair<std::string, std::vector<std::string>>> kinds;
    const auto add = [&](bool Care::*what, std::size_t fold) {
        if (!(plan.folds[fold].care.*what)) return;
        Care only;
        only.*what = true;
        const std::string words = careBrief(only);
        const auto known =
            std::find_if(kinds.begin(), kinds.end(), [&](const auto& kind) { return kind.first == words; });
        auto& kind = known == kinds.end() ? kinds.emplace_back(words, std::vector<std::string>()) : *known;
        kind.second.push_back(std::to_string(fold + 1));
    };
    for (std::size_t i = 0; i < plan.folds.size(); ++i) {
        for (bool Care::*what : {&Care::bars_packed, &Care::bars_clamped, &Care::in_tongs}) add(what, i);
    }
    std::string text;
    for (const auto& [words, folds] : kinds)
        text += fmt::format("{}{} at fold{} {}", text.empty() ? "" : "; ", words, folds.size() == 1 ? "" : "s",
                            listed(folds));
    return text;
}

PlanEntry planEntry(const Part& part, const Plan& plan, const PlanCheck* check, const std::vector<FoldActions>& actions,
                    std::vector<FoldEntry> folds) {
    PlanEntry entry{.plan = plan,
                    .order = orderList(part, plan),
                    .time = duration(plan.cost_ms),
                    .clearance = atLeastMillimetres(plan.worst_clearance_mm),
                    .care = careOf(plan),
                    .folds = std::move(folds)};
    for (const FoldActions& fold : actions) {
        entry.turns += fold.turned ? 1 : 0;
        entry.flips += fold.flipped ? 1 : 0;
        entry.pieces += fold.pieces;
    }
    if (check != nullptr) entry.replay = {check->checked, check->findings};
    return entry;
}

void tellSpoiling(std::vector<Finding> spoiling, PlanEntry& entry) {
    entry.spoiling = std::move(spoiling);
    if (!entry.spoiling.empty()) entry.spoils = spoiltBrief(entry.spoiling);
}

std::vector<PlanEntry> plansOf(const PlanReport& report, const BrakeReport& brake) {
    const FoldContext on = contextOf(report, brake);
    const std::size_t shown = brake.shownPlan() != nullptr ? brake.shown : 0;
    std::vector<PlanEntry> entries;
    for (std::size_t i = 0; i < brake.result.plans.size(); ++i) {
        const Plan& plan = brake.result.plans[i];
        const std::vector<FoldPlace> places = foldPlaces(plan.folds, report.formed);
        const std::vector<FoldActions> actions = foldActions(on.brake, plan.folds);
        std::vector<FoldEntry> folds;
        for (std::size_t f = 0; f < plan.folds.size(); ++f) {
            folds.push_back(foldEntry(on, plan.folds[f], places[f], actions[f]));
            if (i < brake.fold_findings.size()) folds.back().findings = brake.fold_findings[i][f];
        }
        const PlanCheck* check = i < brake.checks.size() ? &brake.checks[i] : nullptr;
        entries.push_back(planEntry(report.part, plan, check, actions, std::move(folds)));
        if (i < brake.fold_findings.size()) {
            tellSpoiling(spoiling(report, brake, i), entries.back());
        }
        entries.back().difference = nextBestLine(report.part, on.brake, brake.result.plans, i, shown);
    }
    return entries;
}

WhyNot whyNotOf(const FoldContext& on, const BrakeResult& result) {
    WhyNot why;
    why.title = "Why not" + asPinned(result.as_pinned);
    why.told = toldReasons(result);
    if (why.told.empty()) return why;
    if (result.causes.empty()) {
        why.causes.push_back({{}, sentencesOf(on, result.reasons)});
        if (result.verdict == Verdict::kInfeasible) {
            const std::vector<std::string> formed = bendNames(on.part, result.reasons.front().formed);
            why.got_furthest = "However it is begun" + asPinned(result.as_pinned) +
                               ", it comes to a stop. Furthest: with " + (formed.empty() ? "nothing" : listed(formed)) +
                               " folded, then:";
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

// Pins of order and holds are no part of it: it is geometry. The tools pinned are those that there are.
std::vector<Section> sectionsOfPlans(const PlanReport& report, const FoldContext& on, const BrakeResult& result) {
    std::vector<Section> sections;
    const char* with = report.pins.tools.any() ? " with the tools pinned" : "";
    Section forced{fmt::format("In every order that works{}", with), forcedWords(on, result), {}};
    if (!result.plans.empty() && !forced.lines.empty()) sections.push_back(std::move(forced));
    return sections;
}

std::vector<Section> sectionsOfBrake(const PlanReport& report, const BrakeReport& brake) {
    std::vector<Section> sections;
    if (!brake.remedies) return sections;
    Section remedies{remedyTitle(brake), remedyLines(report, *brake.remedies), {}, true};
    if (remedies.lines.empty() && goes(brake.result.verdict)) return sections;
    remedies.instead = noRemedyText(brake.result.brake, *brake.remedies);
    sections.push_back(std::move(remedies));
    return sections;
}

std::string timeToBest(const BrakeReport& brake) {
    const long long more_ms = brake.shownPlan()->cost_ms - brake.result.plans.front().cost_ms;
    if (more_ms == 0) return "as long as the best";
    return duration(std::abs(more_ms)) + (more_ms > 0 ? " more" : " less") + " than the best";
}

void addShown(const PlanReport& report, BrakeEntry& entry) {
    const BrakeReport& brake = entry.report;
    entry.others_title = "Next best";
    switch (report.source) {
        case OrderSource::kBest:
            entry.shown_title = "Best order";
            entry.proven = provenWords(brake.result);
            return;
        case OrderSource::kPicked:
            entry.shown_title = fmt::format("Order {} of {}", brake.shown + 1, brake.result.plans.size());
            entry.others_title = "Other orders";
            if (brake.shownPlan() != nullptr) entry.proven = timeToBest(brake);
            return;
        case OrderSource::kOwn: entry.shown_title = "Your order"; return;
    }
}

BrakeEntry brakeEntry(const PlanReport& report, const BrakeReport& brake) {
    const FoldContext on = contextOf(report, brake);
    const BrakeResult& result = brake.result;
    BrakeEntry entry{brake, on, countWords(result), {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}};
    const BrakeWords& kind = wordsFor(*on.brake);
    const Plan* const shown = brake.shownPlan();
    entry.set_up = kind.setUp(on.brake, report.part.thickness_mm, shown);
    if (shown != nullptr) {
        entry.tools = kind.toolsOfPlan(on.brake, *shown);
        entry.free_runs = freeRuns(*shown);
    }
    addShown(report, entry);
    entry.verdict = toText(result.verdict) + asPinned(result.as_pinned && result.verdict == Verdict::kInfeasible);
    entry.without_pins = withoutPinsWords(result);
    entry.plans = plansOf(report, brake);
    entry.of_plans = sectionsOfPlans(report, on, result);
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
        if (f < report.split_findings.size()) folds.back().findings = report.split_findings[f];
        folds.back().is_carried_to = f == 0 || split.brake_of_fold[f] != split.brake_of_fold[f - 1];
    }
    const PlanCheck* check = report.split_check ? &*report.split_check : nullptr;
    SplitEntry entry{split, planEntry(report.part, split.plan, check, actions, std::move(folds)), splitWords(report),
                     duration(static_cast<long long>(split.times_carried) * report.shop.times.carry_ms)};
    if (!report.split_findings.empty()) tellSpoiling(spoilingOverTwo(report), entry.plan);
    return entry;
}

bool anyFailed(const std::vector<BrakeEntry>& brakes) {
    return std::any_of(brakes.begin(), brakes.end(), [](const BrakeEntry& brake) {
        return std::any_of(brake.report.checks.begin(), brake.report.checks.end(),
                           [](const PlanCheck& check) { return check.checked && !check.findings.empty(); });
    });
}

}  // namespace

std::vector<const PlanEntry*> BrakeEntry::others() const {
    std::vector<const PlanEntry*> others;
    for (std::size_t i = 0; i < plans.size(); ++i) {
        if (i != report.shown) others.push_back(&plans[i]);
    }
    return others;
}

PlanDocument planDocument(const PlanReport& report) {
    PlanDocument document{report, {}, {}, {}, {}, false, {}, {}, {}, {}, {}, {}, {}, {}};
    document.sheet = fmt::format("{:.4g} mm {}, {}", report.part.thickness_mm, report.part.material,
                                 counted(report.part.bends.size(), "bend"));
    document.verdict = verdictLine(report);
    document.verdict_of_it = verdictOfIt(report);
    document.pinned = joined(pinWords(report), "; ");
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
