// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/allowance/allowance.h>

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace tinwright {

namespace {

// DIN 6935 sets v = 0 for an opening angle over 165°.
constexpr double kDinSmallestAngle_deg = 15.0;
constexpr double kDinPlainRatio = 5.0;

// A right angle said in degrees and read back is not always the same double.
bool isPastSquare(Angle angle) { return angle.deg() > 90.0 + 1e-9; }

double halfTangent(Angle angle) {
    const SinCos turn = sinCos(angle);
    return turn.sin / (1.0 + turn.cos);  // exact 1 at 90°, as sinCos is exact there
}

bool isSmallForDin(Angle angle) { return angle.deg() < kDinSmallestAngle_deg - 1e-9; }

std::string neutralWarning(AllowanceRule rule, Angle angle, double r, double t, double allowance) {
    const double neutral = neutralRadius_mm(angle, allowance);
    const double slack = 1e-9 * (r + t);
    if (neutral >= r - slack && neutral <= r + t + slack) return {};
    const bool small_din = rule == AllowanceRule::kDin6935 && isSmallForDin(angle);
    return fmt::format(
        "the allowance of {:.3f} mm puts the neutral radius at {:.3f} mm, outside the sheet ({:.3f} to {:.3f} mm){}",
        allowance, neutral, r, r + t, small_din ? ": DIN 6935 takes nothing off under 15 degrees" : "");
}

std::string nameOf(AllowanceRule rule) {
    switch (rule) {
        case AllowanceRule::kKFactor: return "k-factor";
        case AllowanceRule::kDin6935: return "DIN 6935";
        case AllowanceRule::kHandbook: return "handbook";
        case AllowanceRule::kMeasured: return "measured";
    }
    return {};
}

std::string bendText(const MeasuredQuery& query) {
    return fmt::format("{} of {:.4g} mm, inside radius {:.4g} mm, {:.4g} degrees{}", query.material, query.thickness_mm,
                       query.inside_radius_mm, query.angle.deg(),
                       query.tool.empty() ? "" : fmt::format(", with {}", query.tool));
}

/// By the rule that the choice falls back on, saying what it gives and what the nearest strip would have given.
Result<Allowance> fallbackAllowance(const AllowanceChoice& choice, const MeasuredQuery& query,
                                    const std::string& place) {
    AllowanceChoice instead = choice;
    instead.rule = *choice.fallback;
    Result<Allowance> result = allowanceFor(instead, query.angle, query.inside_radius_mm, query.thickness_mm, place);
    if (!result) return result;
    std::string text = fmt::format("no test strip reaches {}; the {} rule is used instead: strip {:.3f} mm",
                                   bendText(query), nameOf(instead.rule), result.value().allowance_mm);
    if (const MeasuredBend* nearest = nearestMeasured(*choice.measured, query)) {
        text += fmt::format(
            "; k {:.3f} of the nearest test strip ({:.4g} mm, radius {:.4g} mm, {:.4g} degrees) would make it {:.3f} "
            "mm",
            nearest->k, nearest->thickness_mm, nearest->inside_radius_mm, nearest->angle.deg(),
            kFactorAllowance_mm(query.angle, query.inside_radius_mm, query.thickness_mm, nearest->k));
    }
    std::string& warning = result.value().warning;
    warning = text + (warning.empty() ? "" : "; " + warning);
    return result;
}

Result<Allowance> measuredAllowance(const AllowanceChoice& choice, Angle angle, double r, double t,
                                    const std::string& place, std::string_view material) {
    if (!choice.measured) {
        return Issue{"allowance.measured",
                     "",
                     place,
                     "the rule \"measured\", and no shop",
                     "the shop file whose \"measured_bends\" are meant",
                     "give --shop FILE, or say another rule"};
    }
    const MeasuredQuery query{material, choice.tool, t, r, angle};
    const std::optional<MeasuredK> measured = measuredK(*choice.measured, query);
    if (!measured && choice.fallback) return fallbackAllowance(choice, query, place);
    if (!measured) {
        return Issue{"allowance.measured",
                     "",
                     place,
                     bendText(query),
                     "a bend that the shop's test strips reach; measured: " + measuredRange(*choice.measured, query),
                     "bend a test strip and add it with tinwright calibrate, or say a \"fallback\" rule"};
    }
    Result<Allowance> result = allowanceFor({AllowanceRule::kKFactor, measured->k}, angle, r, t, place);
    if (!result) return result;
    result.value().rule = AllowanceRule::kMeasured;
    result.value().rule_source = measured->source;
    return result;
}

bool isClosedHem(Angle angle, double inside_radius_mm) { return inside_radius_mm == 0 && angle.deg() > 180.0 - 1e-9; }

// Sheet folded flat on itself: no rule for rounder bends reaches it.
Allowance closedHemAllowance(Angle angle, double thickness_mm) {
    constexpr double kMiddle = 0.5;
    return {kFactorAllowance_mm(angle, 0, thickness_mm, kMiddle), AllowanceRule::kKFactor, kMiddle, {}, {}};
}

}  // namespace

double kFactorAllowance_mm(Angle angle, double inside_radius_mm, double thickness_mm, double k) {
    return angle.rad() * (inside_radius_mm + k * thickness_mm);
}

double din6935Factor(double inside_radius_mm, double thickness_mm) {
    TINWRIGHT_REQUIRE(inside_radius_mm > 0 && thickness_mm > 0, "DIN 6935 needs a radius and a thickness");
    const double ratio = inside_radius_mm / thickness_mm;
    return ratio > kDinPlainRatio ? 1.0 : 0.65 + 0.5 * std::log10(ratio);
}

double din6935Allowance_mm(Angle angle, double inside_radius_mm, double thickness_mm) {
    if (isSmallForDin(angle)) return 2.0 * setback_mm(Face::kOutside, angle, inside_radius_mm, thickness_mm);
    return angle.rad() * (inside_radius_mm + 0.5 * thickness_mm * din6935Factor(inside_radius_mm, thickness_mm));
}

double din6935Compensation_mm(Angle angle, double inside_radius_mm, double thickness_mm) {
    return bendDeduction_mm(angle, inside_radius_mm, thickness_mm,
                            din6935Allowance_mm(angle, inside_radius_mm, thickness_mm));
}

double handbookAllowance_mm(Angle angle, double inside_radius_mm, double thickness_mm) {
    return (0.01743 * inside_radius_mm + 0.0078 * thickness_mm) * angle.deg();
}

double setback_mm(Face face, Angle angle, double inside_radius_mm, double thickness_mm) {
    const double radius = face == Face::kInside ? inside_radius_mm : inside_radius_mm + thickness_mm;
    return isPastSquare(angle) ? radius : radius * halfTangent(angle);
}

double bendDeduction_mm(Angle angle, double inside_radius_mm, double thickness_mm, double allowance_mm) {
    return 2.0 * setback_mm(Face::kOutside, angle, inside_radius_mm, thickness_mm) - allowance_mm;
}

double neutralRadius_mm(Angle angle, double allowance_mm) { return allowance_mm / angle.rad(); }

Result<Allowance> allowanceFor(const AllowanceChoice& choice, Angle angle, double inside_radius_mm, double thickness_mm,
                               const std::string& place, std::string_view material) {
    if (isClosedHem(angle, inside_radius_mm)) return closedHemAllowance(angle, thickness_mm);
    Allowance result;
    result.rule = choice.rule;
    switch (choice.rule) {
        case AllowanceRule::kMeasured:
            return measuredAllowance(choice, angle, inside_radius_mm, thickness_mm, place, material);
        case AllowanceRule::kKFactor:
            result.allowance_mm = kFactorAllowance_mm(angle, inside_radius_mm, thickness_mm, choice.k);
            result.rule_value = choice.k;
            break;
        case AllowanceRule::kDin6935:
            if (!(inside_radius_mm > 0)) {
                return Issue{"allowance.zero-radius",
                             "",
                             place,
                             "inside radius 0",
                             "an inside radius over 0 for the DIN 6935 rule",
                             "say the radius the bend really takes, or use the k-factor rule"};
            }
            result.allowance_mm = din6935Allowance_mm(angle, inside_radius_mm, thickness_mm);
            result.rule_value = din6935Factor(inside_radius_mm, thickness_mm);
            break;
        case AllowanceRule::kHandbook:
            result.allowance_mm = handbookAllowance_mm(angle, inside_radius_mm, thickness_mm);
            break;
    }
    if (!(result.allowance_mm > 0)) {
        return Issue{"allowance.negative",
                     "",
                     place,
                     fmt::format("a bend allowance of {:.4f} mm", result.allowance_mm),
                     "an allowance over 0",
                     "a k-factor of 0 needs a radius over 0"};
    }
    result.warning = neutralWarning(choice.rule, angle, inside_radius_mm, thickness_mm, result.allowance_mm);
    return result;
}

}  // namespace tinwright
