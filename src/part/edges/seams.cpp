// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/edges/seams.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include <tinwright/part/model/pose.h>

#include "edges/free_edges.h"
#include "edges/seam_section.h"

namespace tinwright {

namespace {

constexpr double kShortestSeam_mm = 5.0;
constexpr double kSeamParallel = 0.985;  // cosine of 10 degrees: mitred ends drawn back for overbend open a corner
                                         // upwards
constexpr double kWidestCorner_mm = 8.0;
constexpr double kSamePlane = 0.985;  // cosine of 10 degrees
constexpr double kLapped = 0.75;      // share of an edge that counts as all of it
constexpr double kOpen = 0.25;
constexpr double kSamePlace_mm = 0.01;

/// A free edge of a panel in the folded part.
struct FoldedEdge {
    PanelId panel;
    Segment flat;
    Vec3 from, to;  // of the back face
    Vec3 out, across;
    std::vector<PanelId> met;  // panels of which an edge lies beside it

    [[nodiscard]] Vec3 along() const { return (to - from).normalized(); }
    [[nodiscard]] double length_mm() const { return (to - from).norm(); }
};

class SeamFinder {
public:
    explicit SeamFinder(const Part& part)
        : part_(part),
          poses_(baseFromPanels(part, allFormed(part))),
          corner_mm_(std::max(kWidestCorner_mm, bridgedGap_mm(part.thickness_mm))),
          face_mm_(bridgedGap_mm(part.thickness_mm)) {}

    std::vector<Seam> run() {
        for (std::size_t panel = 0; panel < part_.panels.size(); ++panel) addEdges(idAt<PanelId>(panel));
        for (std::size_t i = 0; i < edges_.size(); ++i) {
            for (std::size_t k = i + 1; k < edges_.size(); ++k) {
                if (mayMeet(edges_[i].panel, edges_[k].panel)) meetEdges(edges_[i], edges_[k]);
            }
        }
        for (FoldedEdge& edge : edges_) {
            for (std::size_t panel = 0; panel < part_.panels.size(); ++panel) {
                if (mayMeet(edge.panel, idAt<PanelId>(panel))) meetFace(edge, idAt<PanelId>(panel));
            }
        }
        std::stable_sort(seams_.begin(), seams_.end(),
                         [](const Seam& a, const Seam& b) { return std::pair(a.a, a.b) < std::pair(b.a, b.b); });
        return std::move(seams_);
    }

private:
    void addEdges(PanelId panel);
    [[nodiscard]] bool mayMeet(PanelId a, PanelId b) const;
    [[nodiscard]] std::string nameOf(const FoldedEdge& edge) const;
    [[nodiscard]] SheetEnd endAt(const FoldedEdge& edge, const Vec3& place, const FoldedEdge& frame) const;
    void meetEdges(FoldedEdge& a, FoldedEdge& b);
    [[nodiscard]] bool isSmaller(const FoldedEdge& a, const FoldedEdge& b) const {
        return area_mm2(part_.panel(a.panel).region) < area_mm2(part_.panel(b.panel).region);
    }
    void keepCorner(FoldedEdge& a, FoldedEdge& b, const StripSpan& span, double gap_from, double gap_to);
    void meetFace(const FoldedEdge& edge, PanelId face);
    void keepLap(const FoldedEdge& edge, PanelId other, const Seam& met);

