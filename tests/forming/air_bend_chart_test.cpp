// SPDX-License-Identifier: GPL-3.0-or-later
// A published air-bend chart for mild steel (Rm about 450 MPa), kN per metre. The columns of its copy were re-aligned;
// the five cells marked as outliers in the source are left out. Tolerance: the larger of 6 % and 5 kN/m, since the
// chart rounds to 10 kN/m.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include <tinwright/forming/metal/bending.h>

using namespace tinwright;

namespace {

constexpr double kChartTensile_mpa = 450;

struct Cell {
    double opening_mm, kn_per_m;
};
struct Row {
    double thickness_mm;
    std::vector<Cell> cells;
};

const std::vector<Row>& chart() {
    static const std::vector<Row> kRows{
        {0.5, {{4, 40}, {6, 30}}},
        {0.6, {{4, 60}, {6, 40}}},
        {0.8, {{6, 70}, {8, 50}, {10, 40}}},
        {1.0, {{6, 110}, {7, 100}, {8, 80}, {10, 70}, {12, 60}}},
        {1.2, {{7, 140}, {8, 120}, {10, 100}, {12, 80}, {14, 70}, {16, 60}}},
        {1.5, {{10, 150}, {12, 130}, {14, 110}, {16, 90}, {18, 80}}},
        {2.0, {{12, 220}, {14, 190}, {16, 170}, {18, 150}, {20, 130}, {25, 110}}},
        {2.6, {{16, 280}, {18, 250}, {20, 220}, {25, 180}, {32, 140}}},
        {3.0, {{18, 340}, {20, 300}, {25, 240}, {32, 190}, {40, 150}}},
        {3.5, {{25, 330}, {32, 260}, {40, 200}, {50, 160}, {63, 130}}},
        {4.0, {{25, 430}, {32, 340}, {40, 270}, {50, 210}, {63, 170}}},
        {4.5, {{32, 440}, {40, 340}, {50, 270}, {63, 210}}},
        {5.0, {{32, 520}, {40, 420}, {50, 330}, {63, 260}, {80, 210}}},
        {6.0, {{32, 750}, {40, 600}, {50, 480}, {63, 380}, {80, 300}, {100, 240}}},
        {7.0, {{63, 520}, {80, 410}, {100, 330}, {125, 260}}},
        {8.0, {{50, 850}, {63, 680}, {80, 530}, {100, 430}}},
        {9.0, {{80, 670}, {100, 540}, {125, 430}}},
        {10, {{80, 850}, {100, 670}, {125, 530}, {160, 420}}},
        {12, {{100, 960}, {125, 780}, {160, 600}}},
        {15, {{160, 950}, {200, 750}}},
    };
    return kRows;
}

}  // namespace

TEST_CASE("B.3 air-bend chart: force for a metre of mild steel") {
    std::size_t cells = 0;
    for (const Row& row : chart()) {
        for (const Cell& cell : row.cells) {
            CAPTURE(row.thickness_mm, cell.opening_mm);
            const double kn_per_m =
                bendForce_n(kAirBendChartFactor, kChartTensile_mpa, 1000, row.thickness_mm, cell.opening_mm) / 1000;
            CHECK(std::abs(kn_per_m - cell.kn_per_m) <= std::max(0.06 * cell.kn_per_m, 5.0) + 1e-9);
            ++cells;
        }
    }
    CHECK(cells == 84);
}

TEST_CASE("B.3 with Groover's factor the chart is under-predicted by a constant tenth") {
    CHECK(kAirBendChartFactor / kVBendFactor == Approx(1.113).margin(0.001));
}

TEST_CASE("E1, E2: shortest flange and inside radius of an air bend, chart rows b and ir") {
    const double rows[][3] = {
        {4, 2.8, .7},  {6, 4, 1.0},     {7, 5, 1.1},   {8, 5.5, 1.3},   {10, 7, 1.6},   {12, 8.5, 2.0}, {14, 10, 2.3},
        {16, 11, 2.6}, {18, 13.5, 3.0}, {20, 14, 3.3}, {25, 17.5, 4.0}, {32, 22, 5.0},  {40, 28, 6.5},  {50, 35, 8.0},
        {63, 45, 10},  {80, 55, 13},    {100, 71, 16}, {125, 89, 20},   {160, 113, 26}, {200, 140, 33}, {250, 175, 41}};
    for (const auto& row : rows) {
        CAPTURE(row[0]);
        CHECK(airBendLeastFlange_mm(row[0]) == Approx(row[1]).epsilon(0.08));
        CHECK(airBendRadius_mm(row[0]) == Approx(row[2]).epsilon(0.10));
    }
}

TEST_CASE("B.3 bands of the die opening by thickness") {
    CHECK(usualDieOpening_mm(1) == Approx(6));
    CHECK(usualDieOpening_mm(2.5) == Approx(15));
    CHECK(usualDieOpening_mm(3) == Approx(24));
    CHECK(usualDieOpening_mm(8) == Approx(64));
    CHECK(usualDieOpening_mm(10) == Approx(100));
    CHECK(usualDieOpening_mm(12) == Approx(144));
}
