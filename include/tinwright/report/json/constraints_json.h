// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/part/model/part.h>
#include <tinwright/sequence/proofs/constraint_problem.h>

namespace tinwright {

/// A brake and the order problem of the part on it.
struct BrakeConstraints {
    std::string brake;
    ConstraintProblem problem;
};

/// The file of `plan --export-constraints`: format tinwright-constraints/1, described in
/// src/report/CONSTRAINTS_FORMAT.md.
[[nodiscard]] std::string constraintsJson(const Part& part, const std::vector<BrakeConstraints>& brakes);

}  // namespace tinwright
