// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/split_words.h"

#include <fmt/format.h>

#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {

std::string splitWords(const PlanReport& report) {
    if (!report.split) return {};
    const SplitPlan& split = *report.split;
    return fmt::format("{} and {}, carried over {}: {}about {}", printable(report.shop.brakes[split.brakes[0]].name),
                       printable(report.shop.brakes[split.brakes[1]].name),
                       split.times_carried == 1 ? "once" : fmt::format("{} times", split.times_carried),
                       split.plan.tight ? "tight, " : "", duration(split.plan.cost_ms));
}

}  // namespace tinwright::report
