// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/dxf/dxf_io.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include <tinwright/base/units.h>
#include <tinwright/base/words.h>
#include <tinwright/io/json/json_reading.h>
#include <tinwright/part/flat/flat_blank.h>

#include "dxf/bends_file.h"
#include "dxf/dxf_bends.h"
#include "dxf/dxf_layers.h"
#include "dxf/dxf_loops.h"
#include "entities/dxf_limits.h"
#include "entities/dxf_vet.h"

namespace tinwright {

namespace {

void append(std::vector<std::string>& all, const std::vector<std::string>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

/// Codes of $INSUNITS, from the DXF reference.
std::optional<double> mmPerUnit(int insunits) {
    switch (insunits) {
        case 1: return kMmPerInch;
        case 2: return 304.8;   // foot
        case 4: return 1.0;     // millimetre
        case 5: return 10.0;    // centimetre
        case 6: return 1000.0;  // metre
        case 9: return 0.0254;  // mil
        case 14: return 100.0;  // decimetre
        default: return std::nullopt;
    }
}

Result<double> unitsOf(const DxfDrawing& drawing, const BendsFile& bends, const DxfOptions& options,
                       const std::string& file) {
    if (options.mm_per_unit) return *options.mm_per_unit;
    if (bends.mm_per_drawing_unit) return *bends.mm_per_drawing_unit;
    const auto from_header = drawing.insunits ? mmPerUnit(*drawing.insunits) : std::nullopt;
    if (from_header) return *from_header;
    return Issue{"dxf.units",
                 file,
                 "",
                 drawing.insunits ? fmt::format("$INSUNITS {}", *drawing.insunits) : "no $INSUNITS in the header",
                 "the units of the drawing",
                 "say --units mm or --units in, or \"drawing_units\" in " + bends.file};
}

class BlankReader {
public:
    BlankReader(const NamedText& dxf, BendsFile bends, const DxfOptions& options)
        : dxf_(dxf), bends_(std::move(bends)), options_(options) {
        bends_.allowance.measured = options.measured;
        append(bends_.layers.cut, options.cut_layers);
        append(bends_.layers.bend, options.bend_layers);
        append(bends_.layers.ignored, options.ignored_layers);
        append(bends_.layers.bend_line_types, options.bend_line_types);
    }
    Result<Part> read(const DxfDrawing& drawing);

private:
    void noteDrawing(const DxfDrawing& drawing, const DxfCurves& curves);
    void noteLoops(const DxfLoops& loops);
    Result<std::vector<FlatLine>> bendLines(const std::vector<DxfCurve>& curves) const;
    Issues named(Issues issues) const;
    Result<Part> make(const Region& sheet, const DxfSorted& sorted, const std::vector<DxfText>& texts,
                      double mm_per_unit);

    const NamedText& dxf_;
    BendsFile bends_;
    const DxfOptions& options_;
    std::vector<std::string> notices_;
};

void BlankReader::noteDrawing(const DxfDrawing& drawing, const DxfCurves& curves) {
    if (!drawing.left_out.empty()) {
        const std::string list = joined(drawing.left_out, ", ", [](const auto& type_and_count) {
            return fmt::format("{} {}", type_and_count.second, type_and_count.first);
        });
        notices_.push_back("drawing: left out, as neither cut nor bend lines: " + list);
    }
    const std::size_t hidden = drawing.hidden + curves.hidden;
    if (hidden > 0)
        notices_.push_back(
            fmt::format("drawing: left out, as not shown (paper space, invisible, layers off or frozen): {}", hidden));
}

void BlankReader::noteLoops(const DxfLoops& loops) {
    if (loops.doubled > 0)
        notices_.push_back(
            fmt::format("drawing: {} of the cut lines drawn twice, or over one another: cut once", loops.doubled));
    if (loops.trimmed > 0)
        notices_.push_back(fmt::format("drawing: {} cut lines that run past a corner by at most {} mm: trimmed",
                                       loops.trimmed, bends_.gap_mm));
    if (!loops.closed_gaps_mm.empty()) {
        notices_.push_back(
            fmt::format("drawing: {} of the gaps in cut lines closed, the widest {:.4f} mm (at most {} mm)",
                        loops.closed_gaps_mm.size(),
                        *std::max_element(loops.closed_gaps_mm.begin(), loops.closed_gaps_mm.end()), bends_.gap_mm));
    }
}

Result<std::vector<FlatLine>> BlankReader::bendLines(const std::vector<DxfCurve>& curves) const {
    std::vector<FlatLine> lines;
    Issues issues;
    for (const DxfCurve& curve : curves) {
        const Vec2& a = curve.points.front();
        const Vec2& b = curve.points.back();
        const std::string place = fmt::format("line {}, bend line from ({:.3f}, {:.3f}) to ({:.3f}, {:.3f}) mm",
                                              curve.tag.line, a.x(), a.y(), b.x(), b.y());
        if (curve.straight)
            lines.push_back({a, b, place});
        else
            issues.push_back({"dxf.bend.curved", dxf_.file, place, "a curve among the bend lines",
                              "straight bend lines", "is the right layer named for the bends?"});
        if (issues.size() >= 20) break;
    }
    for (const BendEntry& entry : bends_.bends) {
        for (const DrawnLine& line : entry.lines)
            lines.push_back({onDxfGrid(line.from), onDxfGrid(line.to), bends_.file + " " + entry.place + "/lines"});
    }
    if (!issues.empty()) return issues;
    return lines;
}

Issues BlankReader::named(Issues issues) const {
    for (Issue& issue : issues) {
        if (!issue.file.empty()) continue;
        issue.file = dxf_.file;
        issue.code = "dxf." + issue.code;
    }
    return issues;
}

Result<Part> BlankReader::make(const Region& sheet, const DxfSorted& sorted, const std::vector<DxfText>& texts,
                               double mm_per_unit) {
    const auto lines = bendLines(sorted.bends);
    if (!lines) return lines.issues();
    const auto joints = jointsOf(sheet, lines.value());
    if (!joints) return named(joints.issues());
    auto said = sayBends(joints.value(), {bends_, sorted.bends, texts, mm_per_unit, dxf_.file});
    if (!said) return named(said.issues());
    append(notices_, said.value().notices);
    FlatPart whole;
    whole.name = bends_.name.empty() ? std::filesystem::path(dxf_.file).stem().string() : bends_.name;
    whole.material = bends_.sheet.material;
    whole.thickness_mm = bends_.sheet.thickness_mm;
    whole.grain_deg = bends_.sheet.grain_deg;
    whole.film = bends_.sheet.film;
    whole.base_name = bends_.base_name;
    whole.base_at = bends_.base_at;
    whole.warnings = notices_;
    Result<Part> part = partFromFlat(sheet, said.value().joints, said.value().bends, whole);
    if (!part) return named(part.issues());
    return part;
}

Result<Part> BlankReader::read(const DxfDrawing& drawing) {
    const auto mm_per_unit = unitsOf(drawing, bends_, options_, dxf_.file);
    if (!mm_per_unit) return mm_per_unit.issues();
    const auto curves = placeCurves(drawing, mm_per_unit.value(), dxf_.file);
    if (!curves) return curves.issues();
    noteDrawing(drawing, curves.value());
    const DxfSorted sorted = sortByLayer(curves.value().curves, bends_.layers);
    append(notices_, sorted.notices);
    const auto loops = chainLoops(sorted.cuts, bends_.gap_mm, dxf_.file);
    if (!loops) return loops.issues();
    noteLoops(loops.value());
    const auto sheet = sheetOf(loops.value().loops, dxf_.file);
    if (!sheet) return sheet.issues();
    return make(sheet.value(), sorted, curves.value().texts, mm_per_unit.value());
}

JsonLimits dxfBytes() {
    JsonLimits limits;
    limits.bytes = DxfLimits::kBytes;
    return limits;
}

}  // namespace

bool isDxfPath(std::string_view path) { return inCapitals(path).ends_with(".DXF"); }

std::string bendsPathFor(const std::string& dxf_path) {
    return std::filesystem::path(dxf_path).replace_extension(".bends.json").string();
}

Result<Part> readDxfBlankText(const NamedText& dxf, const NamedText& bends_text, const DxfOptions& options) {
    Result<BendsFile> bends = readBendsFile(bends_text.text, bends_text.file);
    const Result<DxfDrawing> drawing = readDrawing(dxf.text, dxf.file);
    Issues issues;
    if (!drawing) append(issues, drawing.issues());
    if (!bends) append(issues, bends.issues());
    if (!issues.empty()) return issues;
    return BlankReader(dxf, std::move(bends).value(), options).read(drawing.value());
}

Result<Part> readDxfBlank(const std::string& dxf_path, const std::string& bends_path, const DxfOptions& options) {
    const Result<std::string> dxf = readTextFile(dxf_path, dxfBytes());
    const Result<std::string> bends = readTextFile(bends_path);
    Issues issues;
    if (!dxf) append(issues, dxf.issues());
    if (!bends) {
        append(issues, bends.issues());
        issues.back().expected = "a bends file beside " + dxf_path;
        issues.back().hint = "it says sheet, allowance and how each line is bent; --bends names another";
    }
    if (!issues.empty()) return issues;
    return readDxfBlankText({dxf.value(), dxf_path}, {bends.value(), bends_path}, options);
}

}  // namespace tinwright
