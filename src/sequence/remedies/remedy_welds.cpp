// SPDX-License-Identifier: GPL-3.0-or-later
// Remedies that weld what is not bent: flanges cut off, or cut back at corners that run into one another.
#include <algorithm>

#include <tinwright/part/edges/seams.h>

#include "remedies/remedy_trials.h"

namespace tinwright {

namespace {

// How far a flange is cut back. More than the last is another design.
constexpr double kCutBack_mm[] = {0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10};
constexpr std::size_t kMostCorners = 8;

BendMask mapped(BendMask formed, const std::vector<BendId>& bends) {
    BendMask result = 0;
    for (std::size_t i = 0; i < bends.size(); ++i) {
        if (contains(formed, bends[i])) result |= bit(idAt<BendId>(i));
    }
    return result;
}

// A strip belongs to the flange that it bends.
std::optional<PanelId> panelOf(const Part& part, BodyRef body) {
    if (body.kind == BodyRef::Kind::kPanel) return body.panel();
    if (body.kind == BodyRef::Kind::kStrip) return part.bend(body.bend()).child;
    return std::nullopt;
}

std::optional<BendId> bendOf(const Part& part, PanelId panel) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (part.bends[i].child == panel) return idAt<BendId>(i);
    }
    return std::nullopt;
}

Vec2 endOf(const Bend& bend, SpanEnd end) {
    return bend.origin + (end == SpanEnd::kFrom ? bend.spans.front().from_mm : bend.spans.back().to_mm) * bend.along;
}

// The end of a flange's bend that lies at the other panel, in the blank.
SpanEnd endTowards(const Part& part, BendId bend, PanelId other) {
    double nearest[2] = {0, 0};
    for (const SpanEnd end : {SpanEnd::kFrom, SpanEnd::kTo}) {
        const Vec2 at = endOf(part.bend(bend), end);
        double& least = nearest[static_cast<int>(end)];
        least = 1e9;
        for (const Vec2& corner : part.panel(other).region.outline) least = std::min(least, (corner - at).norm());
    }
    return nearest[0] <= nearest[1] ? SpanEnd::kFrom : SpanEnd::kTo;
}

bool sameEnd(const OpenedCorner& a, const OpenedCorner& b) { return a.bend == b.bend && a.end == b.end; }

class CornerSearch {
public:
    explicit CornerSearch(RemedyTrials& trials) : trials_(trials) {}

    std::vector<Remedy> run() {
        const std::size_t steps = std::size(kCutBack_mm);
        if (!gather(kCutBack_mm[steps - 1])) return {};
        leaveOut(kCutBack_mm[steps - 1]);
        std::size_t good = steps - 1;  // goes
        std::ptrdiff_t bad = -1;       // does not, or was not cut back at all
        Suitability result = best_;
        while (static_cast<std::ptrdiff_t>(good) - bad > 1) {
            const std::size_t middle = static_cast<std::size_t>((bad + static_cast<std::ptrdiff_t>(good)) / 2);
            const std::optional<Part> part = cutBack(kCutBack_mm[middle]);
            const Suitability now = part ? trials_.plan(*part) : Suitability{};
            if (lifts(trials_.asDrawn(), now)) {
                good = middle;
                result = now;
            } else {
                bad = static_cast<std::ptrdiff_t>(middle);
            }
        }
        return told(kCutBack_mm[good], result);
    }

private:
    // Corners one after the other, as planning runs into them, all cut back as far as can be.
    bool gather(double by_mm) {
        Suitability now = trials_.asDrawn();
        // The state where it gets stuck names few corners; full causes name all that there are.
        if (!addCorners(now.reasons)) now.reasons = trials_.fullReasons();
        corners_.clear();
        while (corners_.size() < kMostCorners && addCorners(now.reasons)) {
            const std::optional<Part> part = cutBack(by_mm);
            if (!part) return false;
            now = trials_.planWithReasons(*part);
            if (lifts(trials_.asDrawn(), now)) {
                best_ = now;
                return true;
            }
        }
        return false;
    }

    // Corners that need not be opened.
    void leaveOut(double by_mm) {
        for (std::size_t i = corners_.size(); i-- > 0 && corners_.size() > 1;) {
            const OpenedCorner corner = corners_[i];
            corners_.erase(corners_.begin() + static_cast<std::ptrdiff_t>(i));
            const std::optional<Part> part = cutBack(by_mm);
            const Suitability now = part ? trials_.plan(*part) : Suitability{};
            if (lifts(trials_.asDrawn(), now)) {
                best_ = now;
            } else {
                corners_.insert(corners_.begin() + static_cast<std::ptrdiff_t>(i), corner);
            }
        }
    }

