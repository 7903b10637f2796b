// SPDX-License-Identifier: GPL-3.0-or-later
// A figure is made as good as can be, or all are; those that are not needed so are taken back, and each that is left
// goes as far back as it may. Looked for in one V, told only when it was planned just so, and when a step less was
// planned and refused in every V.
#include <tinwright/sequence/remedies/machine_needs.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/press_bend.h>

#include "remedies/figure_trials.h"
#include "remedies/machine_figures.h"

namespace tinwright {

namespace {

// A leaf brake is told by the sheet that it is rated for, not by a force.
std::optional<PressForce> forceOn(const LeafBrake&, const BrakeInSetup&, const Material*, double) {
    return std::nullopt;
}

std::optional<PressForce> forceOn(const PressBrake& press, const BrakeInSetup& brake, const Material* material,
                                  double thickness_mm) {
    return pressForce(press, *brake.vee(), material, thickness_mm);
}

constexpr std::size_t kMostWays = 3;
// Between what a brake has and what it could have at best.
constexpr double kSharesOfBest[] = {1, 0.5, 0.25, 0.125};

// More of it is in nobody's way.
bool isRoom(MachineFigure figure) {
    switch (figure) {
        case MachineFigure::kLength:
        case MachineFigure::kLeafAngle:
        case MachineFigure::kOpening:
        case MachineFigure::kGapBehindNose:
        case MachineFigure::kOpenHeight:
        case MachineFigure::kThroat:
        case MachineFigure::kFrames: return true;
        default: return false;
    }
}

// Of a good thing there may be too much: a tall punch leaves no room to bring the sheet in, a deep throat has a thick
// back.
bool mayBeTooMuch(MachineFigure figure) {
    return figure == MachineFigure::kPunchHeight || figure == MachineFigure::kPunchThroat ||
           figure == MachineFigure::kVeeAngle;
}

bool isOtherSection(MachineFigure figure) {
    return figure == MachineFigure::kPunchThroat || figure == MachineFigure::kVeeAngle;
}

class Needs {
public:
    Needs(const Part& part, const Shop& shop, const BrakeInSetup& brake, const NeedsOptions& options)
        : part_(part), shop_(shop), options_(options), trials_(part, shop, brake, options) {
        result_.brake = brake;
    }

    MachineNeeds run() {
        together_ = allTogether();
        if (together_) together_ = leastOf(*std::move(together_));
        tryEachAlone();
        if (result_.ways.empty() && together_) tellIfProven(*together_);
        result_.found = !result_.ways.empty();
        result_.cut_short = !result_.found && trials_.leftOpen();
        if (!result_.found) tellForce(result_.brake);
        result_.work = trials_.work();
        return result_;
    }

private:
    // Every figure as good as can be; tools of another section where it does not go without.
    std::optional<ChangedBrake> allTogether() {
        for (const bool with_sections : {false, true}) {
            ChangedBrake all = trials_.unchanged();
            bool has_sections = false;
            for (Wanted& wanted : all.wanted) {
                has_sections = has_sections || isOtherSection(wanted.of.figure);
                if (with_sections || !isOtherSection(wanted.of.figure)) wanted.value = wanted.of.best;
            }
            if (trials_.somewhere(all) == FigureTrials::Answer::kGoes) return all;
            if (!has_sections) break;
        }
        return std::nullopt;
    }

    // Each figure with the rest as the brake has it, tools first.
    void tryEachAlone() {
        const ChangedBrake unchanged = trials_.unchanged();
        ChangedBrake roomy = unchanged;
        for (Wanted& wanted : roomy.wanted) wanted.value = isRoom(wanted.of.figure) ? wanted.of.best : wanted.of.has;
        const bool room_helps = trials_.goes(roomy);
        for (std::size_t i = unchanged.wanted.size(); i-- > 0 && result_.ways.size() < kMostWays;) {
            if (isRoom(unchanged.wanted[i].of.figure) && !room_helps) continue;
            if (const std::optional<ChangedBrake> alone = aloneAt(unchanged, i)) tellIfProven(leastOf(*alone));
        }
    }

    // That figure at a value that does.
    std::optional<ChangedBrake> aloneAt(const ChangedBrake& unchanged, std::size_t i) {
        if (together_ && together_->isOnlyOther(i)) return together_;
        const FigureOf& of = unchanged.wanted[i].of;
        for (const double share : kSharesOfBest) {
            ChangedBrake alone = unchanged;
            double& value = alone.wanted[i].value;
            value = share == 1 ? of.best : of.step * std::round((of.has + share * (of.best - of.has)) / of.step);
            if (alone.isAnyOther() && trials_.goes(alone)) return alone;
            if (!mayBeTooMuch(of.figure)) break;
        }
        return std::nullopt;
    }

    // As near to the brake as it goes in the V in use.
    ChangedBrake leastOf(ChangedBrake changed) {
        restoreAny(changed);
        if (changed.isOther(MachineFigure::kPieceWidth)) leavePiecesOut(changed);
        while (takeAllBack(changed) || restoreAny(changed))
            continue;  // less of one may ask less of another: taller punches ask for more open height
        return changed;
    }

