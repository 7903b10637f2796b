// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "kinds/brake_words.h"
#include "paper/html.h"
#include "sheet/sheet_parts.h"
#include "words/text_width.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

std::string filmText(Film film, const std::string& where) {
    switch (film) {
        case Film::kUnsaid: return "Film, if there is any, " + where;
        case Film::kNone: return {};
        case Film::kDrawnFace: return "Film on the drawn face " + where;
        case Film::kBackFace: return "Film on the face that is not drawn " + where;
        case Film::kBothFaces: return "Film on both faces " + where;
    }
    return {};
}

std::string grainText(const Part& part) {
    if (part.grain_deg) return "Grain runs along the arrow on the blank";
    return "Grain looked up: bend across it where you can, tight bends along it may crack";
}

}  // namespace

std::string checklist(const SheetWork& work) {
    const Part& part = work.part();
    const BrakeWords& words = wordsFor(*work.brake);
    const SheetTerms& terms = words.terms.sheet;
    std::vector<std::string> lines{
        fmt::format("Sheet measured: {:.4g} mm is what the blank was drawn for", part.thickness_mm),
        fmt::format("{}: {}", words.terms.set_up_label,
                    words.setUp(work.brake, part.thickness_mm, work.brake_report.shownPlan())),
        filmText(part.film, terms.film_off),
        grainText(part),
        "Edges and holes deburred, nicks filed out where a bend runs into an edge",
        terms.lines_marked,
        "Test strip of this sheet folded, legs and angle written down below"};
    std::string items;
    for (const std::string& line : lines) {
        if (!line.empty()) items += wrap("p", tickBox() + xmlText(line));
    }
    return items;
}

}  // namespace tinwright::report
