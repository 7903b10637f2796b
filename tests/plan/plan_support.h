// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/part.h>
#include <tinwright/sequence/plan/planner.h>

namespace tinwright::test {

/// The shipped tooling as one shop: "M100" and "M50" (magnetic folder, bars 100 and 50 deep), "B" (finger brake), "L"
/// (plain leaf brake).
[[nodiscard]] const Shop& shippedShop();
[[nodiscard]] std::size_t brakeNamed(const Shop& shop, const std::string& name);

/// A part from a recipe given as text; the test fails with the issues when it is not one.
[[nodiscard]] Part partFrom(const std::string& recipe);
[[nodiscard]] Shop shopFrom(const std::string& text);

/// A rectangular tray, all walls up; `lip_mm` > 0 gives every wall a mitred inward lip.
[[nodiscard]] std::string trayRecipe(double length_mm, double depth_mm, double height_mm, double lip_mm);

[[nodiscard]] BendId bendNamed(const Part& part, const std::string& name);

/// Plans and replays every plan; the test fails when the replay finds anything.
[[nodiscard]] BrakeResult planVerified(const Part& part, const Shop& shop, std::size_t brake, std::size_t plans = 3);

[[nodiscard]] bool hasReason(const BrakeResult& result, ReasonCode code);
/// "hit no-bars ", for what a test captures.
[[nodiscard]] std::string codesOf(const std::vector<Reason>& reasons);
/// Their sentences, a line each.
[[nodiscard]] std::string wordsOf(const Part& part, const Shop& shop, const BrakeInSetup& brake,
                                  const std::vector<Reason>& reasons);

}  // namespace tinwright::test
