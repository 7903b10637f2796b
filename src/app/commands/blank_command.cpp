// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include <tinwright/base/words.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/box.h>
#include <tinwright/io/blank/blank_io.h>
#include <tinwright/report/sentences/allowance_text.h>
#include <tinwright/sequence/plan/planner.h>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/blank_cut.h"
#include "files/output_file.h"
#include "files/part_file.h"

namespace tinwright::app {
namespace {

bool endsIn(const std::string& path, std::string_view ending) {
    if (path.size() < ending.size()) return false;
    return std::equal(
        ending.begin(), ending.end(), path.end() - static_cast<std::ptrdiff_t>(ending.size()),
        [](char a, char b) { return a == (b >= 'A' && b <= 'Z' ? static_cast<char>(b - 'A' + 'a') : b); });
}

/// Where the nose stands at a fold: a nose radius from the start of the bend on the held side, as the sight line of a
/// plan.
void addSightLines(const Part& part, double nose_radius_mm, const FoldStep& fold, std::vector<MarkLine>& marks) {
    for (const BendId id : fold.bends) {
        const Bend& bend = part.bend(id);
        const bool parent_held = std::find(fold.held.begin(), fold.held.end(), bend.parent) != fold.held.end();
        const double back = 0.5 * bend.allowance_mm - nose_radius_mm;
        marks.push_back({id, parent_held ? -back : back});
    }
}

struct Marks {
    std::vector<MarkLine> lines;
    std::string words;
};

/// Sight lines of the best order on the first brake that has one.
Result<Marks> sightLines(const CommandLine& line, const Inputs& inputs) {
    for (const std::size_t index : inputs.brakes) {
        PlanOptions options;
        options.plans = 1;
        options.time_limit_s = line.time_limit_s;
        const BrakeResult result = planOnBrake(inputs.part, inputs.shop, index, options);
        if (result.plans.empty()) continue;
        const BrakeInSetup& brake = result.brake;
        if (brake->isPress())
            return Marks{bendLineMarks(inputs.part),
                         fmt::format("bend lines, where the punch of {} comes down", brake->name)};
        Marks marks{{},
                    fmt::format("sight lines of the best order on {} (nose radius {} mm)", brake->name,
                                brake.inside_radius_mm())};
        for (const FoldStep& fold : result.plans.front().folds)
            addSightLines(inputs.part, brake.inside_radius_mm(), fold, marks.lines);
        return marks;
    }
    return Issue{"blank.no-plan",
                 line.part_path,
                 "",
                 "no order of folds that works on the brakes asked about",
                 "a part that can be folded, for its sight lines",
                 "tinwright plan says why; --bend-marks marks the bend lines instead"};
}

Result<Marks> marksFor(const CommandLine& line, const Inputs& inputs) {
    if (!line.shop_path.empty() && !line.bend_marks) return sightLines(line, inputs);
    return Marks{bendLineMarks(inputs.part), "bend lines"};
}

/// Drawing first: a bends file without it says nothing. What can be refused is refused before either is written.
Issues writeOutputs(const CommandLine& line, const std::string& drawing, const Part& part) {
    const std::vector<std::string> inputs = inputFiles(line);
    if (line.bends_out) {
        if (Issues refused = refuseInput(*line.bends_out, inputs); !refused.empty()) return refused;
        if (*line.bends_out == line.out_path)
            return {{"output.twice", line.out_path, "", "one file for drawing and bends", "a file for each", ""}};
    }
    Issues issues = writeFile(line.out_path, drawing, inputs);
    if (issues.empty() && line.bends_out) issues = writeFile(*line.bends_out, bendsJson(part), inputs);
    return issues;
}

std::string textFor(const CommandLine& line, const Part& part, const BlankDrawing& drawing, const Marks& marks,
                    const BlankCut& cut) {
    const Vec2 size = boxOf(part.blank.outline).sizes();
    std::string text = fmt::format("Blank of {}: {:.2f} x {:.2f} mm, {:.1f} cm2, {}, {} -> {}\n", part.name, size.x(),
                                   size.y(), area_mm2(part.blank) / 100, counted(part.blank.holes.size(), "cut-out"),
                                   counted(part.bends.size(), "bend"), line.out_path);
    if (!part.bends.empty()) text += "  Allowance  " + allowanceText(part) + "\n";
    text += cutText(cut);
    text += fmt::format("  MARK       {}, cut through, at the ends of the {}\n", counted(drawing.mark.size(), "nick"),
                        marks.words);
    if (drawing.unmarked > 0)
        text += fmt::format("             {} ends lie within the sheet and have none\n", drawing.unmarked);
    if (line.bend_lines) {
        text += fmt::format("  BEND_UP    {}, to be scribed on the drawn face only (inside of bends up)\n",
                            counted(drawing.bend_up.size(), "line"));
        text += fmt::format("  BEND_DOWN  {}, to be scribed on the other face only (inside of bends down)\n",
                            counted(drawing.bend_down.size(), "line"));
    }
    if (line.bends_out) {
        text += "  Bends      " + *line.bends_out + "\n";
        if (cut.cut)
            text += "             The drawing lacks the holes of the drill list: read back, the part lacks them too.\n";
    }
    for (const std::string& warning : part.warnings) text += "  Note       " + warning + "\n";
    return text;
}

}  // namespace

int runBlank(const CommandLine& line) {
    const bool is_dxf = endsIn(line.out_path, ".dxf");
    if (!is_dxf && !endsIn(line.out_path, ".svg")) {
        return complain(
            {{"output.kind", "command line", "-o", '"' + line.out_path + '"', "a file that ends in .dxf or .svg", ""}});
    }
    const Result<Inputs> inputs = readInputs(line);
    if (!inputs) return complain(inputs.issues());
    const Part& part = inputs.value().part;
    const Result<Marks> marks = marksFor(line, inputs.value());
    if (!marks) return complain(marks.issues());
    const Result<BlankCut> cut = blankCut(line, part, inputs.value().shop.cutting);
    if (!cut) return complain(cut.issues());
    const BlankDrawing drawing = drawBlank(part, {marks.value().lines, line.bend_lines, cut.value().cut,
                                                  drillCentres(cut.value()), cutComments(part, cut.value())});
    Issues issues = writeOutputs(line, is_dxf ? blankDxf(drawing) : blankSvg(drawing), part);
    if (issues.empty()) issues = writeStandardOutput(textFor(line, part, drawing, marks.value(), cut.value()));
    return issues.empty() ? static_cast<int>(kFeasibleExit) : complain(issues);
}

}  // namespace tinwright::app
