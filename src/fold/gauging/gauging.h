// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/brake/shop/tolerances.h>

#include <map>
#include <tuple>

#include "gauging/gauge_faces.h"
#include "setup/placed.h"

namespace tinwright {

/// Chooses what lies against the fingers of a press brake's back gauge before a stroke (NOTES.md, "Back gauge").
class Gauging {
public:
    explicit Gauging(ContactCache& table) : table_(table), faces_(table.bodies().part()) {}

    /// A stop, or why there is none.
    [[nodiscard]] GaugeChoice choose(const StrokeScene& scene, const Placed& placed, const ToleranceBox& box);

private:
    struct Stand {        // fingers that touch a face
        double z_mm = 0;  // of their underside
        std::vector<Interval> at;
    };
    [[nodiscard]] std::optional<Stand> standAt(const GaugeFace& face, const StrokeScene& scene, const Placed& placed);
    [[nodiscard]] IntervalSet barred(const GaugeFace& face, double z_mm, const StrokeScene& scene,
                                     const Placed& placed);
    void barTools(const Polygon& room, const Placed& placed, IntervalSet& barred) const;
    /// The same of the part alone, kept: it is asked with one set-up after the other.
    const IntervalSet& barredByPart(const Polygon& room, const StrokeScene& scene);
    void barPart(const Polygon& room, const StrokeScene& scene, IntervalSet& barred);
    [[nodiscard]] GaugeStop stopOf(const GaugeFace& face, const Stand& stand, const StrokeScene& scene,
                                   const ToleranceBox& box) const;
    [[nodiscard]] double tolerance_mm(const GaugeFace& face, const Stand& stand, const StrokeScene& scene,
                                      const ToleranceBox& box) const;
    [[nodiscard]] const BackGauge& gauge() const { return *table_.machine().gauge(); }

    ContactCache& table_;
    GaugeFaces faces_;
    std::map<std::tuple<BendMask, BendMask, Side, double, double>, IntervalSet> by_part_;  // by stroke, front and
                                                                                           // height of the room
};

}  // namespace tinwright
