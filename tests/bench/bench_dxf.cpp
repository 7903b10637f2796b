// SPDX-License-Identifier: GPL-3.0-or-later
// A drawing of 10,000 entities, from bytes to a part: lines (2500 slots with two bends), or circles.
#include <benchmark/benchmark.h>

#include <string>

#include <fmt/format.h>

#include <tinwright/base/contract.h>
#include <tinwright/io/dxf/dxf_io.h>

using namespace tinwright;

namespace {

constexpr const char* kBends =
    R"({"format": "tinwright-bends/1", "units": "mm", "sheet": {"material": "mild-steel", "thickness": 1},
        "allowance": {"rule": "k-factor", "k": 0.4}, "inside_radius": 1, "default": {"angle": 90, "direction": "up"}})";

std::string line(const char* layer, double a, double b, double c, double d) {
    return fmt::format("0\nLINE\n8\n{}\n10\n{}\n20\n{}\n11\n{}\n21\n{}\n", layer, a, b, c, d);
}

std::string rectangle(double x, double y, double w, double h) {
    return line("CUT", x, y, x + w, y) + line("CUT", x + w, y, x + w, y + h) + line("CUT", x + w, y + h, x, y + h) +
           line("CUT", x, y + h, x, y);
}

std::string drawing(bool circles) {
    std::string text = "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n" +
                       rectangle(0, 0, 2000, 2200);
    text += line("BEND", 0, 50, 2000, 50) + line("BEND", 0, 2150, 2000, 2150);
    const int side = circles ? 100 : 50;
    for (int i = 0; i < side; ++i) {
        for (int j = 0; j < side; ++j) {
            const double x = 10 + i * 1980.0 / side, y = 120 + j * 1960.0 / side;
            text += circles ? fmt::format("0\nCIRCLE\n8\nCUT\n10\n{}\n20\n{}\n40\n3\n", x, y) : rectangle(x, y, 8, 6);
        }
    }
    return text + "0\nENDSEC\n0\nEOF\n";
}

void readDrawing(benchmark::State& state) {
    const std::string text = drawing(state.range(0) != 0);
    for (auto _ : state) {
        const Result<Part> part = readDxfBlankText({text, "bench.dxf"}, {kBends, "bench.bends.json"});
        TINWRIGHT_REQUIRE(part.ok(), "the drawing is a part");
        benchmark::DoNotOptimize(part.value().blank.holes.size());
    }
    state.counters["bytes"] = static_cast<double>(text.size());
}

BENCHMARK(readDrawing)->ArgName("circles")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
