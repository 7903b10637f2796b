// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/shop/cutting.h>
#include <tinwright/forming/rules/finding.h>
#include <tinwright/report/data/plan_report.h>
#include <tinwright/report/sentences/reason_words.h>
#include <tinwright/report/sheet/sheet.h>

#include "document/document.h"
#include "paper/drawing.h"
#include "scene/fold_scene.h"

namespace tinwright::report {

/// What the parts of a sheet for one brake work with, and where they leave their drawings.
struct SheetWork {
    const PlanReport& report;
    const BrakeReport& brake_report;
    const BrakeInSetup& brake;
    const PartShapes& shapes;  ///< of the part on this brake
    const ToolShapes& tools;
    const SheetExtras& extras;
    std::string file_prefix;  ///< of the drawings' names
    std::vector<DrawingFile>& drawings;

    [[nodiscard]] const Part& part() const { return report.part; }
    [[nodiscard]] FoldContext on() const { return {report.part, report.shop, brake}; }
    /// The drawing as part of the page; it is kept as a file too.
    std::string keep(const std::string& name, const Drawing& drawing) const;
};

/// How the blank is cut, when the shop says it.
[[nodiscard]] std::optional<CutProcess> cutProcess(const SheetWork& work);

/// What to look at before metal is cut: what the metal does, whatever the brake and on this one.
[[nodiscard]] std::string metalSection(const SheetWork& work);
/// How the blank is cut and what is drilled; nothing when the shop does not say how it cuts.
[[nodiscard]] std::string cutSection(const SheetWork& work);
/// Findings that have a place on the blank to be drawn.
[[nodiscard]] std::vector<Finding> weakPlaces(const SheetWork& work);
/// Findings as a list, the graver first.
[[nodiscard]] std::string findingList(const std::vector<Finding>& findings);
/// To be ticked off before the first fold: film, edges, grain, trial strip.
[[nodiscard]] std::string checklist(const SheetWork& work);
/// What is welded when all is folded.
[[nodiscard]] std::string weldSection(const SheetWork& work);
/// The blank with its table of bends; `plan` may be null.
[[nodiscard]] std::string blankSection(const SheetWork& work, const Plan* plan);
/// Which bars are needed, what changes from fold to fold, room for the test strip.
[[nodiscard]] std::string setUpSection(const SheetWork& work, const PlanEntry& plan);
/// "take out B60 and put in B30": from the fold before to this one.
[[nodiscard]] std::string barChange(const FoldEntry& fold);
/// One fold.
[[nodiscard]] std::string foldCard(const SheetWork& work, const FoldEntry& fold);
/// A plan over two brakes; nothing without one.
[[nodiscard]] std::string splitSection(const PlanDocument& document, const SheetExtras& extras,
                                       std::vector<DrawingFile>& drawings);
/// Why no order works, with the first contacts drawn.
[[nodiscard]] std::string reasonSection(const SheetWork& work, const BrakeEntry& brake);
/// What an independent replay found wrong; nothing when it agrees or nobody asked.
[[nodiscard]] std::string replayWarning(const ReplayEntry& replay);
/// A title with sentences under it, kept together.
[[nodiscard]] std::string sectionHtml(const Section& section);

}  // namespace tinwright::report
