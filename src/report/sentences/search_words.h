// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>
#include <tinwright/report/sentences/reason_words.h>

namespace tinwright::report {

/// "no order weighed takes less", or by how much less an order that was not looked at may take.
[[nodiscard]] std::string provenWords(const BrakeResult& result);

/// "folds 1 to 3, folds 5 and 6": runs of folds that may be made in any order; empty when there are none.
[[nodiscard]] std::string freeRuns(const Plan& plan);

/// What must be folded before what, and what stops it afterwards: one sentence each.
[[nodiscard]] std::vector<std::string> forcedWords(const FoldContext& on, const BrakeResult& result);

/// What is told of why no order works: the reasons of all causes one after the other, or, when no cause is known, of
/// the state in which the search got furthest.
[[nodiscard]] std::vector<const Reason*> toldReasons(const BrakeResult& result);

/// What is said of several causes, and of one.
[[nodiscard]] std::string causesWords(const FoldContext& on, const BrakeResult& result);

}  // namespace tinwright::report
