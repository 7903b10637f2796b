// SPDX-License-Identifier: GPL-3.0-or-later
// Every figure is made as good as can be; those that are not needed so are taken back, and each that is left goes as
// far back as it may.
#include <tinwright/sequence/remedies/machine_needs.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/press_bend.h>
#include <tinwright/sequence/plan/planner.h>
#include <tinwright/sequence/remedies/suit.h>

#include "remedies/machine_figures.h"

namespace tinwright {

namespace {

struct Wanted {
    FigureOf of;
    double value = 0;
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

class Needs {
public:
    Needs(const Part& part, const Shop& shop, const BrakeInSetup& brake, const NeedsOptions& options)
        : part_(part), shop_(shop), options_(options) {
        result_.brake = brake;
        for (const FigureOf& of : figuresOf(part, brake)) wanted_.push_back({of, of.best});
    }

    MachineNeeds run() {
        if (!goes()) return finished();
        while (restoreAny()) continue;  // without taller punches no more open height is needed either
        if (isOther(MachineFigure::kPieceWidth)) leavePiecesOut();
        while (takeAllBack() || restoreAny())
            continue;  // less of one may ask less of another: taller punches ask for more open height
        result_.found = !result_.cut_short;
        return finished();
    }

private:
    [[nodiscard]] bool isOther(MachineFigure figure) const {
        return std::any_of(wanted_.begin(), wanted_.end(),
                           [&](const Wanted& wanted) { return wanted.of.figure == figure && wanted.isOther(); });
    }

    // True when a figure is again what the brake has.
    bool restoreAny() {
        bool restored = false;
        for (Wanted& wanted : wanted_) {
            if (!wanted.isOther()) continue;
            const double best = wanted.value;
            wanted.value = wanted.of.has;
            if (goes()) {
                restored = true;
            } else {
                wanted.value = best;
            }
        }
        return restored;
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

    // Between what the brake has, which does not do, and what does.
    void takeBack(Wanted& wanted) {
        const double direction = wanted.value > wanted.of.has ? 1 : -1;
        double does = direction * wanted.value;
        double does_not = direction * wanted.of.has;
        while (does - does_not > 1) {
            const double middle = std::floor(0.5 * (does + does_not));
            if (middle <= does_not) break;
            wanted.value = direction * middle;
            (goes() ? does : does_not) = middle;
        }
        wanted.value = direction * does;
    }

    // The widest first: what does without it is nearer to what a shop has.
    void leavePiecesOut() {
        if (widths_.empty()) widths_ = pieceWidths_mm(part_, shop_, brakeNow());
        for (std::size_t i = widths_.size(); i-- > 0 && widths_.size() > 1;) {
            const std::vector<double> all = widths_;
            widths_.erase(widths_.begin() + static_cast<std::ptrdiff_t>(i));
            if (!goes()) widths_ = all;
        }
    }

    [[nodiscard]] BrakeInSetup brakeNow() const {
        Brake changed = *result_.brake;
        for (const Wanted& wanted : wanted_) {
            if (wanted.isOther()) wanted.of.set(changed, wanted.value);
        }
        return result_.brake.with(std::move(changed));
    }

    bool goes() {
        if (result_.work >= options_.max_work) {
            result_.cut_short = true;
            return false;
        }
        BrakeInSetup brake = brakeNow();
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
        return result.verdict == Verdict::kFeasible;
    }

    [[nodiscard]] std::optional<double> longestForce_kn() const {
        const BrakeInSetup& brake = result_.brake;
        const std::optional<PressForce> force = std::visit(
            [&](const auto& kind) { return forceOn(kind, brake, options_.material, part_.thickness_mm); }, brake->kind);
        if (!force) return std::nullopt;
        double longest_mm = 0;
        for (const Bend& bend : part_.bends) longest_mm = std::max(longest_mm, stripLength_mm(bend));
        return force->n_per_mm * longest_mm / 1000;
    }

    MachineNeeds finished() {
        result_.force_kn = longestForce_kn();
        for (const Wanted& wanted : wanted_) {
            if (result_.found && wanted.isOther())
                result_.figures.push_back({wanted.of.figure, wanted.of.has, wanted.value});
        }
        if (result_.found && isOther(MachineFigure::kPieceWidth)) result_.piece_widths_mm = widths_;
        return result_;
    }

    const Part& part_;
    const Shop& shop_;
    const NeedsOptions& options_;
    std::vector<Wanted> wanted_;
    std::vector<double> widths_;  // empty: all that may be of use
    MachineNeeds result_;
};

}  // namespace

MachineNeeds machineNeeds(const Part& part, const Shop& shop, const BrakeInSetup& brake, const NeedsOptions& options) {
    return Needs(part, shop, brake, options).run();
}

}  // namespace tinwright
