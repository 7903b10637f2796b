// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/base/words.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

namespace tinwright::report {

/// The same rounded down: a clearance is never said to be more than it is.
[[nodiscard]] std::string atLeastMillimetres(double length_mm);
/// "93°", "93.5°".
[[nodiscard]] std::string degrees(double angle_deg);
/// "90° up", "closed hem down", "hem up, 2 mm open".
[[nodiscard]] std::string turnWords(const Bend& bend);
/// "1°", "30'", "1° 30'": an angle's tolerance as drawings write it, to the minute.
[[nodiscard]] std::string minutes(double angle_deg);
/// "45 s", "6 min 20 s", "1 h 05 min".
[[nodiscard]] std::string duration(long long time_ms);
/// "87%", rounded down, so that 100% is never said of less.
[[nodiscard]] std::string percent(double share);
/// "at the bend's left end", "12 mm right of the bend's left end", "3 mm past the bend's right end": along the machine,
/// x from the left end.
[[nodiscard]] std::string placeWords(double x_mm, double bend_length_mm);

/// "tab-a", or "tab-a+tab-b" for bends made in one stroke: how `tinwright try --order` writes them.
[[nodiscard]] std::string strokeName(const Part& part, const std::vector<BendId>& bends);
/// Names of a set of bends, in the part's order.
[[nodiscard]] std::vector<std::string> bendNames(const Part& part, BendMask bends);
[[nodiscard]] std::string panelNames(const Part& part, const std::vector<PanelId>& panels);
/// A body as plans name it: "left", "bend left", "leaf", "bar G200", "die V10-50".
[[nodiscard]] std::string bodyName(const Part& part, const BrakeInSetup& brake, BodyRef body);
/// The panel of a bend that lies under the bar, and the one that the leaf swings; of a press brake at the back and in
/// front.
[[nodiscard]] std::string heldName(const Part& part, BendId bend, Side hold);
[[nodiscard]] std::string swungName(const Part& part, BendId bend, Side hold);

}  // namespace tinwright::report