    // What is told has been planned just so, and what it is less than with each figure a step nearer.
    void tellIfProven(ChangedBrake changed) {
        std::optional<bool> proven = isLeast(changed);
        while (proven && !*proven) {
            changed = leastOf(std::move(changed));
            proven = isLeast(changed);
        }
        if (!proven) return;
        if (result_.ways.empty()) tellForce(trials_.setupOf(changed));
        NeedsWay way;
        for (const Wanted& wanted : changed.wanted) {
            if (wanted.isOther())
                way.figures.push_back({wanted.of.figure, wanted.of.has, wanted.value, wanted.of.step, wanted.of.like});
        }
        if (changed.isOther(MachineFigure::kPieceWidth)) way.piece_widths_mm = changed.widths_mm;
        result_.ways.push_back(std::move(way));
    }

    // True when a figure is again what the brake has.
    bool restoreAny(ChangedBrake& changed) {
        bool restored = false;
        for (Wanted& wanted : changed.wanted) {
            if (!wanted.isOther()) continue;
            const double before = wanted.value;
            wanted.value = wanted.of.has;
            if (changed.isAnyOther() && trials_.goes(changed)) {  // with none the part was planned already
                restored = true;
            } else {
                wanted.value = before;
            }
        }
        return restored;
    }

    // True when a figure changed. The last pass changes none: from then on each is as near as the others let it be.
    // Tools first: what they are decides how much room is needed.
    bool takeAllBack(ChangedBrake& changed) {
        bool any_changed = false;
        for (std::size_t i = changed.wanted.size(); i-- > 0;) {
            Wanted& wanted = changed.wanted[i];
            const double before = wanted.value;
            if (wanted.isOther() && wanted.of.figure != MachineFigure::kPieceWidth) takeBack(changed, wanted);
            any_changed = any_changed || wanted.value != before;
        }
        return any_changed;
    }

    // Between what the brake has, which does not do, and what does. In steps, so that what is told was planned.
    void takeBack(ChangedBrake& changed, Wanted& wanted) {
        const double step = wanted.of.step;
        const double direction = wanted.value > wanted.of.has ? 1 : -1;
        const double has_not = direction * wanted.of.has / step;
        double does = std::round(direction * wanted.value / step);
        double does_not = has_not;
        const auto isEnough = [&](double steps) {
            wanted.value = direction * steps * step;
            return steps > has_not && trials_.goes(changed);
        };
        // Taken back before, it most often stays.
        if (wanted.taken_back && !isEnough(does - 1)) does_not = does - 1;
        while (does - does_not > 1) {
            const double middle = std::floor(0.5 * (does + does_not));
            if (middle <= does_not) break;
            (isEnough(middle) ? does : does_not) = middle;
        }
        wanted.value = direction * does * step;
        wanted.taken_back = true;
    }

    // The widest first: what does without it is nearer to what a shop has.
    void leavePiecesOut(ChangedBrake& changed) {
        std::vector<double>& widths_mm = changed.widths_mm;
        if (widths_mm.empty()) widths_mm = pieceWidths_mm(part_, shop_, trials_.setupOf(changed));
        for (std::size_t i = widths_mm.size(); i-- > 0 && widths_mm.size() > 1;) {
            const std::vector<double> all = widths_mm;
            widths_mm.erase(widths_mm.begin() + static_cast<std::ptrdiff_t>(i));
            if (!trials_.goes(changed)) widths_mm = all;
        }
    }

    // In no V an order works with a figure a step nearer, or as the brake has it; false: in one it does, and that is
    // how it is now; none: not known.
    std::optional<bool> isLeast(ChangedBrake& changed) {
        for (Wanted& wanted : changed.wanted) {
            if (!wanted.isOther()) continue;
            const double told = wanted.value;
            for (const double less : {aStepNearer(wanted), wanted.of.has}) {
                wanted.value = less;
                if (!changed.isAnyOther()) continue;
                switch (trials_.somewhere(changed)) {
                    case FigureTrials::Answer::kGoes: return false;
                    case FigureTrials::Answer::kNotKnown: return std::nullopt;
                    case FigureTrials::Answer::kRefused: break;
                }
            }
            wanted.value = told;
        }
        return true;
    }

    static double aStepNearer(const Wanted& wanted) {
        const FigureOf& of = wanted.of;
        if (of.figure == MachineFigure::kPieceWidth || std::abs(wanted.value - of.has) <= of.step) return of.has;
        const double a_step = wanted.value > of.has ? of.step : -of.step;
        return of.step * std::round((wanted.value - a_step) / of.step);
    }

    // What the longest bend takes.
    void tellForce(const BrakeInSetup& brake) {
        const std::optional<PressForce> force = std::visit(
            [&](const auto& kind) { return forceOn(kind, brake, options_.material, part_.thickness_mm); }, brake->kind);
        if (!force) return;
        double longest_mm = 0;
        for (const Bend& bend : part_.bends) longest_mm = std::max(longest_mm, stripLength_mm(bend));
        result_.force_kn = force->n_per_mm * longest_mm / 1000;
    }

    const Part& part_;
    const Shop& shop_;
    const NeedsOptions& options_;
    FigureTrials trials_;
    std::optional<ChangedBrake> together_;  // all together, as near as it goes
    MachineNeeds result_;
};

}  // namespace

MachineNeeds machineNeeds(const Part& part, const Shop& shop, const BrakeInSetup& brake, const NeedsOptions& options) {
    return Needs(part, shop, brake, options).run();
}

}  // namespace tinwright
