// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/brake/shop/cutting.h>
#include <tinwright/brake/shop/tolerances.h>
#include <tinwright/part/allowance/measured_bends.h>

namespace tinwright {

/// What the shop allows, in mm and degrees.
struct Limits {
    double bar_gap_mm = 4.0;        ///< largest gap between neighbouring bars over the bend
    double uncovered_end_mm = 5.0;  ///< bend length past the last bar, at each end
    double clamped_land_mm = 6.0;   ///< least depth of sheet behind the nose line
    double leaf_land_mm = 2.0;      ///< least depth of sheet on the leaf, all through its swing; common practice, from
                                    ///< memory
    double past_machine_mm = 0.0;   ///< bend length past an end of bed and leaf, or bed and ram
    double clearance_mm = 0.5;      ///< wanted between things that must not touch; less is `tight`
    double plus_side_mm = 0.3;      ///< an inside width must be at least this much more than its bars
};

/// What handling costs, in milliseconds of shop time.
struct Times {
    long long hem_ms = 30'000;          ///< close hems after their fold: take the part round, press, take it out
    long long fold_ms = 20'000;         ///< one stroke: clamp, swing, return
    long long gauge_ms = 15'000;        ///< set the sight line under the nose, per fold
    long long gauge_formed_ms = 5'000;  ///< press brakes, extra for each formed bend between what lies against the back
                                        ///< gauge and the bend
    long long gauge_sight_ms = 30'000;  ///< press brakes with a back gauge, extra when nothing lies against it: scribe
                                        ///< a sight line and set by it
    long long piece_ms = 20'000;        ///< put in or take out one bar
    long long leaf_face_ms = 60'000;    ///< change the leaf's face
    long long packing_ms = 60'000;      ///< lay strips under the sheet and set the setback for them, for one fold; from
                                        ///< memory
    long long bar_packing_ms = 20'000;  ///< lay an offcut under the back of the bars, for one fold; from memory
    long long bar_clamps_ms = 40'000;   ///< a clamp at each end of the bars, on and off again; from memory
    long long tongs_ms = 10'000;        ///< take the part in tongs for one fold; from memory
    long long turn_ms = 8'000;          ///< turn the part in the plane of the bed
    long long flip_ms = 12'000;         ///< turn the other face up
    long long carry_ms = 180'000;       ///< carry the part to another brake and take it up there
    long long way_out_ms = 30'000;      ///< extra when parts or bars do not simply lift away
};

/// One brake owner's shop. Does not change once made.
struct Shop {
    std::string name;
    std::vector<Brake> brakes;
    Limits limits;
    Times times;
    Tolerances tolerances;
    Overbend overbend;               ///< of brakes that have none of their own
    MeasuredBends measured_bends;    ///< the shop's own test strips
    std::optional<Cutting> cutting;  ///< how it cuts its blanks; none: not said

    [[nodiscard]] const Overbend& overbendOf(const Brake& brake) const {
        return brake.overbend ? *brake.overbend : overbend;
    }
    [[nodiscard]] double overbendFor_deg(const std::string& material, const Brake& brake) const {
        return overbendOf(brake).of_deg(material);
    }
    /// The shop's tolerances as they bear on a part.
    [[nodiscard]] ToleranceBox tolerancesFor(const Part& part) const;
};

}  // namespace tinwright
