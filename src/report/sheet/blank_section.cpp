// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/part/allowance/allowance.h>
#include <tinwright/report/sentences/allowance_text.h>

#include "drawings/blank_drawing.h"
#include "drawings/blank_marks.h"
#include "kinds/brake_words.h"
#include "paper/html.h"
#include "paper/paper_view.h"
#include "sheet/sheet_parts.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

std::string bendRow(const Part& part, const BendMark& mark, bool with_sight) {
    const Bend& bend = part.bend(mark.bend);
    const bool measured = !mark.edge.empty();
    std::vector<std::string> cells{bend.name, turnWords(bend), measured ? millimetres(mark.line_mm) : "-"};
    if (with_sight) cells.push_back(measured && mark.has_sight ? millimetres(mark.sight_mm) : "-");
    cells.insert(cells.end(), {measured ? mark.edge : "none runs along it", bend.up ? "drawn" : "other"});
    return row(mark.fold == 0 ? "-" : std::to_string(mark.fold), cells);
}

std::string bendTable(const Part& part, const std::vector<BendMark>& marks, bool with_sight) {
    std::vector<const char*> names{"Fold", "Bend", "Angle", "Bend line"};
    if (with_sight) names.push_back("Sight line");
    names.insert(names.end(), {"mm from edge", "Mark on face"});
    std::string head;
    for (const char* name : names) head += element("th", name);
    std::string rows = wrap("tr", head);
    for (const BendMark& mark : marks) rows += bendRow(part, mark, with_sight);
    return wrap("div", wrap("table", rows), "scroll");
}

std::vector<std::string> allowanceCells(const Part& part, const Bend& bend) {
    return {degrees(bend.angle.deg()), fmt::format("{:.4g}", bend.inside_radius_mm), allowanceRuleText(bend),
            fmt::format("{:.2f}", bend.allowance_mm),
            fmt::format("{:.2f}",
                        bendDeduction_mm(bend.angle, bend.inside_radius_mm, part.thickness_mm, bend.allowance_mm))};
}

/// Bends that agree in all of it share a row.
std::string allowanceTable(const Part& part) {
    std::vector<std::pair<std::vector<std::string>, std::vector<std::string>>> rows;  // cells, bends
    for (const Bend& bend : part.bends) {
        const std::vector<std::string> cells = allowanceCells(part, bend);
        auto same = std::find_if(rows.begin(), rows.end(), [&](const auto& known) { return known.first == cells; });
        if (same == rows.end()) same = rows.insert(rows.end(), {cells, {}});
        same->second.push_back(bend.name);
    }
    std::string head;
    for (const char* name : {"Allowance of", "Angle", "Inside radius mm", "Rule", "Sheet it takes mm", "Deduction mm"})
        head += element("th", name);
    std::string markup = wrap("tr", head);
    for (const auto& [cells, bends] : rows)
        markup += row(rows.size() == 1 && bends.size() > 1 ? "all bends" : listed(bends), cells);
    return wrap("div", wrap("table", markup), "scroll");
}

std::string weightText(const SheetWork& work, double area_mm2) {
    const std::optional<Material>& material = work.extras.material;
    if (!material || !material->density_g_per_cm3.known()) return "weight not known: no density for this material";
    const Property& density = material->density_g_per_cm3;
    const double grams =
        area_mm2 * work.part().thickness_mm * density.least.value_or(density.most.value_or(0)) / 1000.0;
    return grams < 1000 ? fmt::format("{:.0f} g", grams) : fmt::format("{:.2f} kg", grams / 1000);
}

std::string sizeText(const SheetWork& work) {
    const Part& part = work.part();
    if (part.blank.outline.empty()) return {};
    const Box box = boxAround(part.blank.outline);
    return fmt::format("{} x {} mm over all, {:.4g} mm {}, {}", millimetres(box.size().x()),
                       millimetres(box.size().y()), part.thickness_mm, part.material,
                       weightText(work, area_mm2(part.blank)));
}

std::string zeroText(const Part& part) {
    if (part.blank.outline.empty()) return {};
    const Box box = boxAround(part.blank.outline);
    const std::string left = edgeOn(part, 0, box.least.x());
    const std::string front = edgeOn(part, 1, box.least.y());
    return fmt::format("Figures run from the left-most {} and from the lowest {}; bends carry their fold's number.",
                       left.empty() ? "point" : "edge (" + left + ")",
                       front.empty() ? "point" : "edge (" + front + ")");
}

}  // namespace

std::string blankSection(const SheetWork& work, const Plan* plan) {
    const std::vector<BendMark> marks = bendMarks(work.shapes.part, work.brake, plan);
    const std::vector<Finding> weak = weakPlaces(work);
    const Drawing blank = blankDrawing(work.part(), marks, weak);
    std::string text = element("h3", "Blank, seen from the drawn face");
    text += element("p", sizeText(work) + ". " + zeroText(work.part()));
    text += wrap("div", work.keep("blank", blank), "wide");
    const SheetTerms& terms = wordsFor(*work.brake).terms.sheet;
    text += element(
        "p",
        std::string("Thick: edge as cut. ") + terms.blank_lines +
            "Mark with a pen, not a scriber, on what becomes the outside of a bend." +
            std::string(weak.empty() ? "" : " Dotted: where a check finds the sheet weak; no line to cut or mark."));
    text = wrap("div", text, "keep");
    if (terms.has_sight_lines && needsOtherFace(work.part())) {
        const Drawing other = otherFaceDrawing(work.part(), marks);
        text += wrap("div",
                     element("h3", "Other face: sight lines of the bends that fold down") +
                         wrap("div", work.keep("blank-other-face", other), "wide"),
                     "keep");
    }
    return text + wrap("div", bendTable(work.part(), marks, terms.has_sight_lines), "keep") +
           wrap("div", allowanceTable(work.part()), "keep");
}

}  // namespace tinwright::report
