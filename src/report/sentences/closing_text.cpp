// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/closing_text.h"

#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "kinds/brake_words.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kFlush_mm = 0.05;

/// Where the hem lies along the pieces, from the one at the left that bears on it.
std::string alongText(const BrakeInSetup& brake, const FoldStep& step) {
    const ClosingTerms& terms = wordsFor(*brake).terms.closing;
    const PlacedTool* first = nullptr;
    for (const PlacedTool& bar : step.tools) {
        if (brake->rowOf(bar.tool) == terms.along && first == nullptr) first = &bar;
    }
    if (first == nullptr) return {};
    const double from_left_mm = step.closing->part_x_mm - (step.part_x_mm + first->from_mm);
    const std::string piece = fmt::format("{} {}", terms.piece, brake->tool(first->tool).id);
    if (std::abs(from_left_mm) < kFlush_mm) return "its left end flush with that of " + piece;
    return fmt::format("its left end {} mm {} of that of {}", millimetres(std::abs(from_left_mm)),
                       from_left_mm < 0 ? "left" : "right", piece);
}

}  // namespace

std::string closingText(const Part& part, const BrakeInSetup& brake, const FoldStep& step) {
    const ClosingTerms& terms = wordsFor(*brake).terms.closing;
    const HemClosing& closing = *step.closing;
    const Bend& bend = part.bend(step.stroke.first());
    const std::string gap =
        bend.hem->gap_mm > 0 ? fmt::format(", {} mm of packing in it", millimetres(bend.hem->gap_mm)) : "";
    std::string text = closing.turned ? "take the part out and turn it half round" : "take the part out";
    text += fmt::format("; with {} towards you push the folded edge {} mm {}, {}; ", part.panel(bend.parent).name,
                        millimetres(closing.inserted_mm), terms.pushed_in, alongText(brake, step));
    text += fmt::format("{} it to {} mm{}; {}", terms.close, millimetres(closing.height_mm), gap,
                        closing.lifted_out ? "then lift the part out" : "then draw the part out to you");
    return text + ". " + terms.hands_off;
}

std::string closingTroubleWords(const Part& part, const BrakeInSetup& brake, const ClosingTrouble& trouble) {
    using Why = ClosingTrouble::Why;
    switch (trouble.why) {
        case Why::kNoPieces: break;
        case Why::kMeets:
            return fmt::format("{} meets {} on its way down, or may meet it", bodyName(part, brake, trouble.between[0]),
                               bodyName(part, brake, trouble.between[1]));
        case Why::kTooDeep:
            return fmt::format("the hem is {:.1f} mm deep, the flats that would close it are level over {:.1f} mm",
                               trouble.needs_mm, trouble.has_mm);
        case Why::kStandsHigh:
            return fmt::format(
                "after its first fold the return stands {:.1f} mm high, and what would close it opens to {:.1f} mm",
                trouble.needs_mm, trouble.has_mm);
        case Why::kNoJaw: return fmt::format("die {} has no jaw that closes this sheet", brake->tool(*trouble.die).id);
        case Why::kJawsDiffer: return "the dies' jaws are not alike";
        case Why::kJawLow:
            return fmt::format("the hem is {:.1f} mm high when it is closed, the jaw opens to {:.1f} mm",
                               trouble.needs_mm, trouble.has_mm);
        case Why::kRamReach: return "the ram does not come down far enough to close the jaw, or does not open over it";
        case Why::kRestInTheWay:
            return "with its edge between the tools that close it the rest of the part is in their way";
    }
    return "no pieces close it";
}

}  // namespace tinwright::report
