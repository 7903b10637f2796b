// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/allowance/test_strip.h>

/// Test strips, format "tinwright-strips/1" (src/io/SHOP_FORMAT.md; schema: src/io/schema/strips.schema.json), and what
/// they came to written into a shop file.
namespace tinwright {

inline constexpr std::string_view kStripsFormat = "tinwright-strips/1";

struct StripsFile {
    std::vector<TestStrip> strips;
    double measuring_error_mm = kMeasuringError_mm;
};

/// Safe on any bytes; all issues at once, codes "json." and "strips.".
[[nodiscard]] Result<StripsFile> readStrips(std::string_view text, const std::string& file);

/// Issues "strips.length" for a strip whose legs and flat length cannot belong together: a strip made in code or on a
/// command line.
[[nodiscard]] Issues checkStrip(const TestStrip& strip);

/// The text of a shop file with each calibration in its "measured_bends", in place of an entry of the same material,
/// tool, thickness, radius and angle; all else in it stays byte for byte. `names` tells which material names mean the
/// same. The text must be a shop file that reads without issues; an issue "shop.edit" else, "calibrate.k" for a
/// k-factor outside 0 to 1, "calibrate.angle" for strips bent too little, and, unless `accept_spread`,
/// "calibrate.spread" for strips of which too few agree.
[[nodiscard]] Result<std::string> shopTextWith(std::string_view text, const std::string& file,
                                               const std::vector<Calibration>& calibrations, const MeasuredBends& names,
                                               bool accept_spread = false);

}  // namespace tinwright
