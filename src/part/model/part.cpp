// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/model/part.h>

#include <algorithm>

#include <tinwright/base/contract.h>

namespace tinwright {

Bend finished(const Bend& bend) {
    Bend closed = bend;
    if (!bend.hem) return closed;
    closed.angle = Angle::degrees(180);
    closed.inside_radius_mm = 0.5 * bend.hem->gap_mm;
    closed.allowance_mm = bend.hem->allowance_mm;
    return closed;
}

double stripLength_mm(const Bend& bend) {
    double length_mm = 0;
    for (const StripSpan& span : bend.spans) length_mm += span.length_mm();
    return length_mm;
}

double stripExtent_mm(const Bend& bend) { return bend.spans.back().to_mm - bend.spans.front().from_mm; }

bool hasHems(const Part& part) {
    return std::any_of(part.bends.begin(), part.bends.end(), [](const Bend& bend) { return bend.hem.has_value(); });
}

BendMask allFormed(const Part& part) {
    TINWRIGHT_REQUIRE(part.bends.size() <= kMaxBends, "a part has at most 64 bends");
    return part.bends.size() == kMaxBends ? ~BendMask{0} : (BendMask{1} << part.bends.size()) - 1;
}

}  // namespace tinwright
