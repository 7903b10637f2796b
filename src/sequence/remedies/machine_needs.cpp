// SPDX-License-Identifier: GPL-3.0-or-later
// A figure is made as good as can be, or all are; those that are not needed so are taken back, and each that is left
// goes as far back as it may. Nothing is told that was not planned just so, nor without a step less having been planned
// and refused in every V.
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
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/sequence/plan/planner.h>
#include <tinwright/sequence/remedies/suit.h>

#include "remedies/machine_figures.h"

namespace tinwright {

namespace {

struct Wanted {
    FigureOf of;
    double value = 0;
    bool taken_back = false;
    [[nodiscard]] bool isOther() const { return value != of.has; }
};

// A leaf brake is told by the sheet that it is rated for, not by a force.
std::optional<PressForce> forceOn(const LeafBrake&, const BrakeInSetup&, const Material*, double) {
    return std::nullopt;
}

std::optional<PressForce> forceOn(const PressBrake& press, const BrakeInSetup& brake, const Material* material,
                                  double thickness_mm) {
    return pressForce(press, *brake.vee(), material, thickness_mm);
}

constexpr std::size_t kMostWays = 3;
// Between what a brake has and what it could have at best: more of a good thing may be too much.
constexpr double kSharesOfBest[] = {1, 0.5, 0.25, 0.125};

class Needs {
public:
    Needs(const Part& part, const Shop& shop, const BrakeInSetup& brake, const NeedsOptions& options)
        : part_(part), shop_(shop), options_(options) {
        result_.brake = brake;
        if (brake.vee() != nullptr) vee_opening_mm_ = brake.vee()->opening_mm;
        for (const FigureOf& of : figuresOf(part, brake)) wanted_.push_back({of, of.has});
    }

    MachineNeeds run() {
        for (std::size_t i = wanted_.size(); i-- > 0 && result_.ways.size() < kMostWays;) tryAlone(wanted_[i]);
        if (result_.ways.empty()) tryTogether();
        result_.found = !result_.ways.empty();
        result_.cut_short = !result_.found && !known_;
        if (!result_.found) result_.force_kn = longestForce_kn(result_.brake);
        return result_;
    }

private:
    // Of one figure, the rest as the brake has it.
    void tryAlone(Wanted& wanted) {
        const FigureOf& of = wanted.of;
        for (const double share : kSharesOfBest) {
            const double value = of.has + share * (of.best - of.has);
            wanted.value = share == 1 ? of.best : of.step * std::round(value / of.step);
            if (!wanted.isOther() || (share < 1 && of.figure == MachineFigure::kPieceWidth)) break;
            if (goesSomewhere()) {
                tellIfProven();
                break;
            }
        }
        startAgain();
    }

    // All as good as can be; what is not needed so is taken back.
    void tryTogether() {
        for (Wanted& wanted : wanted_) wanted.value = wanted.of.best;
        if (goesSomewhere()) tellIfProven();
    }

    void startAgain() {
        for (Wanted& wanted : wanted_) wanted = {wanted.of, wanted.of.has};
        widths_.clear();
    }

    // What is told has been planned just so, and what it is less than with each figure a step nearer.
    void tellIfProven() {
        while (restoreAny()) continue;  // without taller punches no more open height is needed either
        if (isOther(MachineFigure::kPieceWidth)) leavePiecesOut();
        std::optional<bool> proven;
        do {
            while (takeAllBack() || restoreAny())
                continue;  // less of one may ask less of another: taller punches ask for more open height
            proven = isLeast();
        } while (proven && !*proven);
        if (!proven) {
            known_ = false;
            return;
        }
        if (result_.ways.empty()) result_.force_kn = longestForce_kn(setupNow());
        NeedsWay way;
        for (const Wanted& wanted : wanted_) {
            if (wanted.isOther())
                way.figures.push_back({wanted.of.figure, wanted.of.has, wanted.value, wanted.of.step, wanted.of.like});
        }
        if (isOther(MachineFigure::kPieceWidth)) way.piece_widths_mm = widths_;
        result_.ways.push_back(std::move(way));
    }

    [[nodiscard]] bool isOther(MachineFigure figure) const {
        return std::any_of(wanted_.begin(), wanted_.end(),
                           [&](const Wanted& wanted) { return wanted.of.figure == figure && wanted.isOther(); });
    }

    // True when a figure is again what the brake has.
    bool restoreAny() {
        bool restored = false;
        for (Wanted& wanted : wanted_) {
            if (!wanted.isOther()) continue;
            const double before = wanted.value;
            wanted.value = wanted.of.has;
            if (isAnyOther() && goes()) {
                restored = true;
            } else {
                wanted.value = before;
            }
        }
        return restored;
    }

    // With none the part was planned already.
    [[nodiscard]] bool isAnyOther() const {
        return std::any_of(wanted_.begin(), wanted_.end(), [](const Wanted& wanted) { return wanted.isOther(); });
    }

    // True when a figure changed. The last pass changes none: from then on each is as near as the others let it be.
    bool takeAllBack() {
        bool changed = false;
        for (Wanted& wanted : wanted_) {
            const double before = wanted.value;
            if (wanted.isOther() && wanted.of.figure != MachineFigure::kPieceWidth) takeBack(wanted);
            changed = changed || wanted.value != before;
        }
        return changed;
    }

