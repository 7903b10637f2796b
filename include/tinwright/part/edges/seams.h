// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/part/model/part.h>

namespace tinwright {

/// How two panels meet at a seam.
enum class SeamKind {
    kButt,          ///< edge to edge in one plane
    kOpenCorner,    ///< edge to edge at an angle, the inside corners towards one another: the weld fills the groove
                    ///< outside
    kLappedCorner,  ///< `a` runs on over the edge of `b`
    kPartLapped,    ///< `a` covers a part of the edge of `b`
    kLap,           ///< `a` lies flat on `b`
    kOnFace,        ///< an edge of `a` stands on the face of `b`
};
[[nodiscard]] const char* toText(SeamKind kind);  ///< "butt", "open corner", "lapped corner", "part-lapped corner",
                                                  ///< "lap", "edge on face"

/// Where two panels that no bend joins come together in the folded part, so that they can be welded.
struct Seam {
    SeamKind kind = SeamKind::kButt;
    PanelId a;
    PanelId b;
    std::vector<std::string> edges;  ///< that meet: named edges, else the panel's name; of `a` first
    double length_mm = 0;            ///< over which they lie beside one another; of a lap that of all its edges
    double least_gap_mm = 0;         ///< between the two sheets along it; 0 when they touch or enter one another
    double most_gap_mm = 0;
    double angle_deg = 180;  ///< between the two panels, measured inside; 180 in one plane
};

/// A gap that a weld bridges without a filler piece: max(3 mm, 2 t) (common practice, generous).
[[nodiscard]] double bridgedGap_mm(double thickness_mm);

/// All seams of at least 5 mm with every bend at its angle, in the order of their panels: edges that come within 8 mm
/// of one another and lie within 10 degrees of parallel, edges within bridgedGap_mm() of a face. Edges that faced one
/// another in the blank already and still do (a slit between two tabs) are none. Edges of bend strips are left out.
[[nodiscard]] std::vector<Seam> weldSeams(const Part& part);

}  // namespace tinwright
