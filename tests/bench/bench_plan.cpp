// SPDX-License-Identifier: GPL-3.0-or-later
// Whole plans: reading is not timed, planning is.

#include <benchmark/benchmark.h>

#include <tinwright/sequence/planner.h>

#include "instances.h"

using namespace tinwright;

namespace {

void planOf(benchmark::State& state, const Part& part, const Shop& shop) {
    BrakeResult result;
    for (auto _ : state) {
        for (std::size_t brake = 0; brake < shop.brakes.size(); ++brake) result = planOnBrake(part, shop, brake, PlanOptions{});
    }
    state.counters["bends"] = static_cast<double>(part.bends.size());
    state.counters["plans"] = static_cast<double>(result.plans.size());
    state.SetLabel(result.verdict == Verdict::kFeasible ? "feasible" : result.verdict == Verdict::kInfeasible ? "infeasible" : "undecided");
}

void plan(benchmark::State& state, const std::string& folder, const std::string& part) {
    planOf(state, bench::must(readPartFile(bench::path("examples/" + folder + "/" + part))), bench::must(readShop(bench::path("examples/" + folder + "/shop.json"))));
}
BENCHMARK_CAPTURE(plan, roaster_pod, "roaster-pod", "part.json")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan, roaster_pod_suited, "roaster-pod", "part-suited.json")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan, tray_lips, "tray-lips", "part.json")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan, hat_channel, "hat-channel", "part.json")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan, deep_housing, "deep-housing", "part.json")->Unit(benchmark::kMillisecond);

void planEnclosure(benchmark::State& state) { planOf(state, bench::enclosure(), bench::enclosureShop()); }
BENCHMARK(planEnclosure)->Unit(benchmark::kMillisecond);

}  // namespace
