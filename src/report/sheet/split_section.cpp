// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <tinwright/brake/machines/hemming.h>

#include "paper/html.h"
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
    SplitSheet(const PlanDocument& document, const SheetExtras& extras, std::vector<DrawingFile>& drawings)
        : document_(document),
          report_(document.report),
          split_(document.split->split),
          extras_(extras),
          drawings_(drawings),
          first_(report_, split_.brakes[0]),
          second_(report_, split_.brakes[1]) {
        first_.nothing_more.brake = split_.brakes[0];
        second_.nothing_more.brake = split_.brakes[1];
    }

    std::string section() {
        const PlanEntry& plan = document_.split->plan;
        std::string text = element("h2", "Over two brakes: " + document_.split->words);
        text += element(
            "p", fmt::format("About {} by the shop's own figures, {} of it to carry the part; nothing nearer than {} "
                             "mm over the whole plan{}.",
                             plan.time, document_.split->carrying, plan.clearance, plan.plan.tight ? ", TIGHT" : ""));
        return text + replayWarning(plan.replay) + folds(plan.folds);
    }

private:
    [[nodiscard]] SheetWork workOn(std::size_t brake) const {
        const OnBrake& on = brake == split_.brakes[0] ? first_ : second_;
        return {report_,  on.nothing_more, split_.setupOf(brake), on.shapes,
                on.tools, extras_,         "two-brakes-",         drawings_};
    }

    /// Fold by fold, a heading wherever the part is taken to the other brake: set-ups begin anew there.
    std::string folds(const std::vector<FoldEntry>& folds) {
        std::string rows = wrap("tr", element("th", "Fold") + element("th", "Done") + element("th", "Brake") +
                                          element("th", "Bends") + element("th", "Tools") + element("th", "Set"));
        std::string cards;
        for (std::size_t i = 0; i < folds.size(); ++i) {
            const FoldEntry& fold = folds[i];
            const SheetWork work = workOn(split_.brake_of_fold[i]);
            if (fold.is_carried_to) cards += element("h3", (i == 0 ? "On " : "Carry it to ") + work.brake->name);
            rows += wrap("tr", element("th", std::to_string(fold.place.number)) + wrap("td", tickBox()) +
                                   element("td", work.brake->name) +
                                   element("td", strokeName(report_.part, fold.step.bends())) +
                                   element("td", barChange(fold)) +
                                   element("td", wordsFor(*work.brake).angle(fold.step.toSet().deg())));
            cards += foldCard(work, fold);
        }
        return wrap("div", wrap("table", rows), "scroll") + cards;
    }

    const PlanDocument& document_;
    const PlanReport& report_;
    const SplitPlan& split_;
    const SheetExtras& extras_;
    std::vector<DrawingFile>& drawings_;
    OnBrake first_;
    OnBrake second_;
};

}  // namespace

std::string splitSection(const PlanDocument& document, const SheetExtras& extras, std::vector<DrawingFile>& drawings) {
    return document.split ? SplitSheet(document, extras, drawings).section() : std::string();
}

}  // namespace tinwright::report
