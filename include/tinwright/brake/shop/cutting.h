// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

namespace tinwright {

enum class CutProcess { kPlasma, kLaser, kShearAndDrill };
[[nodiscard]] const char* toText(CutProcess process);  ///< "plasma", "laser", "shear-and-drill"

/// Width of the cut in one thickness of sheet.
struct Kerf {
    double thickness_mm = 0;
    double kerf_mm = 0;
    std::optional<double> current_a;  ///< cutting current; none: not said
};

/// A least size that grows with the sheet: the larger of both.
struct LeastSize {
    double times_thickness = 0;
    double at_least_mm = 0;
    [[nodiscard]] double forThickness_mm(double thickness_mm) const;
};

/// Where the rough edge of the cut comes out.
enum class Dross { kBackFace, kDrawnFace, kNone };

/// How the shop cuts its blanks. Does not change once made. cuttingOf() gives the defaults of a process.
struct Cutting {
    CutProcess process = CutProcess::kPlasma;
    std::vector<Kerf> kerfs;             ///< ascending by thickness; empty: nobody has measured
    LeastSize smallest_hole;             ///< diameter; smaller ones are drilled
    double inside_radius_mm = 0;         ///< that a sharp inside corner comes out with
    LeastSize least_web;                 ///< sheet between two cuts
    double pilot_drill_mm = 3.0;         ///< first drill of the drill list
    std::optional<double> cut_under_mm;  ///< pilots of the drill list are cut this much smaller than the hole; none:
                                         ///< only marked
    Dross dross = Dross::kBackFace;

    /// Width of the cut at a thickness: as measured up to a tenth off it, in proportion between two; nothing outside,
    /// never guessed.
    [[nodiscard]] std::optional<double> kerf_mm(double thickness_mm) const;
};

/// What a process does unless the shop says otherwise:
/// plasma: holes from 1.5 t, webs from 1.5 t, corner radius 1 mm (published guidance of a cutting service), nothing
/// under 3 mm (from memory); laser: holes and webs from 1 t, corner radius 0.3 mm (from memory), no dross to speak of;
/// shear and drill: every hole is drilled, webs from 1 t (a rule for pierced holes), corners square by saw or nibbler
/// (common practice).
[[nodiscard]] Cutting cuttingOf(CutProcess process);

}  // namespace tinwright
