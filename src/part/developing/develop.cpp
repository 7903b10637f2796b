// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/developing/develop.h>

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/part/model/round_hole.h>

#include "developing/blank_check.h"
#include "developing/corner_cut.h"
#include "developing/cut_out.h"

namespace tinwright {

namespace {

// A free piece of edge shorter than this is no edge to measure from.
constexpr double kShortestEdge_mm = 1.0;
// Area of a cut-out that lies off the sheet by rounding.
constexpr double kOffSheet_mm2 = 1e-3;

class PartMaker {
public:
    PartMaker(const Recipe& recipe, const Layout& layout, const std::vector<Cutter>& cutters, Issues& issues)
        : recipe_(recipe), layout_(layout), cutters_(cutters), issues_(issues), part_id_(layout.panels.size()) {}
    Part run();

private:
    void report(const char* what, const std::string& place, std::string found, std::string expected) {
        issues_.push_back(
            {std::string("recipe.") + what, recipe_.file, place, std::move(found), std::move(expected), ""});
    }
    std::vector<Polygon> cutsOfPanel(std::size_t panel) const;
    std::vector<Polygon> cutsOfStrip(std::size_t flange) const;
    Region withoutTips(std::size_t panel, const Region& region) const;
    void addPanel(std::size_t panel);
    void addBend(std::size_t flange);
    std::vector<StripSpan> spans(std::size_t flange);
    void addBlank();
    void addCutOuts();
    void addEdges(std::size_t panel);
    std::vector<Segment> freePieces(std::size_t panel, std::size_t edge) const;

