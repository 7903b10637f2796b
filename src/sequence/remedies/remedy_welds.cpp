// SPDX-License-Identifier: GPL-3.0-or-later
// Remedies that weld what is not bent: flanges cut off, or cut back at corners that run into one another.
#include <algorithm>

#include <tinwright/part/edges/seams.h>

#include "remedies/remedy_trials.h"

namespace tinwright {

namespace {

// How an end is opened: by so many of these steps. More than the most is another design.
struct Opening {
    double step_mm;
    double step_deg;
    int most;
};
constexpr Opening kCutBack{0.1, 0, 100};
constexpr Opening kSlant{0, 0.5, 20};
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
        if (!gather()) return {};
        leaveOut();
        std::vector<Remedy> found{least(kCutBack, best_)};
        if (auto slanted = slantedEnds()) found.push_back(std::move(*slanted));
        return found;
    }

private:
    [[nodiscard]] Suitability planned(const Opening& opening, int steps) {
        const std::optional<Part> part = opened(opening, steps);
        return part ? trials_.plan(*part) : Suitability{};
    }

    // One side of each corner is slanted: that which would be cut back, or else the other one, where the first only
    // laps it.
    std::optional<Remedy> slantedEnds() {
        for (int side = 0; side < 2; ++side) {
            if (side == 1 && !takeOtherSides()) break;
            const Suitability slanted = planned(kSlant, kSlant.most);
            if (lifts(trials_.asDrawn(), slanted)) return least(kSlant, slanted);
        }
        return std::nullopt;
    }

    // False when one of them is no flange, or is folded already.
    bool takeOtherSides() {
        for (OpenedCorner& corner : corners_) {
            const PanelId flange = trials_.part().bend(corner.bend).child;
            const auto bend = bendOf(trials_.part(), corner.beside);
            if (!bend || contains(trials_.options().formed, *bend)) return false;
            corner = {.bend = *bend, .end = endTowards(trials_.part(), *bend, flange), .beside = flange};
        }
        return true;
    }

    // `result`: of the most.
    Remedy least(const Opening& opening, Suitability result) {
        int good = opening.most;  // goes
        int bad = 0;              // does not
        while (good - bad > 1) {
            const int middle = (good + bad) / 2;
            Suitability now = planned(opening, middle);
            if (lifts(trials_.asDrawn(), now)) {
                good = middle;
                result = std::move(now);
            } else {
                bad = middle;
            }
        }
        return told(opening, good, result);
    }

    // Corners one after the other, as planning runs into them, all cut back as far as can be.
    bool gather() {
        Suitability now = trials_.asDrawn();
        // The state where it gets stuck names few corners; full causes name all that there are.
        if (!addCorners(now.reasons)) now.reasons = trials_.fullReasons();
        corners_.clear();
        while (corners_.size() < kMostCorners && addCorners(now.reasons)) {
            const std::optional<Part> part = opened(kCutBack, kCutBack.most);
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
    void leaveOut() {
        for (std::size_t i = corners_.size(); i-- > 0 && corners_.size() > 1;) {
            const OpenedCorner corner = corners_[i];
            corners_.erase(corners_.begin() + static_cast<std::ptrdiff_t>(i));
            const Suitability now = planned(kCutBack, kCutBack.most);
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
            const auto meeting = meetingFlanges(trials_.part(), reason);
            if (!meeting || corners_.size() == kMostCorners) continue;
            // What the leaf meets; of two that run into one another the one that comes later in the part is the less: a
            // lip rather than a wall.
            const bool by_leaf = reason.code == ReasonCode::kLeafLiftsHeld;
            const PanelId trimmed = by_leaf ? meeting->one : std::max(meeting->one, meeting->other);
            const PanelId beside = by_leaf ? meeting->other : std::min(meeting->one, meeting->other);
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

    [[nodiscard]] std::optional<Part> opened(const Opening& opening, int steps) const {
        std::optional<Part> part = trials_.part();
        for (const OpenedCorner& corner : corners_) {
            part = opening.step_mm > 0
                       ? withEndCutBack(*part, corner.bend, corner.end, steps * opening.step_mm)
                       : withEndSlanted(*part, corner.bend, corner.end, Angle::degrees(steps * opening.step_deg));
            if (!part) return std::nullopt;
        }
        return part;
    }

    // A corner that no seam lies at any more is not welded up.
    Remedy told(const Opening& opening, int steps, const Suitability& result) {
        const std::vector<Seam> seams = weldSeams(*opened(opening, steps));
        Remedy remedy;
        remedy.kind = RemedyKind::kOpenCorners;
        remedy.brake = trials_.brakeIndex();
        remedy.result = result;
        for (OpenedCorner corner : corners_) {
            corner.by_mm = steps * opening.step_mm;
            corner.slant_deg = steps * opening.step_deg;
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
        return remedy;
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
        if (!piece.works()) return std::nullopt;
    }
    remedy.weld = {bend, stripLength_mm(trials.part().bend(bend)), split.piece.bends.size()};
    return remedy;
}

}  // namespace

// The leaf is as long as the machine: it presses on whatever stands past the end of the flange that it swings.
std::optional<MeetingFlanges> meetingFlanges(const Part& part, const Reason& reason) {
    const auto panel = panelOf(part, reason.panel);
    if (!panel || !bendOf(part, *panel)) return std::nullopt;
    if (reason.code == ReasonCode::kPanelHit) {
        const auto body = panelOf(part, reason.body);
        return body ? std::optional(MeetingFlanges{*panel, *body}) : std::nullopt;
    }
    const PanelId swung = part.bend(reason.stroke.first()).child;
    if (reason.code != ReasonCode::kLeafLiftsHeld || swung == *panel) return std::nullopt;
    return MeetingFlanges{*panel, swung};
}

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
