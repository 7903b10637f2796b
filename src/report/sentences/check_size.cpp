// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/check_size.h"

#include <optional>

#include <fmt/format.h>

#include <tinwright/brake/shop/tolerances.h>
#include <tinwright/part/edges/leg_end.h>
#include <tinwright/part/model/bend_frame.h>

#include "words/words.h"

namespace tinwright::report {
namespace {

std::string withTolerance(double size_mm, std::optional<double> tolerance_mm) {
    return tolerance_mm ? fmt::format("{} ±{} mm", millimetres(size_mm), millimetres(*tolerance_mm))
                        : millimetres(size_mm) + " mm";
}

}  // namespace

std::vector<CheckSize> checkSizes(const Part& part, BendId id, BendMask formed_after, double inside_radius_mm,
                                  std::optional<CutProcess> process) {
    const Bend& bend = part.bend(id);
    std::vector<CheckSize> sizes;
    for (const Side side : {Side::kChild, Side::kParent}) {
        const std::optional<LegEnd> end = legEnd(part, id, side, formed_after);
        if (!end) continue;
        const double size = legSize_mm(part, id, *end, Face::kOutside, inside_radius_mm);
        const std::optional<double> tolerance = workingTolerance_mm(process, part.thickness_mm, size);
        const std::string what = end->bend ? "the outside of " + part.panel(end->beyond).name : "edge " + end->edge;
        sizes.push_back(
            {panelAt(bend, side), size, tolerance,
             fmt::format("{}: {}, from the outside of {} to {}", part.panel(panelAt(bend, side)).name,
                         withTolerance(size, tolerance), part.panel(panelAt(bend, opposite(side))).name, what)});
    }
    return sizes;
}

}  // namespace tinwright::report
