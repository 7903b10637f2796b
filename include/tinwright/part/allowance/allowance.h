// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include <tinwright/base/angle.h>
#include <tinwright/base/result.h>
#include <tinwright/part/allowance/measured_bends.h>
#include <tinwright/part/model/part.h>

/// How much sheet a bend takes. Everywhere `angle` is turned from flat (0 = flat, 90 = square), `inside_radius_mm` is
/// r, `thickness_mm` is t (DIN: s). None of these functions rounds: DIN's rounding up is for a printed length, never
/// geometry.
namespace tinwright {

/// Neutral fibre at r + k t, length (r + k t) times the angle in radians. Textbook form, e.g. Groover eq. 19.6.
[[nodiscard]] double kFactorAllowance_mm(Angle angle, double inside_radius_mm, double thickness_mm, double k);

/// DIN 6935's factor: 0.65 + 0.5 log10(r/s), and 1 for r/s over 5. Its neutral fibre is at r + k s/2, so it is
/// twice a k-factor. Needs r > 0. Negative for r/s under about 0.05, where the rule means nothing.
[[nodiscard]] double din6935Factor(double inside_radius_mm, double thickness_mm);

/// DIN 6935's compensation v: length = sum of legs - v, legs measured to the outer apex up to 90° and to the tangent
/// line of the outer arc past 90°. For bends under 15° the standard sets v = 0.
[[nodiscard]] double din6935Compensation_mm(Angle angle, double inside_radius_mm, double thickness_mm);

/// The strip that belongs to DIN's compensation: the arc at r + k s/2; under 15°, where v = 0, twice the outside
/// setback.
[[nodiscard]] double din6935Allowance_mm(Angle angle, double inside_radius_mm, double thickness_mm);

/// (0.01743 R + 0.0078 T) N with N in degrees: FAA-H-8083-31 chapter 4.
[[nodiscard]] double handbookAllowance_mm(Angle angle, double inside_radius_mm, double thickness_mm);

/// Which two faces a dimension runs to. Only mould lines of the folded part are meant, never the flat sheet.
enum class Face { kInside, kOutside };

/// Distance along a leg from the start of the bend (its tangent line) to the point its dimension is measured to:
/// up to 90° the apex where the two inside (outside) faces would meet, r tan(A/2) or (r + t) tan(A/2); past
/// 90°, where the apex runs away, the plane that touches the inside (outside) of the arc square to the leg: r or r + t.
/// The two agree at 90°. Same leg convention as DIN 6935.
[[nodiscard]] double setback_mm(Face face, Angle angle, double inside_radius_mm, double thickness_mm);

/// Two outside setbacks less the allowance: what is taken off the sum of the outside dimensions.
[[nodiscard]] double bendDeduction_mm(Angle angle, double inside_radius_mm, double thickness_mm, double allowance_mm);

/// The radius on which the sheet keeps its length: allowance / angle.
[[nodiscard]] double neutralRadius_mm(Angle angle, double allowance_mm);

/// The rule that a recipe names.
struct AllowanceChoice {
    AllowanceRule rule = AllowanceRule::kKFactor;
    double k = 0.44;                             ///< kKFactor only, or as the fallback: 0 <= k <= 1
    std::optional<AllowanceRule> fallback = {};  ///< kMeasured: for bends that the table does not reach; none: they are
                                                 ///< an error. Never kMeasured
    std::string tool = {};                       ///< kMeasured: as MeasuredQuery::tool
    std::shared_ptr<const MeasuredBends> measured = {};  ///< kMeasured: the shop's table; none: no shop was given

    friend bool operator==(const AllowanceChoice&, const AllowanceChoice&) = default;
};

/// What a rule gave for one bend.
struct Allowance {
    double allowance_mm = 0;
    AllowanceRule rule = AllowanceRule::kKFactor;  ///< that was used: the choice's, or its fallback
    double rule_value = 0;                         ///< as Bend::rule_value
    std::string rule_source;                       ///< as Bend::rule_source
    std::string warning;  ///< empty, or that the neutral radius lies outside [r, r + t], or that a fallback was used,
                          ///< with both numbers
};

/// A closed hem (180° round nothing) has its neutral fibre in the middle of the sheet whatever the rule, so that two
/// outside dimensions lose (2 - π/2) t = 0.43 t, as hem tables have it (common practice, from memory). Issue
/// "allowance.zero-radius" for DIN 6935 with r = 0 (its logarithm has no value), "allowance.negative" when a rule gives
/// nothing above zero, "allowance.measured" when the shop's table does not reach the bend (it is never extrapolated) or
/// there is no table. `place` goes into the issue; only kMeasured asks for the material.
[[nodiscard]] Result<Allowance> allowanceFor(const AllowanceChoice& choice, Angle angle, double inside_radius_mm,
                                             double thickness_mm, const std::string& place = {},
                                             std::string_view material = {});

}  // namespace tinwright
