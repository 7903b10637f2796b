// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/made/move_bend.h>

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/part/model/bend_frame.h>

#include "flat/flat_inside.h"
#include "flat/flat_tidy.h"
#include "made/moved_names.h"

namespace tinwright {

namespace {

// Corners of overlays lie on a grid: they are put back onto those that they come from.
constexpr double kOldCorner_mm = 1e-5;
// Cuts reach this far past the ends of a strip, so that rounding leaves no thread of sheet.
constexpr double kCutPastEnd_mm = 1e-4;
constexpr double kMovedSliver_mm2 = 1e-2;
constexpr double kNoArea_mm2 = 1e-6;
constexpr double kWide_mm = 1e5;
// Beside a border sheet is looked for this far off, over this depth.
constexpr double kBesideOff_mm = 0.01;
constexpr double kBesideDepth_mm = 0.02;
// Uncut sheet beside the end of a strip that is narrower than this gives way and is not told.
constexpr double kUncutTold_mm = 1;
constexpr double kUncutDepth_mm = 0.05;
// A bend that keeps less of its panel beside it than this share has lost it.
constexpr double kLeastBorder = 0.1;

/// Along and square to the bend line as drawn, from Bend::origin.
struct Frame {
    const Bend& bend;
    [[nodiscard]] Polygon box(StripSpan along, double low, double high) const {
        const auto at = [&](double v, double u) { return Vec2(bend.origin + v * bend.along + u * bend.toward_child); };
        Polygon box{at(along.from_mm, low), at(along.to_mm, low), at(along.to_mm, high), at(along.from_mm, high)};
        if (signedArea_mm2(box) < 0) std::reverse(box.begin(), box.end());
        return box;
    }
    [[nodiscard]] StripSpan extent(const Polygon& polygon) const {
        return extentAlong(polygon, bend.origin, bend.along);
    }
};

double areaWithin_mm2(const Region& region, const Polygon& window) {
    double area = 0;
    for (const Region& piece : intersection(region, window)) area += area_mm2(piece);
    return area;
}

class BendMover {
public:
    BendMover(const Part& part, const BendMove& move)
        : part_(part),
          moved_(part),
          id_(move.bend),
          bend_(part.bend(move.bend)),
          frame_{bend_},
          low_(-0.5 * bend_.allowance_mm),
          high_(0.5 * bend_.allowance_mm),
          new_low_(move.toward_child_mm - 0.5 * move.allowance_mm),
          new_high_(move.toward_child_mm + 0.5 * move.allowance_mm),
          ends_{bend_.spans.front().from_mm, bend_.spans.back().to_mm} {
        Bend& moved = moved_.bends[id_.index()];
        moved.origin += move.toward_child_mm * moved.toward_child;
        moved.angle = move.angle;
        moved.allowance_mm = move.allowance_mm;
        if (moved.hem) moved.hem->allowance_mm = move.allowance_mm;
    }
    Result<Part> run();

private:
    void report(const char* what, std::string found, std::string expected) {
        issues_.push_back({std::string("made.") + what, "", bend_.name, std::move(found), std::move(expected), {}});
    }
    void gather();
    void findSpans();
    void handOver();
    Region sheetOf(PanelId panel, const std::vector<Region>& all, const std::vector<Polygon>& cuts);
    void putBackCorners(Region& region, double border_mm) const;
    void checkEnds();
    void checkOthers();
    void checkBorder(const Bend& other, PanelId panel);

