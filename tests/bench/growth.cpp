// SPDX-License-Identifier: GPL-3.0-or-later
// How planning grows with the number of bends: one line for each part that is named, as "box 12".

#include <sys/resource.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>

#include <tinwright/report/sentences/reason_words.h>
#include <tinwright/sequence/plan/planner.h>

#include "families.h"
#include "instances.h"

using namespace tinwright;

namespace {

const char* verdictOf(const BrakeResult& result) { return toText(result.verdict); }

void planOne(const std::string& family, std::size_t bends) {
    const Part part = bench::familyPart(family, bends);
    const Shop shop = bench::enclosureShop();
    PlanOptions options;
    if (const char* most = std::getenv("GROWTH_STATES")) options.max_states = std::strtoull(most, nullptr, 10);
    const auto start = std::chrono::steady_clock::now();
    if (const char* most = std::getenv("GROWTH_SECONDS")) options.time_limit_s = std::strtod(most, nullptr);
    const BrakeResult result = planOnBrake(part, shop, 0, options);
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    std::printf("%-8s %3zu %10.3f s %7.1f MB  %-10s %8.1f s", family.c_str(), bends, seconds,
                static_cast<double>(usage.ru_maxrss) / 1024.0, verdictOf(result),
                result.plans.empty() ? 0.0 : static_cast<double>(result.plans[0].cost_ms) / 1000.0);
    std::printf("  %llu states, %llu labels, %llu checks", static_cast<unsigned long long>(result.work.states),
                static_cast<unsigned long long>(result.work.partial_orders),
                static_cast<unsigned long long>(result.work.fold_checks));
    if (std::getenv("GROWTH_RECORDS") != nullptr) {
        std::printf(", %llu records, %llu pairs", static_cast<unsigned long long>(result.work.shadows_cast),
                    static_cast<unsigned long long>(result.work.pairs_swept));
    }
    for (const std::string& note : result.notes) std::printf("; %s", note.c_str());
    std::printf("\n");
    std::fflush(stdout);
    if (std::getenv("GROWTH_REASONS") != nullptr) {
        for (const Reason& reason : result.reasons)
            std::printf("   %s\n", reasonWords({part, shop, result.brake}, reason).c_str());
        for (const Plan& plan : result.plans) {
            for (const FoldStep& fold : plan.folds) {
                std::printf("   ");
                for (const BendId bend : fold.bends) std::printf("%s ", part.bend(bend).name.c_str());
                std::printf("hold %d turn %.0f flip %d bars", static_cast<int>(fold.hold), fold.turn_deg, fold.flip);
                for (const PlacedTool& bar : fold.bars)
                    std::printf(" %s@%.1f", shop.brakes[0].tool(bar.bar).id.c_str(), fold.part_x_mm + bar.from_mm);
                std::printf(" clear %.2f ways %zu\n", fold.clearance_mm, fold.way_out.size());
            }
            std::printf("\n");
        }
    }
}

}  // namespace

int main(int argc, char** argv) {
    for (int i = 1; i + 1 < argc; i += 2)
        planOne(argv[i], static_cast<std::size_t>(std::strtoul(argv[i + 1], nullptr, 10)));
}
