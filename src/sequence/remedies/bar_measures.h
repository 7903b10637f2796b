// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// A length of a part that bars have to do with. Parts with the same panels and bends give the same list, whatever
/// their dimensions.
struct BarMeasure {
    enum class Kind {
        kBetweenWalls,  ///< clear between two walls that stand on one panel, at their inside faces
        kBend,          ///< of a bend line, from its first end to its last
    };
    Kind kind = Kind::kBend;
    double mm = 0;
};

/// `radius_mm`: that the bends take.
[[nodiscard]] std::vector<BarMeasure> barMeasures(const Part& part, double radius_mm);

/// Lengths at which what the bars can do changes: a string just comes between two walls, with the clearance or without,
/// or just covers a bend. Ascending, from `least_mm` to `most_mm`.
[[nodiscard]] std::vector<double> turningLengths_mm(const BrakeInSetup& brake, const Limits& limits,
                                                    BarMeasure::Kind kind, double least_mm, double most_mm);

}  // namespace tinwright
