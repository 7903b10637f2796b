// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/model/part.h>

/// The part as it is when folds came out otherwise than drawn. The model: src/part/made/NOTES.md.
namespace tinwright {

/// A formed bend, and what was measured of it.
struct MadeBend {
    BendId bend;
    std::optional<double> outside_mm;  ///< of the flange beyond it: to its free edge, or to the outside of its next
                                       ///< formed bend
    std::optional<Angle> angle;        ///< turned from flat
};

/// Finite and from 0.01 to 20 000 mm is what a size may be at all.
inline constexpr double kLeastMade_mm = 0.01;
inline constexpr double kMostMade_mm = 20'000;

/// The drawn part with the strips of these bends where they lie now; all else of the blank stays, names too.
/// `formed`: bends that are folded; those of `made` are, whether named there or not. `inside_radius_mm`: as
/// legSize_mm(). A bend is given once. Issues, each with the bend's name in `place`: "made.angle" (out of range, or of
/// a hem), "made.size" (out of range, or less than the bends take), "made.edge" (nothing to measure to), "made.sheet"
/// (no sheet where the strip would lie), "made.panel" (nothing left of a panel, or it falls apart), "made.strip" (it
/// runs into another bend, or takes its panel away). Sheet that is not cut free as far as a strip lies now is told in
/// the part's warnings.
[[nodiscard]] Result<Part> asMade(const Part& drawn, const std::vector<MadeBend>& made, BendMask formed,
                                  double inside_radius_mm = -1.0);

}  // namespace tinwright
