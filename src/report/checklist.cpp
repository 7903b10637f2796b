// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "html.h"
#include "sheet_parts.h"
#include "text_width.h"
#include "words.h"

namespace tinwright::report {
namespace {

std::string filmText(Film film) {
    switch (film) {
        case Film::kUnsaid: return "Film, if there is any, peeled where bar, bed and leaf bear";
        case Film::kNone: return {};
        case Film::kDrawnFace: return "Film on the drawn face peeled where bar, bed and leaf bear";
        case Film::kBackFace: return "Film on the face that is not drawn peeled where bar, bed and leaf bear";
        case Film::kBothFaces: return "Film on both faces peeled where bar, bed and leaf bear";
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
    std::vector<std::string> lines{fmt::format("Sheet measured: {:.4g} mm is what the blank was drawn for", part.thickness_mm), filmText(part.film), grainText(part),
                                   "Edges and holes deburred, nicks filed out where a bend runs into an edge",
                                   "Sight lines marked with a pen, the drawn face marked as such",
                                   "Test strip of this sheet folded, legs and angle written down below"};
    std::string items;
    for (const std::string& line : lines) {
        if (!line.empty()) items += wrap("p", tickBox() + xmlText(line));
    }
    return items;
}

}  // namespace tinwright::report