    const Recipe& recipe_;
    const Layout& layout_;
    const std::vector<Cutter>& cutters_;
    Issues& issues_;
    std::vector<PanelId> part_id_;  // by the recipe's numbering
    Part part_;
    std::vector<Region> sheet_;  // every piece of the blank
};

std::vector<Polygon> PartMaker::cutsOfPanel(std::size_t panel) const {
    std::vector<Polygon> cuts;
    for (const Cutter& cutter : cutters_) {
        if (std::find(cutter.panels.begin(), cutter.panels.end(), panel) != cutter.panels.end())
            cuts.push_back(cutter.polygon);
    }
    return cuts;
}

std::vector<Polygon> PartMaker::cutsOfStrip(std::size_t flange) const {
    std::vector<Polygon> cuts;
    for (const Cutter& cutter : cutters_) {
        if (std::find(cutter.strips.begin(), cutter.strips.end(), flange) != cutter.strips.end())
            cuts.push_back(cutter.polygon);
    }
    return cuts;
}

// The panel as a body keeps its tips: it then is more than the sheet by less than can be cut, never less, and has fewer
// corners.
Region PartMaker::withoutTips(std::size_t panel, const Region& region) const {
    const std::vector<Polygon> tips = cornerTips(recipe_, layout_, panel);
    if (tips.empty()) return region;
    const std::vector<Region> left = difference(region, tips);
    return left.size() == 1 ? left.front() : region;
}

void PartMaker::addPanel(std::size_t panel) {
    const std::string& name = panelName(recipe_, panel);
    const std::string& place = panel == kBasePanel ? recipe_.base.place : recipe_.flanges[panel - 1].place;
    Region region{layout_.panels[panel].outline, {}};
    if (const auto cuts = cutsOfPanel(panel); !cuts.empty()) {
        const std::vector<Region> left = difference(region, cuts);
        if (left.size() != 1) {
            report("panel.split", place,
                   left.empty() ? "nothing left of panel " + name : "panel " + name + " cut into pieces",
                   "one piece of sheet");
        } else {
            region = left.front();
        }
    }
    part_id_[panel] = idAt<PanelId>(part_.panels.size());
    sheet_.push_back(withoutTips(panel, region));
    part_.panels.push_back({name, std::move(region)});
}

// Where the strip has any sheet across its width. A hole that runs into the strip without crossing it leaves the
// span whole: the strip as a body is then more than the sheet, never less.
std::vector<StripSpan> PartMaker::spans(std::size_t flange) {
    const Region strip{layout_.strip(flange), {}};
    const BendLayout& bend = layout_.bends[flange];
    const auto cuts = cutsOfStrip(flange);
    if (cuts.empty()) {
        sheet_.push_back(strip);
        return {{bend.from_mm, bend.to_mm}};
    }
    std::vector<StripSpan> spans;
    for (const Region& piece : difference(strip, cuts)) {
        StripSpan span{1e300, -1e300};
        for (const Vec2& point : piece.outline) {
            const double at = layout_.panels[flange + 1].u.dot(point - bend.origin);
            span = {std::min(span.from_mm, at), std::max(span.to_mm, at)};
        }
        if (span.length_mm() < 1e-6) continue;
        spans.push_back(span);
        sheet_.push_back(piece);
    }
    std::sort(spans.begin(), spans.end(), [](const StripSpan& a, const StripSpan& b) { return a.from_mm < b.from_mm; });
    std::vector<StripSpan> merged;
    for (const StripSpan& span : spans) {
        if (!merged.empty() && span.from_mm <= merged.back().to_mm)
            merged.back().to_mm = std::max(merged.back().to_mm, span.to_mm);
        else
            merged.push_back(span);
    }
    return merged;
}

void PartMaker::addBend(std::size_t flange) {
    const Flange& from = recipe_.flanges[flange];
    const BendLayout& layout = layout_.bends[flange];
    const PanelLayout& child = layout_.panels[flange + 1];
    Bend bend;
    bend.name = from.name;
    bend.parent = part_id_[layout_.tree.on[flange].panel];
    bend.child = part_id_[flange + 1];
    bend.origin = layout.origin + 0.5 * layout.allowance_mm * child.v;
    bend.along = child.u;
    bend.toward_child = child.v;
    bend.angle = bendAngle(from);
    bend.up = from.up;
    bend.inside_radius_mm = bendRadius_mm(recipe_, from);
    bend.allowance_mm = layout.allowance_mm;
    bend.rule = layout.rule;
    bend.rule_value = layout.rule_value;
    bend.rule_source = layout.rule_source;
    if (from.hem_gap_mm) bend.hem = Hem{*from.hem_gap_mm, layout.allowance_mm};
    bend.spans = spans(flange);
    if (bend.spans.empty())
        report("bend.no-sheet", from.place, "bend " + from.name + " cut away altogether", "sheet along the bend");
    part_.bends.push_back(std::move(bend));
}

void PartMaker::addBlank() {
    std::vector<Region> blank = unite(sheet_);
    if (blank.size() == 1) {
        part_.blank = std::move(blank.front());
    } else {
        report("blank.pieces", recipe_.base.place, blank.empty() ? "no blank" : "a blank in several pieces",
               "one piece of sheet");
    }
}

// A notch takes from the outline of the blank, a hole does not.
void PartMaker::addCutOuts() {
    for (const Cutter& cutter : cutters_) {
        if (!cutter.cut_out) continue;
        const CutOut& cut = recipe_.cut_outs[*cutter.cut_out];
        NamedCutOut named{cut.name, part_id_[cutter.panels.front()], cutter.polygon, roundHole(cutter.polygon),
                          cutter.off_sheet_mm2 > kOffSheet_mm2};
        if (named.name.empty()) named.name = fmt::format("cut-out {}", *cutter.cut_out + 1);
        part_.cut_outs.push_back(std::move(named));
    }
}

// What bends and cut-outs leave of an edge.
std::vector<Segment> PartMaker::freePieces(std::size_t panel, std::size_t edge) const {
    const Segment& whole = layout_.panels[panel].edges[edge];
    std::vector<StripSpan> taken;  // measured from whole.from
    for (const std::size_t flange : layout_.tree.flangesOn({panel, edge})) {
        taken.push_back({whole.length() - layout_.bends[flange].to_mm, whole.length() - layout_.bends[flange].from_mm});
    }
    for (const Polygon& cut : cutsOfPanel(panel)) {
        // A sliver of the edge, as thick as a hair, shows where the cut takes it away.
        const Vec2 in = -1e-3 * whole.outward();
        for (const Region& gone : intersection({cut, {}}, {whole.from, whole.to, whole.to + in, whole.from + in})) {
            StripSpan span{1e300, -1e300};
            for (const Vec2& p : gone.outline) {
                const double at = whole.along().dot(p - whole.from);
                span = {std::min(span.from_mm, at), std::max(span.to_mm, at)};
            }
            taken.push_back(span);
        }
    }
    taken.push_back({whole.length(), whole.length()});
    std::sort(taken.begin(), taken.end(), [](const StripSpan& a, const StripSpan& b) { return a.from_mm < b.from_mm; });
    std::vector<Segment> pieces;
    double at = 0;
    for (const StripSpan& span : taken) {
        if (span.from_mm > at)
            pieces.push_back({whole.from + at * whole.along(), whole.from + span.from_mm * whole.along()});
        at = std::max(at, span.to_mm);
    }
    return pieces;
}

// One edge a name: its longest free piece.
void PartMaker::addEdges(std::size_t panel) {
    const std::vector<std::string> names = edgeNames(recipe_, panel);
    for (std::size_t edge = 0; edge < names.size(); ++edge) {
        if (panel != kBasePanel && edge == kNearEdge) continue;
        const std::vector<Segment> pieces = freePieces(panel, edge);
        const auto longest = std::max_element(pieces.begin(), pieces.end(), [](const Segment& a, const Segment& b) {
            return a.length() < b.length() - 1e-9;
        });
        if (longest == pieces.end() || longest->length() < kShortestEdge_mm) continue;
        part_.edges.push_back(
            {panelName(recipe_, panel) + "." + names[edge], part_id_[panel], longest->from, longest->to});
    }
}

Part PartMaker::run() {
    part_.name = recipe_.name;
    part_.material = recipe_.sheet.material;
    part_.thickness_mm = recipe_.sheet.thickness_mm;
    part_.grain_deg = recipe_.sheet.grain_deg;
    part_.film = recipe_.sheet.film;
    part_.warnings = layout_.warnings;
    addPanel(kBasePanel);
    for (const std::size_t flange : layout_.tree.order) addPanel(flange + 1);
    for (const std::size_t flange : layout_.tree.order) addBend(flange);
    addCutOuts();
    if (issues_.empty()) addBlank();
    addEdges(kBasePanel);
    for (const std::size_t flange : layout_.tree.order) addEdges(flange + 1);
    return std::move(part_);
}

}  // namespace

Result<Part> develop(const Recipe& given) {
    Recipe recipe = given;
    Issues issues = resolveDimensions(recipe);
    for (Issue& issue : checkRecipe(recipe)) issues.push_back(std::move(issue));
    if (!issues.empty()) return issues;
    Layout layout = layOut(recipe, issues);
    if (!issues.empty()) return issues;
    checkBlank(recipe, layout, issues);
    const std::vector<Cutter> cutters = placeCutters(recipe, layout, layout.warnings, issues);
    if (!issues.empty()) return issues;
    Part part = PartMaker(recipe, layout, cutters, issues).run();
    if (issues.empty()) checkFinished(recipe, part, issues);
    if (!issues.empty()) return issues;
    return part;
}

}  // namespace tinwright
