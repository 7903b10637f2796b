// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include <tinwright/base/stroke.h>
#include <tinwright/part/allowance/allowance.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// Where the leg of a bend ends, as a person measures it from the bend out: at a straight edge along the bend, or at
/// the next formed bend along it.
struct LegEnd {
    double at_mm = 0;  ///< from the bend line, in the blank: to the edge, or to where the strip of `bend` begins
    std::optional<BendId> bend;  ///< none: an edge
    PanelId beyond;              ///< behind `bend`
    std::string edge;            ///< its name, when there is no bend
};

/// Past bends that are still flat the leg goes on: the sheet runs straight through them. None: no straight edge along
/// the bend of at least 5 mm, which a calliper needs. `formed`: bends that are folded, this one whether or not.
[[nodiscard]] std::optional<LegEnd> legEnd(const Part& part, BendId bend, Side side, BendMask formed);

/// What a person measures of that leg in the folded part: from the face of the panel on the other side of the bend to
/// the edge, or to that face of what is folded at the end. Faces as setback_mm() has them. With `inside_radius_mm` >= 0
/// bends but hems have that radius instead of their own (what a nose gives them).
[[nodiscard]] double legSize_mm(const Part& part, BendId bend, const LegEnd& end, Face face,
                                double inside_radius_mm = -1.0);

/// The setback of a bend as it ends up, with the radius as above.
[[nodiscard]] double bendSetback_mm(const Bend& bend, double thickness_mm, Face face, double inside_radius_mm = -1.0);

}  // namespace tinwright
