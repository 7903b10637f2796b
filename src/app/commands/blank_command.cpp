// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <optional>
#include <variant>

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
#include "files/inputs.h"
#include "files/output_file.h"
#include "files/part_file.h"
#include "work/made_part.h"

namespace tinwright::app {
namespace {

constexpr const char* kBlankHelp =
    "Examples:\n"
    "  tinwright blank part.json -o part.dxf\n"
    "      outline and cut-outs, and nicks at the ends of the bend lines\n"
    "  tinwright blank part.json -o part.dxf --shop shop.json --brake finger\n"
    "      nicks at the sight lines of the best order on that brake, developed for the inside radius of its nose\n"
    "  tinwright blank part.json -o part.dxf --bend-lines --bends-out part.bends.json\n"
    "      for reading back: tinwright plan part.dxf --shop shop.json\n"
    "  tinwright blank part.json -o part.dxf --shop shop.json --kerf\n"
    "      paths moved by half the kerf, for a table that follows the lines as they are\n"
    "Layers: CUT; DRILL, centres of the holes that the shop's way of cutting is too coarse for; MARK, nicks of 2 mm "
    "from the edge, to be cut through so that both faces show them;\n"
    "with --bend-lines BEND_UP, to be scribed on the drawn face only, and BEND_DOWN, on the other face only: a line "
    "scribed\n"
    "on the outside of a bend starts a crack.\n";

struct BlankArguments {
    JobChoice job;         ///< with a shop: sight lines of its best order, and cut as it cuts
    std::string out_path;  ///< the drawing
    std::optional<std::string> bends_out;
    bool bend_lines = false;
    bool bend_marks = false;    ///< bend lines, whatever the shop
    bool drawn_radius = false;  ///< keep the drawn inside radius, whatever the brake gives
    KerfChoice kerf;
    EffortChoice effort;
};

std::vector<Option> outputOptions(BlankArguments& arguments) {
    return {{.name = "-o,--output",
             .target = &arguments.out_path,
             .meaning = "the drawing; its ending says which: .dxf or .svg",
             .type = "FILE",
             .required = true},
            {.name = "--bends-out",
             .target = &arguments.bends_out,
             .meaning = "write also how the lines are bent, for reading the drawing back",
             .type = "FILE"},
            {.name = "--bend-lines",
             .target = &arguments.bend_lines,
             .meaning = "draw whole bend lines, each for the inside face of its bend"}};
}

std::vector<Option> blankOptions(BlankArguments& arguments) {
    std::vector<Option> options = partOptions(arguments.job.part);
    append(options, outputOptions(arguments));
    append(options,
           optionalShopOptions(arguments.job.shop,
                               "develop for the inside radius that its brake gives, mark the sight lines of the "
                               "best order, and cut as it cuts"));
    append(
        options,
        {{.name = "--bend-marks", .target = &arguments.bend_marks, .meaning = "mark the bend lines even with a shop"},
         {.name = "--drawn-radius",
          .target = &arguments.drawn_radius,
          .meaning = "develop for the inside radius that is drawn, not for the one that the brake gives"},
         {.name = "--kerf",
          .target = &arguments.kerf.shops_kerf,
          .meaning = "move outlines by half the shop's kerf (default: the cutting program does)"},
         numberOption(kKerfWidthOption, arguments.kerf.width_mm),
         numberOption(kTimeLimitOption, arguments.effort.time_limit_s)});
    return options;
}

bool endsIn(const std::string& path, std::string_view ending) {
    if (path.size() < ending.size()) return false;
    return std::equal(
        ending.begin(), ending.end(), path.end() - static_cast<std::ptrdiff_t>(ending.size()),
        [](char a, char b) { return a == (b >= 'A' && b <= 'Z' ? static_cast<char>(b - 'A' + 'a') : b); });
}

/// Where the nose stands at a fold: a nose radius from the start of the bend on the held side, as the sight line of a
/// plan.
void addSightLines(const Part& part, double nose_radius_mm, const FoldStep& fold, std::vector<MarkLine>& marks) {
    for (const BendId id : bendsIn(fold.stroke.bends)) {
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

Marks marksOn(const LeafBrake&, const Part& part, const BrakeInSetup& brake, const Plan& plan) {
    Marks marks{
        {},
        fmt::format("sight lines of the best order on {} (nose radius {} mm)", brake->name, brake.inside_radius_mm())};
    for (const FoldStep& fold : plan.folds) addSightLines(part, brake.inside_radius_mm(), fold, marks.lines);
    return marks;
}

/// The sheet is laid under the punch by its bend lines.
Marks marksOn(const PressBrake&, const Part& part, const BrakeInSetup& brake, const Plan& /*plan*/) {
    return {bendLineMarks(part), fmt::format("bend lines, where the punch of {} comes down", brake->name)};
}

/// What is drawn: the part as it is made, and its marks.
struct Drawn {
    Part part;
    Marks marks;
    std::string radius_words;  ///< empty without a shop
};

/// With the sight lines of the best order on the first brake that has one.
Result<Drawn> drawnForOrder(const BlankArguments& arguments, const Inputs& inputs) {
    MadeHow how{.drawn_radius = arguments.drawn_radius, .plan = true, .options = {}};
    how.options.plans = 1;
    how.options.time_limit_s = arguments.effort.time_limit_s;
    for (const std::size_t index : inputs.brakes) {
        Result<MadePart> made = madeOn(arguments.job.part, inputs, index, how);
        if (!made) return made.issues();
        MadePart& on_brake = made.value();
        if (on_brake.planned->plans.empty()) continue;
        Marks marks = std::visit(
            [&](const auto& kind) {
                return marksOn(kind, on_brake.part, on_brake.brake, on_brake.planned->plans.front());
            },
            on_brake.brake->kind);
        return Drawn{std::move(on_brake.part), std::move(marks), std::move(on_brake.radius_words)};
    }
    return Issue{"blank.no-plan",
                 arguments.job.part.path,
                 "",
                 "no order of folds that works on the brakes asked about",
                 "a part that can be folded, for its sight lines",
                 "tinwright plan says why; --bend-marks marks the bend lines instead"};
}

Result<Drawn> drawnFor(const BlankArguments& arguments, const Inputs& inputs) {
    if (inputs.brakes.empty()) return Drawn{inputs.part, {bendLineMarks(inputs.part), "bend lines"}, {}};
    if (!arguments.bend_marks) return drawnForOrder(arguments, inputs);
    const MadeHow how{.drawn_radius = arguments.drawn_radius, .plan = false, .options = {}};
    Result<MadePart> made = madeOn(arguments.job.part, inputs, inputs.brakes.front(), how);
    if (!made) return made.issues();
    Marks marks{bendLineMarks(made.value().part), "bend lines"};
    return Drawn{std::move(made.value().part), std::move(marks), std::move(made.value().radius_words)};
}

/// Drawing first: a bends file without it says nothing. What can be refused is refused before either is written.
Issues writeOutputs(const BlankArguments& arguments, const std::string& drawing, const Part& part) {
    const std::vector<std::string> inputs = inputFiles(arguments.job.part, arguments.job.shop);
    if (arguments.bends_out) {
        if (Issues refused = refuseInput(*arguments.bends_out, inputs); !refused.empty()) return refused;
        if (*arguments.bends_out == arguments.out_path)
            return {{"output.twice", arguments.out_path, "", "one file for drawing and bends", "a file for each", ""}};
    }
    Issues issues = writeFile(arguments.out_path, drawing, inputs);
    if (issues.empty() && arguments.bends_out) issues = writeFile(*arguments.bends_out, bendsJson(part), inputs);
    return issues;
}

std::string textFor(const BlankArguments& arguments, const Drawn& drawn, const BlankDrawing& drawing,
                    const BlankCut& cut) {
    const Part& part = drawn.part;
    const Vec2 size = boxOf(part.blank.outline).sizes();
    std::string text = fmt::format("Blank of {}: {:.2f} x {:.2f} mm, {:.1f} cm2, {}, {} -> {}\n", part.name, size.x(),
                                   size.y(), area_mm2(part.blank) / 100, counted(part.blank.holes.size(), "cut-out"),
                                   counted(part.bends.size(), "bend"), arguments.out_path);
    if (!part.bends.empty()) text += "  Allowance  " + allowanceText(part) + "\n";
    if (!part.bends.empty() && !drawn.radius_words.empty()) text += "  Radius     " + drawn.radius_words + "\n";
    text += cutText(cut);
    text += fmt::format("  MARK       {}, cut through, at the ends of the {}\n", counted(drawing.mark.size(), "nick"),
                        drawn.marks.words);
    if (drawing.unmarked > 0)
        text += fmt::format("             {} ends lie within the sheet and have none\n", drawing.unmarked);
    if (arguments.bend_lines) {
        text += fmt::format("  BEND_UP    {}, to be scribed on the drawn face only (inside of bends up)\n",
                            counted(drawing.bend_up.size(), "line"));
        text += fmt::format("  BEND_DOWN  {}, to be scribed on the other face only (inside of bends down)\n",
                            counted(drawing.bend_down.size(), "line"));
    }
    if (arguments.bends_out) {
        text += "  Bends      " + *arguments.bends_out + "\n";
        if (cut.cut)
            text += "             The drawing lacks the holes of the drill list: read back, the part lacks them too.\n";
    }
    for (const std::string& warning : part.warnings) text += "  Note       " + warning + "\n";
    return text;
}

/// Paths moved by the kerf are not the edges of the part.
Issues checkKerf(const BlankArguments& arguments) {
    if (!arguments.kerf.asked() || !arguments.bends_out) return {};
    return {{"blank.kerf", "command line", "--kerf", "--bends-out beside it", "one of the two",
             "a drawing moved by the kerf is not the part, and would be read back as another one"}};
}

int runBlank(const BlankArguments& arguments) {
    const bool is_dxf = endsIn(arguments.out_path, ".dxf");
    if (!is_dxf && !endsIn(arguments.out_path, ".svg")) {
        return complain({{"output.kind", "command line", "-o", '"' + arguments.out_path + '"',
                          "a file that ends in .dxf or .svg", ""}});
    }
    const Result<Inputs> inputs = readInputs(arguments.job);
    if (!inputs) return complain(inputs.issues());
    const Result<Drawn> drawn = drawnFor(arguments, inputs.value());
    if (!drawn) return complain(drawn.issues());
    const Part& part = drawn.value().part;
    if (const Issues issues = checkKerf(arguments); !issues.empty()) return complain(issues);
    const Result<BlankCut> cut = blankCut(arguments.kerf, arguments.job, part, inputs.value().shop.cutting);
    if (!cut) return complain(cut.issues());
    const BlankDrawing drawing = drawBlank(part, {drawn.value().marks.lines, arguments.bend_lines, cut.value().cut,
                                                  drillCentres(cut.value()), cutComments(part, cut.value())});
    Issues issues = writeOutputs(arguments, is_dxf ? blankDxf(drawing) : blankSvg(drawing), part);
    if (issues.empty()) issues = writeStandardOutput(textFor(arguments, drawn.value(), drawing, cut.value()));
    return issues.empty() ? static_cast<int>(kFeasibleExit) : complain(issues);
}

}  // namespace

Command blankCommand() {
    return makeCommand("blank", "Write the flat blank as a drawing for the cutting table.",
                       std::string(kBlankHelp) + kWrittenExitCodes, blankOptions, runBlank);
}

}  // namespace tinwright::app
