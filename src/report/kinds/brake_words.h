// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/brake/plan/reason.h>
#include <tinwright/report/data/fold_context.h>
#include <tinwright/sequence/remedies/remedies.h>
#include <tinwright/sequence/remedies/suit.h>

#include "kinds/brake_terms.h"

namespace tinwright::report {

/// What a kind of brake says its own way: words (`terms`) and whole sentences. Sentences that all kinds share are in
/// `sentences`, and take from here what differs in them.
class BrakeWords {
public:
    virtual ~BrakeWords() = default;
    BrakeWords(const BrakeWords&) = delete;
    BrakeWords& operator=(const BrakeWords&) = delete;

    const BrakeTerms& terms;

    /// Where the sides of the bends are: "base under the bars", "base at the back, left in front".
    [[nodiscard]] virtual std::string lies(const Part& part, const FoldStep& step) const = 0;
    /// The side held, in a sentence on a fold: "holding base", "base at the back".
    [[nodiscard]] virtual std::string side(const std::string& held) const = 0;
    /// The same of a fold that has it otherwise than another: "holds base", "has base at the back".
    [[nodiscard]] virtual std::string has(const std::string& held) const = 0;
    /// How the line of the bend is set.
    [[nodiscard]] virtual std::string gauging(const Part& part, const BrakeInSetup& brake,
                                              const FoldStep& step) const = 0;
    /// An angle of the stroke as its control has it: by how much the sheet is turned, between its sides, or both. In
    /// degrees, or to the degree (`about`).
    [[nodiscard]] virtual std::string angle(double turned_deg) const = 0;
    [[nodiscard]] std::string about(double turned_deg) const { return angle(std::round(turned_deg)); }
    /// That of a finished bend, to be measured: "turned from flat 90°".
    [[nodiscard]] virtual std::string finishedAngle(double turned_deg) const = 0;
    /// What is set besides the angle; follows it.
    [[nodiscard]] virtual std::string stroke(const BrakeInSetup& brake, const FoldStep& step) const = 0;

    /// Why a fold cannot be made, where the kind has a sentence of its own for it; empty: it has none.
    [[nodiscard]] virtual std::string why(const FoldContext& on, const Reason& reason) const = 0;
    /// The tools that do not cover a bend: "bars like G200".
    [[nodiscard]] virtual std::string toolsThatLack(const Brake& brake, const Uncovered& what) const = 0;

    /// Pieces that would lift a no, and where they come from.
    [[nodiscard]] virtual std::string newPieces(const std::vector<NewBar>& pieces) const = 0;
    [[nodiscard]] virtual std::string wantedPiece(const WantedBar& piece) const = 0;

    /// What of it is set up for a sheet, whatever is folded; empty: nothing.
    [[nodiscard]] virtual std::string setUp(const BrakeInSetup& brake, double thickness_mm, const Plan* plan) const = 0;
    /// The tools that stand at any time of a plan; empty where its folds tell enough.
    [[nodiscard]] virtual std::string toolsOfPlan(const BrakeInSetup& brake, const Plan& plan) const = 0;
    /// A fold's row in the table of set-ups, under terms.sheet.set_up_heads. `change`: of tools, from the fold before.
    [[nodiscard]] virtual std::array<std::string, 3> setUpCells(const Brake& brake, const FoldStep& step,
                                                                const std::string& change) const = 0;

protected:
    explicit BrakeWords(const BrakeTerms& its_terms) : terms(its_terms) {}
};

/// The words of a brake's kind. A new kind does not compile until it has its own.
[[nodiscard]] const BrakeWords& wordsFor(const Brake& brake);
[[nodiscard]] const BrakeWords& wordsOfKind(const LeafBrake& kind);
[[nodiscard]] const BrakeWords& wordsOfKind(const PressBrake& kind);

/// The pieces of a row from left to right: "G200 | G50".
[[nodiscard]] std::string standing(const Brake& brake, const FoldStep& step, ToolRow row);

}  // namespace tinwright::report
