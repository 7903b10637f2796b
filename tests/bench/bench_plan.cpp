// SPDX-License-Identifier: GPL-3.0-or-later
// Whole plans: reading is not timed, planning is.

#include <benchmark/benchmark.h>

#include <tinwright/sequence/plan/planner.h>

#include "instances.h"

using namespace tinwright;

namespace {

void planOf(benchmark::State& state, const Part& part, const Shop& shop) {
    BrakeResult result;
    for (auto _ : state) {
        for (std::size_t brake = 0; brake < shop.brakes.size(); ++brake)
            result = planOnBrake(part, shop, brake, PlanOptions{});
    }
    state.counters["bends"] = static_cast<double>(part.bends.size());
    state.counters["plans"] = static_cast<double>(result.plans.size());
    state.SetLabel(result.verdict == Verdict::kFeasible     ? "feasible"
                   : result.verdict == Verdict::kInfeasible ? "infeasible"
                                                            : "undecided");
}

// On the brakes of the example's own shop, then on a press brake.
void plan(benchmark::State& state, const std::string& folder, const std::string& part, bool on_press) {
    const std::string shop = on_press ? "tests/program/data/press-shop.json" : "examples/" + folder + "/shop.json";
    planOf(state, bench::must(readPartFile(bench::path("examples/" + folder + "/" + part))),
           bench::must(readShop(bench::path(shop))));
}

#define PLAN_BOTH(name, folder, part)                                                  \
    BENCHMARK_CAPTURE(plan, name, folder, part, false)->Unit(benchmark::kMillisecond); \
    BENCHMARK_CAPTURE(plan, name##_on_press, folder, part, true)->Unit(benchmark::kMillisecond)

PLAN_BOTH(roaster_pod, "roaster-pod", "part.json");
PLAN_BOTH(roaster_pod_suited, "roaster-pod", "part-suited.json");
PLAN_BOTH(tray_lips, "tray-lips", "part.json");
PLAN_BOTH(hat_channel, "hat-channel", "part.json");
PLAN_BOTH(deep_housing, "deep-housing", "part.json");
PLAN_BOTH(cooling_tray, "cooling-tray", "part.json");

void planEnclosure(benchmark::State& state) { planOf(state, bench::enclosure(), bench::enclosureShop()); }
BENCHMARK(planEnclosure)->Unit(benchmark::kMillisecond);

void planEnclosureOnPress(benchmark::State& state) {
    planOf(state, bench::enclosure(), bench::must(readShop(bench::path("tests/program/data/press-shop.json"))));
}
BENCHMARK(planEnclosureOnPress)->Unit(benchmark::kMillisecond);

}  // namespace
