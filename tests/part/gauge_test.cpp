// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <cmath>

#include <tinwright/part/allowance/gauge.h>

using namespace tinwright;

namespace {
double inch(GaugeSystem system, int gauge) { return gaugeThickness_mm(system, gauge).value() / 25.4; }
}  // namespace

// The one that people mix up; published charts (machinecalcs.com, cableorganizer.com).
TEST_CASE("gauge 16 is four thicknesses") {
    CHECK(inch(GaugeSystem::kSteelMsg, 16) == Approx(.0598).margin(1e-9));
    CHECK(inch(GaugeSystem::kGalvanized, 16) == Approx(.0635).margin(1e-9));
    CHECK(inch(GaugeSystem::kStainless, 16) == Approx(.0625).margin(1e-9));
    CHECK(inch(GaugeSystem::kAluminiumBs, 16) == Approx(.0508).margin(1e-9));
}

// Definition of the Manufacturers' Standard Gauge: ounces per square foot / 16 / 41.82 (ounces from memory).
TEST_CASE("steel gauges follow from their weight") {
    const std::pair<int, double> ounces[] = {{7, 120}, {8, 110}, {9, 100}, {10, 90}, {11, 80}, {12, 70},
                                             {13, 60}, {14, 50}, {16, 40}, {18, 32}, {20, 24}, {22, 20},
                                             {24, 16}, {26, 12}, {28, 10}, {30, 8}};
    for (const auto& [gauge, weight] : ounces)
        CHECK(inch(GaugeSystem::kSteelMsg, gauge) == Approx(weight / 16 / 41.82).margin(0.0001));
}

// Definition of the B&S / AWG series (from memory): 0.005 in x 92^((36 - n) / 39).
TEST_CASE("aluminium gauges follow the B&S series") {
    for (const int gauge : {7, 8, 9, 10, 11, 12, 13, 14, 16, 18, 20, 22, 24, 26, 28, 30}) {
        CHECK(inch(GaugeSystem::kAluminiumBs, gauge) ==
              Approx(0.005 * std::pow(92.0, (36.0 - gauge) / 39)).margin(0.0001));
    }
}

// A UK dealer's chart (ashmoreandallen.co.uk): SWG 16, 18, 20, 22 in mm.
TEST_CASE("UK wire gauge as a dealer prints it") {
    const std::pair<int, double> rows[] = {{16, 1.63}, {18, 1.22}, {20, 0.91}, {22, 0.71}};
    for (const auto& [gauge, mm] : rows)
        CHECK(gaugeThickness_mm(GaugeSystem::kUkSwg, gauge).value() == Approx(mm).margin(0.005));
}

TEST_CASE("gauges outside a chart are not guessed") {
    CHECK_FALSE(gaugeThickness_mm(GaugeSystem::kGalvanized, 7));
    CHECK_FALSE(gaugeThickness_mm(GaugeSystem::kSteelMsg, 15));
    CHECK_FALSE(gaugeThickness_mm(GaugeSystem::kSteelMsg, -1));
}

TEST_CASE("gauge systems have words, and back") {
    for (int i = 0; i < 5; ++i)
        CHECK(gaugeSystemFrom(toText(static_cast<GaugeSystem>(i))) == static_cast<GaugeSystem>(i));
    CHECK_FALSE(gaugeSystemFrom("steel"));
}
