// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/shop/material.h>
#include <tinwright/report/data/plan_report.h>

namespace tinwright {

/// What a sheet says besides the plan.
struct SheetExtras {
    std::optional<Material> material;  ///< of the part, for its weight; none: nobody knows it
};

struct DrawingFile {
    std::string name;  ///< "blank.svg"; with the brake's name in front when the report is about several
    std::string svg;
};

/// The plan as a person at the brake holds it.
struct BenchSheet {
    std::string html;                   ///< one page that needs nothing else; A4 or Letter, or a phone
    std::vector<DrawingFile> drawings;  ///< its drawings, each as a file of its own; sizes are mm on paper
};

/// The same report gives the same bytes. Names out of files are escaped.
[[nodiscard]] BenchSheet benchSheet(const PlanReport& report, const SheetExtras& extras = {});

}  // namespace tinwright