    const Part& part_;
    std::vector<Rigid> poses_;
    double corner_mm_;
    double face_mm_;
    std::vector<FoldedEdge> edges_;
    std::vector<Seam> seams_;
};

void SeamFinder::addEdges(PanelId panel) {
    const Polygon& ring = part_.panel(panel).region.outline;
    const Rigid& pose = poses_[panel.index()];
    const auto placed = [&](const Vec2& p) -> Vec3 { return pose * Vec3(p.x(), p.y(), 0); };
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Segment edge{ring[i], ring[(i + 1) % ring.size()]};
        if (edge.length() < kShortestSeam_mm) continue;
        const Vec2 out = edge.outward();
        for (const Segment& piece : freePieces(part_, panel, edge)) {
            if (piece.length() < kShortestSeam_mm) continue;
            edges_.push_back({panel,
                              piece,
                              placed(piece.from),
                              placed(piece.to),
                              pose.linear() * Vec3(out.x(), out.y(), 0),
                              pose.linear().col(2),
                              {}});
        }
    }
}

// Panels that a bend joins have their seam there; two that still lie in one plane as they did in the blank have a slit.
bool SeamFinder::mayMeet(PanelId a, PanelId b) const {
    if (a == b) return false;
    for (const Bend& bend : part_.bends) {
        if ((bend.parent == a && bend.child == b) || (bend.parent == b && bend.child == a)) return false;
    }
    const Rigid& p = poses_[a.index()];
    const Rigid& q = poses_[b.index()];
    return (p.linear() - q.linear()).norm() > 1e-6 || (p.translation() - q.translation()).norm() > kSamePlace_mm;
}

std::string SeamFinder::nameOf(const FoldedEdge& edge) const {
    for (const NamedEdge& named : part_.edges) {
        if (named.panel != edge.panel) continue;
        const Vec2 out = edge.flat.outward();
        const bool on_line = std::abs(out.dot(named.from - edge.flat.from)) < kSamePlace_mm &&
                             std::abs(out.dot(named.to - edge.flat.from)) < kSamePlace_mm;
        if (on_line) return named.name;
    }
    return part_.panel(edge.panel).name;
}

/// Cut square to the edge `frame` at a place of it; the axes of the section are that edge's own.
SheetEnd SeamFinder::endAt(const FoldedEdge& edge, const Vec3& place, const FoldedEdge& frame) const {
    const Vec3 cut = frame.along();
    const Vec3 along = edge.along();
    const Vec3 at = edge.from + cut.dot(place - edge.from) / cut.dot(along) * along;
    const auto flat = [&](const Vec3& v) { return Vec2(frame.out.dot(v), frame.across.dot(v)); };
    return {flat(at - place), flat(edge.out).normalized(), flat(edge.across).normalized(), part_.thickness_mm,
            2 * corner_mm_ + 3 * part_.thickness_mm};
}

void SeamFinder::meetEdges(FoldedEdge& a, FoldedEdge& b) {
    const Vec3 along = a.along();
    if (std::abs(along.dot(b.along())) < kSeamParallel) return;
    const double b_from = along.dot(b.from - a.from), b_to = along.dot(b.to - a.from);
    const StripSpan span{std::max(0.0, std::min(b_from, b_to)), std::min(a.length_mm(), std::max(b_from, b_to))};
    if (span.length_mm() < kShortestSeam_mm) return;
    const auto gapAt = [&](double at) {
        const Vec3 place = a.from + at * along;
        return gap_mm(endAt(a, place, a), endAt(b, place, a));
    };
    const double gap_from = gapAt(span.from_mm), gap_to = gapAt(span.to_mm);
    if (std::min(gap_from, gap_to) <= corner_mm_) keepCorner(a, b, span, gap_from, gap_to);
}

// Of the two angles between two planes the one that the sheets enclose, which the section across the edge tells nearly.
double angleBetween_deg(const FoldedEdge& a, const FoldedEdge& b, double section_cosine) {
    const double planes_cosine = std::abs(a.across.dot(b.across));
    return std::acos(std::clamp(section_cosine < 0 ? -planes_cosine : planes_cosine, -1.0, 1.0)) * 180 /
           std::numbers::pi;
}

void SeamFinder::keepCorner(FoldedEdge& a, FoldedEdge& b, const StripSpan& span, double gap_from, double gap_to) {
    const Vec3 place = a.from + 0.5 * (span.from_mm + span.to_mm) * a.along();
    const SheetEnd end_a = endAt(a, place, a), end_b = endAt(b, place, a);
    const double a_covered = coveredShare(end_a, end_b), b_covered = coveredShare(end_b, end_a);
    const bool one_plane = std::abs(a.across.dot(b.across)) > kSamePlane;
    Seam seam;
    if (one_plane)
        seam.kind = std::min(a_covered, b_covered) > 0.5 ? SeamKind::kButt : SeamKind::kLap;
    else if (std::max(a_covered, b_covered) < kOpen)
        seam.kind = SeamKind::kOpenCorner;
    else
        seam.kind = std::max(a_covered, b_covered) >= kLapped ? SeamKind::kLappedCorner : SeamKind::kPartLapped;
    const bool b_runs_on = !one_plane && a_covered > b_covered + 1e-6;
    seam.a = b_runs_on ? b.panel : a.panel;
    seam.b = b_runs_on ? a.panel : b.panel;
    seam.edges = {nameOf(b_runs_on ? b : a), nameOf(b_runs_on ? a : b)};
    seam.length_mm = span.length_mm();
    seam.least_gap_mm = std::min(gap_from, gap_to);
    seam.most_gap_mm = std::max(gap_from, gap_to);
    if (seam.kind == SeamKind::kLap && seam.most_gap_mm > face_mm_) return;
    seam.angle_deg = angleBetween_deg(a, b, end_a.out.dot(end_b.out));
    const bool b_lies_on_a = isSmaller(b, a);
    if (seam.kind == SeamKind::kLap)
        keepLap(b_lies_on_a ? b : a, b_lies_on_a ? a.panel : b.panel, seam);
    else
        seams_.push_back(std::move(seam));
    a.met.push_back(b.panel);
    b.met.push_back(a.panel);
}

void SeamFinder::meetFace(const FoldedEdge& edge, PanelId face) {
    if (std::find(edge.met.begin(), edge.met.end(), face) != edge.met.end()) return;
    const Rigid to_face = poses_[face.index()].inverse();
    const auto gapAt = [&](const Vec3& back) -> std::optional<double> {
        const double z = (to_face * back).z(), other = (to_face * Vec3(back + part_.thickness_mm * edge.across)).z();
        const double gap = std::max({0.0, std::min(z, other) - part_.thickness_mm, -std::max(z, other)});
        return gap <= face_mm_ ? std::optional(gap) : std::nullopt;
    };
    const auto gap_from = gapAt(edge.from), gap_to = gapAt(edge.to);
    if (!gap_from || !gap_to) return;
    const Vec3 from = to_face * edge.from, to = to_face * edge.to;
    const Vec2 flat_from(from.x(), from.y()), flat_to(to.x(), to.y());
    if ((flat_to - flat_from).norm() < kSeamParallel * edge.length_mm()) return;
    const Vec2 side = kSamePlace_mm * Segment{flat_from, flat_to}.outward();
    double length_mm = 0;
    for (const Region& piece :
         intersection(part_.panel(face).region, {flat_from + side, flat_to + side, flat_to - side, flat_from - side})) {
        StripSpan span{1e300, -1e300};
        for (const Vec2& p : piece.outline) {
            const double at = (flat_to - flat_from).normalized().dot(p - flat_from);
            span = {std::min(span.from_mm, at), std::max(span.to_mm, at)};
        }
        length_mm += span.length_mm();
    }
    if (length_mm < kShortestSeam_mm) return;
    const double lean = std::abs(poses_[face.index()].linear().col(2).dot(edge.across));
    Seam seam{SeamKind::kOnFace,
              edge.panel,
              face,
              {nameOf(edge)},
              length_mm,
              std::min(*gap_from, *gap_to),
              std::max(*gap_from, *gap_to),
              std::acos(std::min(1.0, lean)) * 180 / std::numbers::pi};
    if (lean > kSamePlane)
        keepLap(edge, face, seam);
    else
        seams_.push_back(std::move(seam));
}

// All edges of one panel that lies on another are one seam.
void SeamFinder::keepLap(const FoldedEdge& edge, PanelId other, const Seam& met) {
    for (Seam& seam : seams_) {
        if (seam.kind != SeamKind::kLap || std::minmax(seam.a, seam.b) != std::minmax(edge.panel, other)) continue;
        seam.edges.push_back(nameOf(edge));
        seam.length_mm += met.length_mm;
        seam.least_gap_mm = std::min(seam.least_gap_mm, met.least_gap_mm);
        seam.most_gap_mm = std::max(seam.most_gap_mm, met.most_gap_mm);
        return;
    }
    seams_.push_back(
        {SeamKind::kLap, edge.panel, other, {nameOf(edge)}, met.length_mm, met.least_gap_mm, met.most_gap_mm, 0});
}

}  // namespace

const char* toText(SeamKind kind) {
    switch (kind) {
        case SeamKind::kButt: return "butt";
        case SeamKind::kOpenCorner: return "open corner";
        case SeamKind::kLappedCorner: return "lapped corner";
        case SeamKind::kPartLapped: return "part-lapped corner";
        case SeamKind::kLap: return "lap";
        case SeamKind::kOnFace: return "edge on face";
    }
    return "";
}

double bridgedGap_mm(double thickness_mm) { return std::max(3.0, 2.0 * thickness_mm); }

std::vector<Seam> weldSeams(const Part& part) { return SeamFinder(part).run(); }

}  // namespace tinwright
