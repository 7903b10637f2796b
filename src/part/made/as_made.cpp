// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/made/as_made.h>

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/base/contract.h>
#include <tinwright/part/allowance/allowance.h>
#include <tinwright/part/edges/leg_end.h>
#include <tinwright/part/made/move_bend.h>

namespace tinwright {

namespace {

// Less is rounding: the line is where it is drawn.
constexpr double kUnmoved_mm = 1e-9;
constexpr double kSameAngle_deg = 1e-9;
constexpr double kLeastFlat_mm = 1e-3;

double ruleAllowance_mm(const Bend& bend, Angle angle, double thickness_mm) {
    switch (bend.rule) {
        case AllowanceRule::kDin6935:
            if (bend.inside_radius_mm > 0) return din6935Allowance_mm(angle, bend.inside_radius_mm, thickness_mm);
            break;
        case AllowanceRule::kHandbook: return handbookAllowance_mm(angle, bend.inside_radius_mm, thickness_mm);
        case AllowanceRule::kKFactor:
        case AllowanceRule::kMeasured: break;
    }
    return kFactorAllowance_mm(angle, bend.inside_radius_mm, thickness_mm, bend.rule_value);
}

// In proportion, so that a strip whose width was told outright stays that at the angle drawn.
double stripAt_mm(const Bend& bend, Angle angle, double thickness_mm) {
    const double drawn_mm = ruleAllowance_mm(bend, bend.angle, thickness_mm);
    const double made_mm = ruleAllowance_mm(bend, angle, thickness_mm);
    if (!(drawn_mm > 0) || !(made_mm > 0)) return bend.allowance_mm * (angle.rad() / bend.angle.rad());
    return bend.allowance_mm * (made_mm / drawn_mm);
}

class PartMade {
public:
    PartMade(const Part& drawn, BendMask formed, double inside_radius_mm)
        : part_(drawn), formed_(formed), inside_radius_mm_(inside_radius_mm) {}
    void take(const MadeBend& made);
    Result<Part> part() {
        if (!issues_.empty()) return std::move(issues_);
        return std::move(part_);
    }

private:
    void report(const char* what, const Bend& bend, std::string found, std::string expected, std::string hint = {}) {
        issues_.push_back(
            {std::string("made.") + what, "", bend.name, std::move(found), std::move(expected), std::move(hint)});
    }
    bool turn(const Bend& bend, const MadeBend& made, BendMove& move);
    bool shift(const Bend& bend, const MadeBend& made, BendMove& move);

    Part part_;
    BendMask formed_;
    double inside_radius_mm_;
    Issues issues_;
};

bool PartMade::turn(const Bend& bend, const MadeBend& made, BendMove& move) {
    if (!made.angle || std::abs(made.angle->deg() - bend.angle.deg()) < kSameAngle_deg) return true;
    const std::string found = fmt::format("{:.6g} degrees", made.angle->deg());
    if (bend.hem) {
        report("angle", bend, found, "no angle: a hem that is formed is closed", "--made tells the size of its return");
        return false;
    }
    if (!(made.angle->deg() > 0 && made.angle->deg() < 180)) {
        report("angle", bend, found, "over 0 and under 180 degrees, turned from flat");
        return false;
    }
    move.angle = *made.angle;
    move.allowance_mm = stripAt_mm(bend, *made.angle, part_.thickness_mm);
    return true;
}

// The free edge, or the next strip, is where it is: the line goes where the flat that is left ends.
bool PartMade::shift(const Bend& bend, const MadeBend& made, BendMove& move) {
    if (!made.outside_mm) return true;
    const std::string found = fmt::format("{:.6g} mm", *made.outside_mm);
    if (!(*made.outside_mm >= kLeastMade_mm && *made.outside_mm <= kMostMade_mm)) {
        report("size", bend, found, fmt::format("from {} to {} mm", kLeastMade_mm, kMostMade_mm));
        return false;
    }
    const std::optional<LegEnd> end = legEnd(part_, made.bend, Side::kChild, formed_);
    if (!end) {
        report("edge", bend, found, "a flange with a straight edge of 5 mm or more along its bend to measure to",
               "without its size it is taken as drawn");
        return false;
    }
    Bend turned = bend;
    turned.angle = move.angle;
    const auto setback = [&](const Bend& of) {
        return bendSetback_mm(of, part_.thickness_mm, Face::kOutside, inside_radius_mm_);
    };
    const double taken_mm = setback(turned) + (end->bend ? setback(part_.bend(*end->bend)) : 0.0);
    const double flat_mm = *made.outside_mm - taken_mm;
    if (flat_mm < kLeastFlat_mm) {
        report("size", bend, found, fmt::format("more than the {:.3f} mm that its bends take", taken_mm),
               "outside size, to the outside face of the panel on the other side of the bend");
        return false;
    }
    move.toward_child_mm = end->at_mm - flat_mm - 0.5 * move.allowance_mm;
    return true;
}

void PartMade::take(const MadeBend& made) {
    const Bend& bend = part_.bend(made.bend);
    BendMove move = lineMove(part_, made.bend, 0);
    if (!turn(bend, made, move) || !shift(bend, made, move)) return;
    const bool is_turned = std::abs(move.angle.deg() - bend.angle.deg()) >= kSameAngle_deg;
    if (!is_turned && std::abs(move.toward_child_mm) < kUnmoved_mm) return;
    Result<Part> moved = withBendMoved(part_, move);
    if (moved) {
        part_ = std::move(moved).value();
        return;
    }
    for (Issue issue : moved.issues()) {
        const std::string measured = made.outside_mm ? fmt::format("{:.6g} mm", *made.outside_mm)
                                                     : fmt::format("{:.6g} degrees", move.angle.deg());
        issue.found = measured + ": " + issue.found;
        if (const auto end = legEnd(part_, made.bend, Side::kChild, formed_))
            issue.hint = fmt::format("as drawn it is {:.6g} mm",
                                     legSize_mm(part_, made.bend, *end, Face::kOutside, inside_radius_mm_));
        issues_.push_back(std::move(issue));
    }
}

}  // namespace

Result<Part> asMade(const Part& drawn, const std::vector<MadeBend>& made, BendMask formed, double inside_radius_mm) {
    BendMask given = 0;
    for (const MadeBend& one : made) given |= bit(one.bend);
    TINWRIGHT_REQUIRE(countBends(given) == made.size(), "a bend is measured once");
    // What hangs on a bend comes before it: parents come before children in the part.
    std::vector<MadeBend> outside_in = made;
    std::sort(outside_in.begin(), outside_in.end(),
              [](const MadeBend& a, const MadeBend& b) { return a.bend > b.bend; });
    PartMade part(drawn, formed | given, inside_radius_mm);
    for (const MadeBend& one : outside_in) part.take(one);
    return part.part();
}

}  // namespace tinwright
