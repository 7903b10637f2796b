// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <tinwright/brake/machines/hemming.h>

#include "paper/html.h"
#include "sentences/search_words.h"
#include "sentences/split_text.h"
#include "sheet/sheet_parts.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

/// One of the two brakes, with its drawings of the part.
struct OnBrake {
    OnBrake(const PlanReport& report, std::size_t brake)
        : folded(partOnBrake(report.part, report.shop, report.split->setupOf(brake))),
          shapes(folded),
          tools(report.split->setupOf(brake)) {}
    const PartOnBrake folded;
    PartShapes shapes;
    ToolShapes tools;
    BrakeReport nothing_more{};  // of its own folds nothing is known but what the plan says
};

class SplitSheet {
public:
    SplitSheet(const PlanReport& report, const SheetExtras& extras, std::vector<DrawingFile>& drawings)
        : report_(report),
          split_(*report.split),
          extras_(extras),
          drawings_(drawings),
          first_(report, split_.brakes[0]),
          second_(report, split_.brakes[1]) {
        first_.nothing_more.brake = split_.brakes[0];
        second_.nothing_more.brake = split_.brakes[1];
    }

    std::string section() {
        std::string text = element("h2", "Over two brakes: " + splitWords(report_));
        text += element(
            "p", fmt::format("About {} by the shop's own figures, {} of it to carry the part; nothing nearer than {} "
                             "mm over the whole plan{}.",
                             duration(split_.plan.cost_ms),
                             duration(static_cast<long long>(split_.times_carried) * report_.shop.times.carry_ms),
                             atLeastMillimetres(split_.plan.worst_clearance_mm), split_.plan.tight ? ", TIGHT" : ""));
        if (report_.split_check && report_.split_check->checked && !report_.split_check->findings.empty()) {
            text +=
                element("p", "NOT VERIFIED: an independent replay disagrees. Do not fold from this sheet.", "no big") +
                list(report_.split_check->findings);
        }
        return text + folds();
    }

private:
    [[nodiscard]] SheetWork workOn(std::size_t brake) const {
        const OnBrake& on = brake == split_.brakes[0] ? first_ : second_;
        return {report_,  on.nothing_more, split_.setupOf(brake), on.shapes,
                on.tools, extras_,         "two-brakes-",         drawings_};
    }

    /// Fold by fold, a heading wherever the part is taken to the other brake: set-ups begin anew there.
    std::string folds() {
        std::string rows = wrap("tr", element("th", "Fold") + element("th", "Done") + element("th", "Brake") +
                                          element("th", "Bends") + element("th", "Tools") + element("th", "Set"));
        std::string cards;
        FoldPlace place{1, split_.plan.folds.size(), report_.formed, nullptr};
        for (std::size_t i = 0; i < split_.plan.folds.size(); ++i) {
            const FoldStep& step = split_.plan.folds[i];
            const SheetWork work = workOn(split_.brake_of_fold[i]);
            const bool carried = i == 0 || split_.brake_of_fold[i] != split_.brake_of_fold[i - 1];
            if (carried) place.before = nullptr;
            if (carried) cards += element("h3", (i == 0 ? "On " : "Carry it to ") + work.brake->name);
            rows += wrap(
                "tr", element("th", std::to_string(place.number)) + wrap("td", tickBox()) +
                          element("td", work.brake->name) + element("td", strokeName(report_.part, step.bends)) +
                          element("td", barChange(work, step, place)) + element("td", degrees(step.set_angle.deg())));
            cards += foldCard(work, step, place);
            place.before = &step;
            place.formed_before |= maskOf(step.bends);
            ++place.number;
        }
        return wrap("div", wrap("table", rows), "scroll") + cards;
    }

    const PlanReport& report_;
    const SplitPlan& split_;
    const SheetExtras& extras_;
    std::vector<DrawingFile>& drawings_;
    OnBrake first_;
    OnBrake second_;
};

}  // namespace

std::string splitSection(const PlanReport& report, const SheetExtras& extras, std::vector<DrawingFile>& drawings) {
    return report.split ? SplitSheet(report, extras, drawings).section() : std::string();
}

}  // namespace tinwright::report
