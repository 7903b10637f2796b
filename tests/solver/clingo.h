// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>
#include <optional>

#include <tinwright/sequence/proofs/constraint_problem.h>

namespace tinwright::test {

/// Whether the strokes and bans of the problem admit an order, by clingo: nothing but them is told to it. None: it took
/// too long.
[[nodiscard]] std::optional<bool> clingoAdmits(const ConstraintProblem& problem);

/// The best order by the steps and costs of the problem: what it surely spoils, what it may, 1 when some step of it is
/// tight, its time in ms, its steps with the larger side at the back gauge, its pieces. The part can be finished. None:
/// it took too long.
[[nodiscard]] std::optional<std::array<std::int64_t, 6>> clingoBest(const ConstraintProblem& problem);

}  // namespace tinwright::test
