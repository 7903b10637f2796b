// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/text/calibration_text.h>

#include <fmt/format.h>

#include <tinwright/base/words.h>

#include "data/json_values.h"

namespace tinwright {
namespace {

using namespace report;

std::string spreadText(const Spread& spread, int digits, const char* unit) {
    if (!spread.deviation) return fmt::format("{:.{}f}{}", spread.median, digits, unit);
    return fmt::format("{:.{}f}{} ({:.{}f} to {:.{}f}, mean {:.{}f}, standard deviation {:.{}f})", spread.median,
                       digits, unit, spread.least, digits, spread.most, digits, spread.mean, digits, *spread.deviation,
                       digits);
}

std::string compareText(const Calibration& calibration) {
    const MeasuredBend& bend = calibration.bend;
    if (!(bend.inside_radius_mm > 0)) return "";
    return fmt::format("  Compare     DIN 6935 would deduct {:.2f} mm\n",
                       din6935Compensation_mm(bend.angle, bend.inside_radius_mm, bend.thickness_mm));
}

std::string oneText(const Calibration& calibration) {
    const MeasuredBend& bend = calibration.bend;
    std::string text = fmt::format(
        "{}, {:.4g} mm, inside radius {:.4g} mm, {:.4g} degrees{}: {}\n", bend.material, bend.thickness_mm,
        bend.inside_radius_mm, bend.angle.deg(), bend.tool.empty() ? "" : ", with " + bend.tool,
        counted(static_cast<std::size_t>(bend.strips), "strip") + (bend.strips > 2 ? ", their median" : ""));
    text += "  k-factor    " + spreadText(calibration.k, 3, "") + "\n";
    text += "  Deduction   " + spreadText(calibration.deduction_mm, 2, " mm") + ", off the sum of the outside legs\n";
    text += compareText(calibration);
    for (const std::string& warning : calibration.warnings) text += "  Look out    " + warning + "\n";
    if (bend.strips == 1)
        text += "  Note        one strip does not tell how far the shop repeats itself: bend two more\n";
    return text;
}

Json plainNumber(double value) { return rounded(value, 1e4); }

Json spreadJson(const Spread& spread) {
    return {{"median", plainNumber(spread.median)},
            {"mean", plainNumber(spread.mean)},
            {"least", plainNumber(spread.least)},
            {"most", plainNumber(spread.most)},
            {"deviation", spread.deviation ? plainNumber(*spread.deviation) : Json(nullptr)}};
}

}  // namespace

std::string calibrationText(const std::vector<Calibration>& calibrations, const std::string& into) {
    std::string text;
    for (const Calibration& calibration : calibrations) text += oneText(calibration);
    if (!into.empty())
        text += fmt::format("Written into {}: parts with \"allowance\": {{\"rule\": \"measured\"}} use it.\n", into);
    return text;
}

std::string calibrationJson(const std::vector<Calibration>& calibrations) {
    Json list = Json::array();
    for (const Calibration& calibration : calibrations) {
        const MeasuredBend& bend = calibration.bend;
        list.push_back({{"material", bend.material},
                        {"tool", textOrNull(bend.tool)},
                        {"thickness_mm", plainNumber(bend.thickness_mm)},
                        {"inside_radius_mm", plainNumber(bend.inside_radius_mm)},
                        {"angle_deg", plainNumber(bend.angle.deg())},
                        {"strips", calibration.strips},
                        {"k", spreadJson(calibration.k)},
                        {"deduction_mm", spreadJson(calibration.deduction_mm)},
                        {"strips_aside", calibration.astray},
                        {"strips_agree", !calibration.disagrees},
                        {"warnings", calibration.warnings}});
    }
    const Json document = {{"format", "tinwright-calibration/1"}, {"calibrations", list}};
    return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tinwright
