// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "document/fold_entry.h"
#include "sentences/reason_text.h"

/// All that a plan report says, worked out once. Text, sheet and JSON walk it: they set it each in their own way, and
/// decide and derive nothing of it themselves. Where their words differ both are here.
namespace tinwright::report {

/// A title and sentences under it.
struct Section {
    std::string title;
    std::vector<std::string> lines;
    std::string instead;      ///< said where there are no lines
    bool is_ordered = false;  ///< the first is the one to be tried first
};

/// What an independent replay said.
struct ReplayEntry {
    bool checked = false;
    std::vector<std::string> findings;
    [[nodiscard]] bool failed() const { return checked && !findings.empty(); }
};

/// An order with its folds.
struct PlanEntry {
    const Plan& plan;
    std::string order = {};              ///< "a, b+c, d"
    std::string time = {};               ///< "6 min 20 s"
    std::string clearance = {};          ///< in mm, rounded down: "1.2"
    std::vector<Finding> spoiling = {};  ///< the graver first
    std::string spoils = {};             ///< "window: face folds at ...; and 2 more"; empty: nothing
    std::string care = {};               ///< "bars packed at fold 2"; empty: none
    std::size_t turns = 0;               ///< in the plane of the bed
    std::size_t flips = 0;
    std::size_t pieces = 0;       ///< put in, taken out or shifted
    std::string difference = {};  ///< of the next best: rank, time, clearance, and in what it differs
    ReplayEntry replay = {};
    std::vector<FoldEntry> folds = {};
};

/// One of the causes that no order works, or all that is known when no cause is.
struct CauseEntry {
    std::string title;  ///< "Cause 2"; empty when it is the only one
    std::vector<ReasonSentence> sentences;
};

/// Why no order works.
struct WhyNot {
    std::string title;                ///< "Why not", "Why not as pinned"
    std::vector<const Reason*> told;  ///< one after the other, those of causes by cause
    std::vector<CauseEntry> causes;
    std::string introduction;  ///< what holds of the causes
    std::string got_furthest;  ///< when none is known and it is proven: where the search stopped
};

/// What becomes of the part on one brake.
struct BrakeEntry {
    const BrakeReport& report;
    FoldContext on;
    std::string count;      ///< "2 of 6 orders work"
    std::string set_up;     ///< what is set up for the sheet, whatever is folded: the V of a press brake
    std::string tools;      ///< of the plan shown
    std::string proven;     ///< of the plan shown: "no order weighed takes less", "8 s more than the best"; may be
                            ///< empty
    std::string free_runs;  ///< "folds 1 to 3": of the plan shown
    std::vector<PlanEntry> plans;   ///< the best first
    std::vector<Section> of_plans;  ///< what is said of all orders that work
    WhyNot why_not;
    std::vector<Section> of_brake;  ///< what else is said, last
    std::vector<std::string> cautions;
    std::string verdict;       ///< "feasible", "infeasible as pinned"
    std::string without_pins;  ///< when no order works as pinned: whether one does without
    std::string shown_title;   ///< "Best order", "Order 2 of 3", "Your order"
    std::string others_title;  ///< "Next best": of the plans that are told in short
    [[nodiscard]] const BrakeResult& result() const { return report.result; }
    /// The plan that is told fold by fold. Precondition: there is one.
    [[nodiscard]] const PlanEntry& shown() const { return plans[report.shown]; }
    /// Lines of the others.
    [[nodiscard]] std::vector<const PlanEntry*> others() const;
};

/// An order over two brakes.
struct SplitEntry {
    const SplitPlan& split;
    PlanEntry plan;
    std::string words;     ///< which brakes, how often the part is carried, how long it takes
    std::string carrying;  ///< time of it
};

struct PlanDocument {
    const PlanReport& report;
    std::string sheet;           ///< "1.5 mm mild-steel, 2 bends"
    std::string verdict;         ///< "FEASIBLE: channel can be folded on finger."
    std::string verdict_of_it;   ///< "can be folded": what this part is or can
    std::string pinned;          ///< what a person has settled, in one line; empty: nothing
    bool replay_failed = false;  ///< of some plan
    std::vector<BrakeEntry> brakes;
    std::optional<SplitEntry> split;
    Section as_made;                ///< what came out otherwise than drawn
    Section made_cures;             ///< what may be done about that
    Section side_by_side;           ///< a line for each brake, when there are several
    Section needs;                  ///< machines that would make it
    std::vector<Finding> findings;  ///< of part and brakes, the graver first
    std::vector<std::string> cautions;
};

/// Refers to the report, which outlives it.
[[nodiscard]] PlanDocument planDocument(const PlanReport& report);

}  // namespace tinwright::report