    // False when there is none that is new.
    bool addCorners(const std::vector<Reason>& reasons) {
        const std::size_t before = corners_.size();
        for (const Reason& reason : reasons) {
            if (reason.code != ReasonCode::kPanelHit) continue;
            const auto panel = panelOf(trials_.part(), reason.panel);
            const auto body = panelOf(trials_.part(), reason.body);
            if (!panel || !body || corners_.size() == kMostCorners) continue;
            // The one that comes later in the part is the less of the two: a lip rather than a wall.
            const PanelId trimmed = std::max(*panel, *body);
            const PanelId beside = std::min(*panel, *body);
            const auto bend = bendOf(trials_.part(), trimmed);
            if (!bend || contains(trials_.options().formed, *bend)) continue;
            OpenedCorner corner;
            corner.bend = *bend;
            corner.end = endTowards(trials_.part(), *bend, beside);
            corner.beside = beside;
            const bool known = std::any_of(corners_.begin(), corners_.end(),
                                           [&](const OpenedCorner& other) { return sameEnd(corner, other); });
            if (!known) corners_.push_back(corner);
        }
        return corners_.size() > before;
    }

    [[nodiscard]] std::optional<Part> cutBack(double by_mm) const {
        std::optional<Part> part = trials_.part();
        for (const OpenedCorner& corner : corners_) {
            part = withEndCutBack(*part, corner.bend, corner.end, by_mm);
            if (!part) return std::nullopt;
        }
        return part;
    }

    // A corner that no seam lies at any more is not welded up.
    std::vector<Remedy> told(double by_mm, const Suitability& result) {
        const std::vector<Seam> seams = weldSeams(*cutBack(by_mm));
        Remedy remedy;
        remedy.kind = RemedyKind::kOpenCorners;
        remedy.brake = trials_.brakeIndex();
        remedy.result = result;
        for (OpenedCorner corner : corners_) {
            corner.by_mm = by_mm;
            const PanelId flange = trials_.part().bend(corner.bend).child;
            for (const Seam& seam : seams) {
                const bool here =
                    (seam.a == flange && seam.b == corner.beside) || (seam.a == corner.beside && seam.b == flange);
                if (!here) continue;
                corner.weld_mm = std::max(corner.weld_mm, seam.length_mm);
                corner.gap_mm = std::max(corner.gap_mm, seam.most_gap_mm);
            }
            remedy.corners.push_back(corner);
        }
        return {remedy};
    }

    RemedyTrials& trials_;
    std::vector<OpenedCorner> corners_;
    Suitability best_;
};

// Both the rest and the piece must go.
std::optional<Remedy> withWeld(RemedyTrials& trials, BendId bend) {
    const SplitPart split = splitAt(trials.part(), bend);
    Remedy remedy;
    remedy.kind = RemedyKind::kWeldedBend;
    remedy.brake = trials.brakeIndex();
    if (split.rest.bends.empty()) return std::nullopt;
    remedy.result = trials.plan(split.rest, mapped(trials.options().formed, split.rest_bends));
    if (!lifts(trials.asDrawn(), remedy.result)) return std::nullopt;
    if (!split.piece.bends.empty()) {
        const Suitability piece = trials.plan(split.piece, mapped(trials.options().formed, split.piece_bends));
        if (piece.level() == 0) return std::nullopt;
    }
    remedy.weld = {bend, stripLength_mm(trials.part().bend(bend)), split.piece.bends.size()};
    return remedy;
}

}  // namespace

std::vector<Remedy> openCornerRemedies(RemedyTrials& trials) { return CornerSearch(trials).run(); }

std::vector<Remedy> weldedBendRemedies(RemedyTrials& trials) {
    const Part& part = trials.part();
    std::vector<BendId> bends;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (!contains(trials.options().formed, idAt<BendId>(i))) bends.push_back(idAt<BendId>(i));
    }
    std::stable_sort(bends.begin(), bends.end(),
                     [&](BendId a, BendId b) { return stripLength_mm(part.bend(a)) < stripLength_mm(part.bend(b)); });
    std::vector<Remedy> found;
    for (const BendId bend : bends) {
        if (found.size() == trials.options().each || trials.spent()) break;
        if (auto remedy = withWeld(trials, bend)) found.push_back(std::move(*remedy));
    }
    return found;
}

}  // namespace tinwright
