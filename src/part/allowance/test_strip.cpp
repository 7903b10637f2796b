// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/allowance/test_strip.h>

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace tinwright {

namespace {

constexpr double kSameStripAngle_deg = 2.0;
constexpr double kUsualRangeOfK[2] = {0.25, 0.6};
constexpr double kRounding = 1e-6;
constexpr double kVague = 0.5;  // error of k
constexpr double kLengths = 3;  // that a deduction is made of

bool isNear(double a, double b) { return std::abs(a - b) <= kSameSize * std::max(a, b) + 1e-9; }

bool isAlike(const TestStrip& a, const TestStrip& b) {
    return a.material == b.material && a.tool == b.tool && isNear(a.thickness_mm, b.thickness_mm) &&
           isNear(a.inside_radius_mm, b.inside_radius_mm) &&
           std::abs(a.angle.deg() - b.angle.deg()) <= kSameStripAngle_deg + 1e-9;
}

// What is alike from strip to strip is one group, in whatever order they were measured: 1.95, 1.99 and 2.06 are.
std::vector<std::vector<std::size_t>> groupsOf(const std::vector<TestStrip>& strips) {
    std::vector<std::vector<std::size_t>> groups;
    std::vector<bool> taken(strips.size(), false);
    for (std::size_t first = 0; first < strips.size(); ++first) {
        if (taken[first]) continue;
        std::vector<std::size_t> group{first};
        taken[first] = true;
        for (std::size_t next = 0; next < group.size(); ++next) {
            for (std::size_t other = first + 1; other < strips.size(); ++other) {
                if (taken[other] || !isAlike(strips[group[next]], strips[other])) continue;
                taken[other] = true;
                group.push_back(other);
            }
        }
        std::sort(group.begin(), group.end());
        groups.push_back(std::move(group));
    }
    return groups;
}

Spread spreadOf(const std::vector<double>& values) {
    Spread spread;
    const auto count = static_cast<double>(values.size());
    for (const double value : values) spread.mean += value / count;
    std::vector<double> sorted = values;
    std::sort(sorted.begin(), sorted.end());
    spread.median = 0.5 * (sorted[(sorted.size() - 1) / 2] + sorted[sorted.size() / 2]);
    spread.least = sorted.front();
    spread.most = sorted.back();
    if (values.size() < 2) return spread;
    double squares = 0;
    for (const double value : values) squares += (value - spread.mean) * (value - spread.mean);
    spread.deviation = std::sqrt(squares / (count - 1));
    return spread;
}

double deductionOf(const MeasuredBend& bend, double k) {
    return bendDeduction_mm(bend.angle, bend.inside_radius_mm, bend.thickness_mm,
                            kFactorAllowance_mm(bend.angle, bend.inside_radius_mm, bend.thickness_mm, k));
}

MeasuredBend meanBend(const std::vector<TestStrip>& strips, const std::vector<std::size_t>& group) {
    MeasuredBend bend;
    const TestStrip& first = strips[group.front()];
    bend.material = first.material;
    bend.tool = first.tool;
    bend.strips = static_cast<int>(group.size());
    const auto mean = [&](auto of) {
        double sum = 0;
        for (const std::size_t i : group) sum += of(strips[i]) - of(first);
        return of(first) + sum / static_cast<double>(group.size());  // exact when all are equal
    };
    bend.thickness_mm = mean([](const TestStrip& strip) { return strip.thickness_mm; });
    bend.inside_radius_mm = mean([](const TestStrip& strip) { return strip.inside_radius_mm; });
    bend.angle = Angle::degrees(mean([](const TestStrip& strip) { return strip.angle.deg(); }));
    for (const std::size_t i : group) bend.date = std::max(bend.date, strips[i].date);
    return bend;
}

/// "strip 3", "strips 1 and 3": counted from 1, as they stand in the file.
std::string stripNames(const std::vector<std::size_t>& strips) {
    std::string names = strips.size() == 1 ? "strip" : "strips";
    for (std::size_t i = 0; i < strips.size(); ++i)
        names += fmt::format("{}{}", i == 0 ? " " : (i + 1 < strips.size() ? ", " : " and "), strips[i] + 1);
    return names;
}

void addSpreadWarning(Calibration& calibration, double measuring_error_mm) {
    const double differ = calibration.deduction_mm.most - calibration.deduction_mm.least;
    const double explained = kLengths * measuring_error_mm;
    if (differ <= explained + 1e-9) return;
    std::string what_to_do = "measure again before relying on their median";
    if (calibration.disagrees)
        what_to_do = "too few agree to tell which are right, measure again or bend more";
    else if (!calibration.astray.empty())
        what_to_do = fmt::format("the median leaves {} aside, measure {} again", stripNames(calibration.astray),
                                 calibration.astray.size() == 1 ? "it" : "them");
    calibration.warnings.push_back(
        fmt::format("the strips differ by {:.2f} mm, more than measuring to {:.2g} mm explains ({:.2g} mm): {}", differ,
                    measuring_error_mm, explained, what_to_do));
}

// Strips that agree with the median are right when they are more than half. Of an even number it lies between two: when
// these disagree it agrees with neither half.
void addAstray(Calibration& calibration, std::vector<double> deductions_mm, double measuring_error_mm) {
    const double explained = kLengths * measuring_error_mm + 1e-9;
    for (std::size_t i = 0; i < deductions_mm.size(); ++i) {
        if (std::abs(deductions_mm[i] - calibration.deduction_mm.median) > explained)
            calibration.astray.push_back(calibration.strips[i]);
    }
    const std::size_t count = deductions_mm.size();
    std::sort(deductions_mm.begin(), deductions_mm.end());
    const double middle_mm = deductions_mm[count / 2] - deductions_mm[(count - 1) / 2];
    calibration.disagrees = middle_mm > explained || 2 * calibration.astray.size() >= count;
}

void addWarnings(Calibration& calibration, double measuring_error_mm) {
    const double k = calibration.bend.k;
    const double k_error =
        kLengths * measuring_error_mm / (calibration.bend.angle.rad() * calibration.bend.thickness_mm);
    calibration.is_vague = k_error >= kVague;
    if (calibration.is_vague) {
        calibration.warnings.push_back(
            fmt::format("at {:.4g} degrees measuring to {:.2g} mm changes the k-factor by up to {:.2g}, so that it "
                        "tells nothing: bend strips by 90 degrees",
                        calibration.bend.angle.deg(), measuring_error_mm, k_error));
    } else if (k < 0 || k > 1) {
        calibration.warnings.push_back(
            fmt::format("a k-factor of {:.3f} cannot be: the sheet would keep its length outside itself; measure "
                        "again, radius and which faces too",
                        k));
    } else if (k < kUsualRangeOfK[0] - kRounding || k > kUsualRangeOfK[1] + kRounding) {
        calibration.warnings.push_back(
            fmt::format("a k-factor of {:.3f} is unusual ({} to {} is usual): is the radius what the bend really has?",
                        k, kUsualRangeOfK[0], kUsualRangeOfK[1]));
    }
    addSpreadWarning(calibration, measuring_error_mm);
}

Calibration calibrationOf(const std::vector<TestStrip>& strips, std::vector<std::size_t> group,
                          double measuring_error_mm) {
    Calibration calibration;
    calibration.bend = meanBend(strips, group);
    std::vector<double> ks, deductions;
    for (const std::size_t i : group) {
        ks.push_back(stripK(strips[i]));
        deductions.push_back(deductionOf(calibration.bend, ks.back()));
    }
    calibration.k = spreadOf(ks);
    calibration.deduction_mm = spreadOf(deductions);
    calibration.bend.k = calibration.k.median;
    if (group.size() > 1) calibration.bend.spread_mm = calibration.deduction_mm.most - calibration.deduction_mm.least;
    calibration.strips = std::move(group);
    addAstray(calibration, deductions, measuring_error_mm);
    addWarnings(calibration, measuring_error_mm);
    return calibration;
}

}  // namespace

double stripDeduction_mm(const TestStrip& strip) {
    const double to_outside = setback_mm(Face::kOutside, strip.angle, strip.inside_radius_mm, strip.thickness_mm) -
                              setback_mm(strip.legs_to, strip.angle, strip.inside_radius_mm, strip.thickness_mm);
    return strip.legs_mm[0] + strip.legs_mm[1] + 2 * to_outside - strip.flat_mm;
}

double stripK(const TestStrip& strip) {
    const double allowance = 2 * setback_mm(Face::kOutside, strip.angle, strip.inside_radius_mm, strip.thickness_mm) -
                             stripDeduction_mm(strip);
    return (neutralRadius_mm(strip.angle, allowance) - strip.inside_radius_mm) / strip.thickness_mm;
}

std::vector<Calibration> calibrate(const std::vector<TestStrip>& strips, double measuring_error_mm) {
    std::vector<Calibration> calibrations;
    for (auto& group : groupsOf(strips))
        calibrations.push_back(calibrationOf(strips, std::move(group), measuring_error_mm));
    return calibrations;
}

}  // namespace tinwright