    // Between what the brake has, which does not do, and what does. In steps, so that what is told was planned.
    void takeBack(Wanted& wanted) {
        const double step = wanted.of.step;
        const double direction = wanted.value > wanted.of.has ? 1 : -1;
        const double has_not = direction * wanted.of.has / step;
        double does = std::round(direction * wanted.value / step);
        double does_not = has_not;
        const auto isEnough = [&](double steps) {
            wanted.value = direction * steps * step;
            return steps > has_not && goes();
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
    void leavePiecesOut() {
        if (widths_.empty()) widths_ = pieceWidths_mm(part_, shop_, setupNow());
        for (std::size_t i = widths_.size(); i-- > 0 && widths_.size() > 1;) {
            const std::vector<double> all = widths_;
            widths_.erase(widths_.begin() + static_cast<std::ptrdiff_t>(i));
            if (!goes()) widths_ = all;
        }
    }

    // In no set-up an order works with a figure a step nearer, or as the brake has it; false: in one it does, and that
    // is how it is now; none: not known.
    std::optional<bool> isLeast() {
        for (Wanted& wanted : wanted_) {
            if (!wanted.isOther()) continue;
            const double told = wanted.value;
            const double a_step = wanted.value > wanted.of.has ? wanted.of.step : -wanted.of.step;
            const bool is_last = std::abs(told - wanted.of.has) <= wanted.of.step;
            const bool in_steps = wanted.of.figure != MachineFigure::kPieceWidth && !is_last;
            for (const double less :
                 {in_steps ? wanted.of.step * std::round((told - a_step) / wanted.of.step) : wanted.of.has,
                  wanted.of.has}) {
                wanted.value = less;
                if (!isAnyOther()) continue;
                if (goesSomewhere()) return false;
                if (!all_refused_) return std::nullopt;
            }
            wanted.value = told;
        }
        return true;
    }

    [[nodiscard]] std::vector<BrakeInSetup> setupsNow() const {
        Brake changed = *result_.brake;
        for (const Wanted& wanted : wanted_) {
            if (wanted.isOther()) wanted.of.set(changed, wanted.value);
        }
        return setupsFor(part_, changed);
    }

    [[nodiscard]] BrakeInSetup setupNow() const {
        std::vector<BrakeInSetup> setups = setupsNow();
        const auto same =
            std::find_if(setups.begin(), setups.end(), [&](const BrakeInSetup& setup) { return isInUse(setup); });
        return same == setups.end() ? setups.front() : *same;
    }

    [[nodiscard]] bool isInUse(const BrakeInSetup& setup) const {
        return setup.vee() == nullptr || setup.vee()->opening_mm == vee_opening_mm_;
    }

    bool goes() { return verdictOn(setupNow()) == Verdict::kFeasible; }

    // From then on the set-up in which it does is in use. Not: whether all are refused is known too.
    bool goesSomewhere() {
        std::vector<BrakeInSetup> setups = setupsNow();
        std::stable_partition(setups.begin(), setups.end(), [&](const BrakeInSetup& setup) { return isInUse(setup); });
        all_refused_ = true;
        for (const BrakeInSetup& setup : setups) {
            const Verdict verdict = verdictOn(setup);
            all_refused_ = all_refused_ && verdict == Verdict::kInfeasible;
            if (verdict != Verdict::kFeasible) continue;
            if (setup.vee() != nullptr) vee_opening_mm_ = setup.vee()->opening_mm;
            return true;
        }
        known_ = known_ && all_refused_;
        return false;
    }

    Verdict verdictOn(BrakeInSetup brake) {
        if (result_.work >= options_.max_work) return Verdict::kUndecided;
        if (isOther(MachineFigure::kPieceWidth))
            brake = brake.with(withPieces(brake, widths_.empty() ? pieceWidths_mm(part_, shop_, brake) : widths_));
        PlanOptions plan;
        plan.plans = 1;
        plan.max_states = options_.max_states;
        plan.time_limit_s = options_.time_limit_s;
        plan.formed = options_.formed;
        plan.verdict_only = true;
        plan.explain = false;
        plan.tell_reasons = false;
        const BrakeResult result = planOnBrake(part_, shop_, brake, plan);
        result_.work += planWork(result.work);
        return result.verdict;
    }

    [[nodiscard]] std::optional<double> longestForce_kn(const BrakeInSetup& brake) const {
        const std::optional<PressForce> force = std::visit(
            [&](const auto& kind) { return forceOn(kind, brake, options_.material, part_.thickness_mm); }, brake->kind);
        if (!force) return std::nullopt;
        double longest_mm = 0;
        for (const Bend& bend : part_.bends) longest_mm = std::max(longest_mm, stripLength_mm(bend));
        return force->n_per_mm * longest_mm / 1000;
    }

    const Part& part_;
    const Shop& shop_;
    const NeedsOptions& options_;
    std::vector<Wanted> wanted_;
    std::vector<double> widths_;  // empty: all that may be of use
    double vee_opening_mm_ = 0;   // of a press brake: of the V in use
    bool all_refused_ = false;
    bool known_ = true;  // nothing that was asked was left undecided
    MachineNeeds result_;
};

}  // namespace

MachineNeeds machineNeeds(const Part& part, const Shop& shop, const BrakeInSetup& brake, const NeedsOptions& options) {
    return Needs(part, shop, brake, options).run();
}

}  // namespace tinwright