    const Part& part_;
    Part moved_;
    BendId id_;
    const Bend& bend_;
    Frame frame_;
    double low_, high_;          // the strip as it was, across
    double new_low_, new_high_;  // and as it is
    StripSpan ends_;
    std::vector<Region> sheet_;  // all that the strip can have of its surroundings
    StripSpan reach_{1e300, -1e300};
    std::vector<Region> strip_;
    Issues issues_;
};

// The old strip, what lies before it in the parent between its ends, and what of the child lies behind it right across.
void BendMover::gather() {
    std::vector<Region> all;
    const auto take = [&](const Region& from, const Polygon& window) {
        for (Region& piece : intersection(from, window)) {
            if (area_mm2(piece) > kNoArea_mm2) all.push_back(std::move(piece));
        }
    };
    for (const StripSpan& span : bend_.spans) {
        const Polygon box = frame_.box(span, low_, high_);
        part_.blank.outline.empty() ? all.push_back({box, {}}) : take(part_.blank, box);
    }
    if (new_low_ < low_) take(part_.panel(bend_.parent).region, frame_.box(ends_, new_low_, low_));
    if (new_high_ > high_) {
        const Polygon behind = frame_.box(ends_, high_, new_high_);
        for (Region& piece :
             intersection(part_.panel(bend_.child).region, frame_.box({-kWide_mm, kWide_mm}, high_, new_high_))) {
            if (areaWithin_mm2(piece, behind) > kNoArea_mm2) all.push_back(std::move(piece));
        }
    }
    sheet_ = unite(all);
    for (const Region& piece : sheet_) {
        const StripSpan span = frame_.extent(piece.outline);
        reach_ = {std::min(reach_.from_mm, span.from_mm), std::max(reach_.to_mm, span.to_mm)};
    }
}

void BendMover::findSpans() {
    std::vector<StripSpan> spans;
    for (const Region& piece : sheet_) {
        for (Region& part : intersection(piece, frame_.box({-kWide_mm, kWide_mm}, new_low_, new_high_))) {
            const StripSpan span = frame_.extent(part.outline);
            if (area_mm2(part) < kNoArea_mm2 || span.length_mm() < kCutPastEnd_mm) continue;
            spans.push_back(span);
            strip_.push_back(std::move(part));
        }
    }
    if (spans.empty()) return report("sheet", "a strip with no sheet under it", "sheet along the bend");
    std::sort(spans.begin(), spans.end(), [](const StripSpan& a, const StripSpan& b) { return a.from_mm < b.from_mm; });
    std::vector<StripSpan>& merged = moved_.bends[id_.index()].spans;
    merged.clear();
    for (StripSpan span : spans) {
        // Ends that nothing has changed stay what they were to the last digit.
        for (const StripSpan& was : bend_.spans) {
            if (std::abs(span.from_mm - was.from_mm) < kOldCorner_mm) span.from_mm = was.from_mm;
            if (std::abs(span.to_mm - was.to_mm) < kOldCorner_mm) span.to_mm = was.to_mm;
        }
        if (!merged.empty() && span.from_mm <= merged.back().to_mm + kCutPastEnd_mm) {
            merged.back().to_mm = std::max(merged.back().to_mm, span.to_mm);
        } else {
            merged.push_back(span);
        }
    }
}

void BendMover::putBackCorners(Region& region, double border_mm) const {
    std::vector<const Polygon*> known;
    for (const PanelId panel : {bend_.parent, bend_.child}) {
        known.push_back(&part_.panel(panel).region.outline);
        for (const Polygon& hole : part_.panel(panel).region.holes) known.push_back(&hole);
    }
    const auto put = [&](Polygon& ring) {
        for (Vec2& corner : ring) {
            for (const Polygon* from : known) {
                for (const Vec2& old : *from) {
                    if ((old - corner).norm() < kOldCorner_mm) corner = old;
                }
            }
        }
    };
    put(region.outline);
    for (Polygon& hole : region.holes) put(hole);
    tidy(region, {{bend_.toward_child, bend_.toward_child.dot(bend_.origin) + border_mm}});
}

/// What is left of a panel: one piece of sheet, or an issue.
Region BendMover::sheetOf(PanelId panel, const std::vector<Region>& all, const std::vector<Polygon>& cuts) {
    const std::string& name = part_.panel(panel).name;
    std::vector<Region> left;
    for (const Region& whole : unite(all)) {
        for (Region& piece : cuts.empty() ? std::vector<Region>{whole} : difference(whole, cuts)) {
            if (area_mm2(piece) > kMovedSliver_mm2) left.push_back(std::move(piece));
        }
    }
    if (left.size() == 1) {
        putBackCorners(left.front(), panel == bend_.parent ? new_low_ : new_high_);
        if (isValid(left.front())) return std::move(left.front());
    }
    report("panel", left.empty() ? "nothing left of panel " + name : "panel " + name + " in pieces",
           "sheet in one piece on both sides of the bend");
    return {};
}

void BendMover::handOver() {
    const StripSpan whole{reach_.from_mm - kCutPastEnd_mm, reach_.to_mm + kCutPastEnd_mm};
    const StripSpan own{ends_.from_mm - kCutPastEnd_mm, ends_.to_mm + kCutPastEnd_mm};
    const auto between = [&](double from, double to) {
        std::vector<Region> pieces;
        if (from >= to) return pieces;
        for (const Region& piece : sheet_) {
            for (Region& part : intersection(piece, frame_.box(whole, from, to))) pieces.push_back(std::move(part));
        }
        return pieces;
    };
    std::vector<Region> parent = between(low_, new_low_), child = between(new_high_, high_);
    parent.push_back(part_.panel(bend_.parent).region);
    child.push_back(part_.panel(bend_.child).region);
    std::vector<Polygon> off_parent, off_child;
    if (new_low_ < low_) off_parent.push_back(frame_.box(own, new_low_, low_));
    if (new_high_ > high_) off_child.push_back(frame_.box(whole, high_, new_high_));
    moved_.panels[bend_.parent.index()].region = sheetOf(bend_.parent, parent, off_parent);
    moved_.panels[bend_.child.index()].region = sheetOf(bend_.child, child, off_child);
}

// Sheet of the parent that the strip runs alongside now: no relief cuts the two apart.
void BendMover::checkEnds() {
    if (low_ - new_low_ < kUncutDepth_mm) return;
    const StripSpan before{ends_.from_mm - kUncutTold_mm, ends_.from_mm - kUncutTold_mm / 2};
    const StripSpan after{ends_.to_mm + kUncutTold_mm / 2, ends_.to_mm + kUncutTold_mm};
    double most_mm = 0;
    int ends = 0;
    for (const StripSpan& beside : {before, after}) {
        const Polygon window = frame_.box(beside, new_low_, low_);
        const double uncut_mm = areaWithin_mm2(part_.panel(bend_.parent).region, window) / beside.length_mm();
        if (uncut_mm < kUncutDepth_mm) continue;
        ++ends;
        most_mm = std::max(most_mm, uncut_mm);
    }
    if (ends == 0) return;
    moved_.warnings.push_back(fmt::format(
        "bend {}: as made {:.2f} mm at {} of its line {} not cut free of {}: the sheet tears or bulges there",
        bend_.name, most_mm, ends == 2 ? "both ends" : "an end", ends == 2 ? "are" : "is",
        part_.panel(bend_.parent).name));
}

void BendMover::checkBorder(const Bend& other, PanelId panel) {
    const double way = other.child == panel ? 1 : -1;
    const double near = way * (0.5 * other.allowance_mm + kBesideOff_mm), far = near + way * kBesideDepth_mm;
    double before = 0, now = 0;
    for (const StripSpan& span : other.spans) {
        const Polygon window = Frame{other}.box(span, std::min(near, far), std::max(near, far));
        before += areaWithin_mm2(part_.panel(panel).region, window);
        now += areaWithin_mm2(moved_.panel(panel).region, window);
    }
    if (now < kLeastBorder * before)
        return report("strip", fmt::format("panel {} no longer beside bend {}", part_.panel(panel).name, other.name),
                      "a line that leaves other bends their panels");
    const double lost_mm = (before - now) / kBesideDepth_mm;
    if (lost_mm < kUncutDepth_mm) return;
    moved_.warnings.push_back(
        fmt::format("bend {}: as made its strip lies beside that of {} over {:.2f} mm with no cut between them: the "
                    "sheet tears or bulges there",
                    bend_.name, other.name, lost_mm));
}

void BendMover::checkOthers() {
    for (std::size_t i = 0; i < part_.bends.size(); ++i) {
        const Bend& other = part_.bends[i];
        if (i == id_.index()) continue;
        double shared = 0;
        for (const StripSpan& span : other.spans) {
            const Polygon box = Frame{other}.box(span, -0.5 * other.allowance_mm, 0.5 * other.allowance_mm);
            for (const Region& piece : strip_) shared += areaWithin_mm2(piece, box);
        }
        if (shared > kMovedSliver_mm2)
            report("strip", "the strip of bend " + other.name + " in the way", "strips that lie apart");
        for (const PanelId panel : {bend_.parent, bend_.child}) {
            if (other.parent == panel || other.child == panel) checkBorder(other, panel);
        }
    }
}

Result<Part> BendMover::run() {
    gather();
    findSpans();
    if (issues_.empty()) handOver();
    if (issues_.empty()) checkEnds();
    if (issues_.empty()) checkOthers();
    if (!issues_.empty()) return std::move(issues_);
    renewEdges(part_, id_, moved_);
    renewCutOuts(part_, id_, moved_);
    return std::move(moved_);
}

}  // namespace

BendMove lineMove(const Part& part, BendId id, double toward_child_mm) {
    const Bend& bend = part.bend(id);
    return {id, toward_child_mm, bend.angle, bend.allowance_mm};
}

Result<Part> withBendMoved(const Part& part, const BendMove& move) { return BendMover(part, move).run(); }

}  // namespace tinwright
