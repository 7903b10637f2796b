// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include <fmt/format.h>

#include <tinwright/base/general_tolerance.h>
#include <tinwright/report/data/bar_datum.h>

#include "drawings/handling_drawing.h"
#include "drawings/part_picture.h"
#include "fold_drawings/closing_drawing.h"
#include "fold_drawings/fold_drawings.h"
#include "kinds/brake_words.h"
#include "paper/html.h"
#include "sentences/check_size.h"
#include "sentences/trouble_words.h"
#include "sheet/sheet_parts.h"
#include "words/text_width.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

std::string firstThings(const FoldEntry& fold) {
    std::string text = element("span", "First: " + fold.words.hold);
    const Drawing arrows = handlingDrawing(fold.step);
    if (fold.place.before != nullptr && !arrows.empty()) text += arrows.svg(false);
    const std::string stays = fmt::format("same {} at the same places", wordsFor(*fold.on.brake).terms.tools.all);
    text += element("span", fold.tools_stay ? stays : barChange(fold), fold.tools_stay ? "" : "big");
    return wrap("div", text, "first");
}

/// By the shorter leg, so only where both can be measured.
std::string angleText(const BrakeWords& words, const Bend& bend, const std::vector<CheckSize>& sizes,
                      bool is_one_of_several) {
    if (sizes.size() < 2 || bend.hem) return {};
    const std::optional<double> tolerance = iso2768Angle_deg('m', std::min(sizes[0].size_mm, sizes[1].size_mm));
    if (!tolerance) return {};
    return fmt::format("; {}{} ±{}", is_one_of_several ? bend.name + " " : "", words.finishedAngle(bend.angle.deg()),
                       minutes(*tolerance));
}

std::string sizesText(const SheetWork& work, const FoldEntry& fold) {
    std::string text;
    for (const BendId bend : bendsIn(fold.step.stroke.bends)) {
        const std::vector<CheckSize> sizes =
            checkSizes(work.part(), bend, fold.place.formed_after, work.brake.inside_radius_mm(), cutProcess(work));
        for (const CheckSize& size : sizes) text += (text.empty() ? "" : "; ") + size.words;
        text += angleText(wordsFor(*work.brake), work.part().bend(bend), sizes, countBends(fold.step.stroke.bends) > 1);
    }
    return text;
}

/// The angle at which the bound was proven says less than the place where the two come nearest as drawn.
std::string clearanceNote(const FoldView& view, const SheetWork& work, const FoldWords& words) {
    std::string text = words.clearance;
    if (view.tight) {
        text += fmt::format("; nearest at {}, {}", wordsFor(*work.brake).about(view.tight_at.deg()),
                            placeWords(0.5 * (view.tight->a.x() + view.tight->b.x()), view.scene.length_mm()));
    }
    if (view.tight_mm < work.report.shop.limits.clearance_mm)
        text += fmt::format("; TIGHT: the shop wants {} mm", millimetres(work.report.shop.limits.clearance_mm));
    return text;
}

std::string facts(const SheetWork& work, const FoldEntry& fold, const FoldView& view) {
    const FoldWords& words = fold.words;
    const FoldLabels& labels = wordsFor(*work.brake).terms.fold;
    std::string rows = row(labels.gauging, {words.gauging});
    if (!words.packing.empty()) rows += row("Packing", {words.packing});
    if (!words.care.empty()) rows += row("Care", words.care);
    for (const FoldWords::Tools& tools : words.tools) rows += row(tools.label, {tools.words});
    if (!words.stand.empty()) rows += row("Overhang", {words.stand});
    rows += wrap("tr", element("th", labels.stroke_card) + element("td", words.stroke, "big"));
    rows += row("Clearance", {clearanceNote(view, work, words)});
    rows += row("Tolerances", {words.tolerances});
    rows += row("Time", {fold.time});
    const std::string sizes = sizesText(work, fold);
    if (!sizes.empty()) rows += row("Check outside", {sizes});
    return wrap("table", rows, "facts");
}

/// How bars and part go in and come out, side by side under the rest.
std::string ways(const FoldWords& words, const SheetTerms& terms) {
    const std::string plain = std::string(" ") + terms.leaves_plainly;
    std::string in;
    if (!words.way_in.empty()) in = wrap("div", element("b", "Way in:") + list(words.way_in, "ol"), "way");
    const std::string out =
        words.way_out.empty() ? element("b", "Way out:") + plain : element("b", "Way out:") + list(words.way_out, "ol");
    return wrap("div", in + wrap("div", out, "way"), "pics");
}

/// In few lines: a card has to stay on one page.
std::string metalNotes(const std::vector<Finding>& findings) {
    std::string text;
    for (const Finding& finding : findings) {
        std::string cure;
        for (const std::string& remedy : finding.remedies) cure += (cure.empty() ? " To do: " : "; or ") + remedy;
        const std::string gravity = gravityWords(finding);
        text += wrap("p", "<b>" + (gravity.empty() ? "Metal: " : gravity) + "</b>" +
                              xmlText(finding.words + "." + cure) + " <small>" + xmlText(finding.id) + "</small>");
    }
    return text;
}

/// A card of its own: it is done on its own, with its own picture.
std::string closingCard(const SheetWork& work, const FoldEntry& fold, const std::string& file) {
    const std::string title =
        wrap("h3", tickBox() + xmlText("Then close " + strokeName(work.part(), fold.step.bends())));
    const std::string picture = work.keep(
        file + "closing", closingDrawing(work.shapes.on_brake, work.brake, fold.step, fold.name + ", closing"));
    return wrap("div",
                title + wrap("div", picture + wrap("div", element("p", fold.words.closing + "."), "beside"), "pics"),
                "card");
}

}  // namespace

std::string SheetWork::keep(const std::string& name, const Drawing& drawing) const {
    drawings.push_back({file_prefix + name + ".svg", drawing.svg(true)});
    return drawing.svg(false);
}

std::string foldCard(const SheetWork& work, const FoldEntry& fold) {
    const FoldStep& step = fold.step;
    const FoldScene scene(work.shapes, step.on(work.brake, work.part().thickness_mm),
                          {fold.place.formed_before, step.stroke, step.set_angle});
    const FoldView view = viewOf(scene, work.tools, step);
    const std::string file = fmt::format("fold-{:02}-", fold.place.number);
    const SheetTerms& terms = wordsFor(*work.brake).terms.sheet;
    const FoldDrawings& drawings = drawingsFor(*work.brake);
    std::string pictures = work.keep(file + "section", drawings.section(view, fold.name + ", cross-section"));
    pictures +=
        work.keep(file + "bars", drawings.fromAbove(view, fold.datum, fold.name + ", " + terms.seen_from_above));
    const std::string picture = work.keep(file + "part", partPicture(scene, fold.name + ", part before and after"));
    const std::string card =
        wrap("div",
             wrap("h3", tickBox() + xmlText(fold.title)) + firstThings(fold) + wrap("div", pictures, "pics") +
                 wrap("div", picture + wrap("div", facts(work, fold, view), "beside"), "pics") +
                 metalNotes(fold.findings) + ways(fold.words, terms),
             "card");
    return step.closing ? card + closingCard(work, fold, file) : card;
}

}  // namespace tinwright::report
