// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/part/model/part.h>

namespace tinwright {

/// A folded section as a chain of flat lengths: what a person draws on the back of an envelope.
struct Section {
    std::string name = "section";
    std::string material = "mild-steel";
    std::vector<double> flats_mm;    ///< n + 1 flat lengths between bends, each over 0
    std::vector<double> angles_deg;  ///< n bends: turned from flat, positive up, negative down; 0 < |a| < 180
    double thickness_mm = 1.5;
    double inside_radius_mm = 1.5;
    double allowance_mm = 0;  ///< strip of every bend; 0: by the k-factor 0.44
    double length_mm = 100;   ///< of the part along its bends (blank x)
};

/// The part itself: blank x along the bends from 0 to length, y up the chain from 0. Panels "p0", "p1", ... (p0 the
/// base), bend "b1" between p0 and p1 and so on; edges "p0.start", "p<n>.end", "p<i>.left" (x = 0), "p<i>.right". A
/// broken rule of the struct above is a programmer's error.
[[nodiscard]] Part sectionPart(const Section& section);

}  // namespace tinwright
