// SPDX-License-Identifier: GPL-3.0-or-later
// Why a stroke is not possible: FoldEngine::explain.
#include <algorithm>
#include <numbers>

#include <fmt/format.h>

#include <tinwright/base/words.h>

#include "engine/fold_engine_impl.h"
#include "engine/reason_words.h"

namespace tinwright {

namespace {

std::string bendNames(const Part& part, BendMask bends) {
    std::string names;
    for (const BendId bend : bendsIn(bends)) names += (names.empty() ? "" : " + ") + part.bend(bend).name;
    return names;
}

class Explainer {
public:
    Explainer(FoldEngine::Impl& engine, BendMask formed, const Stroke& stroke, StrokeScene scene)
        : engine_(engine),
          part_(engine.table.bodies().part()),
          formed_(formed),
          stroke_(stroke),
          scene_(std::move(scene)) {
        const StrokeBend& first = scene_.bends.front();
        held_name_ = part_.panel(heldPanel(part_.bend(first.bend), first.hold)).name;
    }

    /// What is told holds wherever these bends are flat and those of the state folded.
    void holdsWith(BendMask flat) { flat_ = flat; }

    std::vector<Reason> run() {
        if (noHem() || overAngle() || clampedWidthMissing()) return std::move(reasons_);
        panelHits();
        ownStripHits();
        bodyHits();
        if (reasons_.empty()) whatIsLeft();
        return std::move(reasons_);
    }

private:
    Reason make(const char* code) const {
        Reason reason;
        reason.formed = formed_;
        reason.flat = flat_;
        reason.bends = bendList(stroke_.bends);
        reason.hold = stroke_.hold;
        reason.code = code;
        if (isPress()) reason.side = sideWords();
        return reason;
    }

    /// Where part and bars go, as far as nothing is witnessed to be in the way.
    [[nodiscard]] PlaceQuestion ask() { return engine_.ask(scene_, Certainty::kInner); }
    [[nodiscard]] bool isPress() const { return engine_.table.machine().brake()->isPress(); }
    [[nodiscard]] ReasonWords words() const { return {engine_.table.machine().brake()}; }
    [[nodiscard]] double bend_deg() const { return part_.bend(stroke_.first()).angle.deg(); }
    [[nodiscard]] double set_deg() const { return Angle::radians(engine_.table.set_rad(stroke_.first())).deg(); }
    [[nodiscard]] std::string sideWords() const {
        return isPress() ? held_name_ + " at the back" : "holding " + held_name_;
    }
    [[nodiscard]] std::string start() const {
        return fmt::format("{}, {}{}: ", bendNames(part_, stroke_.bends), sideWords(), when());
    }

    /// "once a and b are folded, while c is flat", of what holds in many states.
    [[nodiscard]] std::string when() const {
        if (!flat_) return {};
        const auto names = [&](BendMask mask) {
            std::vector<std::string> list;
            for (std::size_t i = 0; i < part_.bends.size(); ++i) {
                if (contains(mask, idAt<BendId>(i))) list.push_back(part_.bends[i].name);
            }
            return listed(list) + (list.size() == 1 ? " is" : " are");
        };
        std::string text;
        if (formed_ != 0) text += ", once " + names(formed_) + " folded";
        if (*flat_ != 0) text += ", while " + names(*flat_) + " flat";
        return text;
    }

    bool noHem() {
        const auto hem = engine_.noHem(stroke_);
        if (!hem) return false;
        Reason reason = make("no-hem");
        reason.panel = part_.panel(part_.bend(*hem).child).name;
        reason.words = start() + part_.bend(*hem).name + " " + engine_.closer.whyNot({*hem});
        reasons_.push_back(reason);
        return true;
    }

    // The first fold goes; what its pieces do not do is told of those that are tried first.
    void notClosed() {
        Reason reason = make("not-closed");
        reason.panel = part_.panel(part_.bend(stroke_.first()).child).name;
        PlaceQuestion first_fold = ask();
        first_fold.hems = nullptr;
        const std::optional<Placed> placed = engine_.placer.place(first_fold).placed;
        reason.words = fmt::format("{}it can be folded, but the hem is not closed: {}", start(),
                                   placed ? engine_.closer.trouble(scene_, *placed) : "no pieces close it");
        reasons_.push_back(reason);
    }

    bool overAngle() {
        if (engine_.reachesAngle(stroke_)) return false;
        const Machine& machine = engine_.table.machine();
        const double most = Angle::radians(machine.mostAngle_rad()).deg();
        Reason reason = make(engine_.angleCode());
        reason.at_deg = most;
        reason.body = isPress() ? "die" : "leaf";
        reason.words = start() + words().overAngle(bend_deg(), set_deg(), most);
        reasons_.push_back(reason);
        return true;
    }

    bool clampedWidthMissing() {
        if (enoughClamped(scene_)) return false;
        Reason reason = make("no-land");
        reason.panel = held_name_;
        reason.words = start() + words().noLand(held_name_, engine_.table.limits());
        reasons_.push_back(reason);
        return true;
    }

    void panelHits() {
        for (const GroupUse& moving : scene_.uses) {
            if (!moving.moving) continue;
            for (const GroupUse& held : scene_.uses) {
                if (held.moving) continue;
                const PairVerdict& verdict =
                    engine_.table.pair(moving.record, held.record, moving.shift_um - held.shift_um).verdict;
                if (!verdict.hit) continue;
                Reason reason = make("panel-hit");
                reason.panel = engine_.groupName(moving.record);
                reason.body = engine_.groupName(held.record);
                reason.at_deg = Angle::radians(verdict.at_rad).deg();
                reason.depth_mm = verdict.depth_mm;
                const bool overbend = reason.at_deg > bend_deg();
                reason.words = fmt::format(
                    "{}{} runs into {} at about {:.0f}°{}", start(), reason.panel, reason.body, reason.at_deg,
                    overbend ? " (overbend alone makes the contact: open the corner a little)" : "");
                reasons_.push_back(reason);
                return;
            }
        }
    }

    // The strip that is being bent, against sheet beside it: what is not cut free of a bend's ends.
    void ownStripHits() {
        for (const StrokeBend& bend : scene_.bends) {
            for (const GroupUse& use : scene_.uses) {
                if (engine_.table.ownStrip(bend.bend, bend.hold, use.record, bend.shift_um - use.shift_um) !=
                    StripContact::kHit)
                    continue;
                Reason reason = make("panel-hit");
                reason.panel = "bend " + part_.bend(bend.bend).name;
                reason.body = engine_.groupName(use.record);
                reason.at_deg = Angle::radians(engine_.table.set_rad(bend.bend)).deg();
                reason.words =
                    fmt::format("{}the sheet in the bend itself runs into {}: cut a relief at the end of the bend",
                                start(), reason.body);
                reasons_.push_back(reason);
                return;
            }
        }
    }

    // Witnessed contacts that stand in the way where they are: with machine-length bodies when the part fits nowhere,
    // with bars where the bend is.
    void bodyHits() {
        const Machine& machine = engine_.table.machine();
        const Obstacles blocked = engine_.placer.obstacles(ask(), 0);
        if (engine_.placer.along().partRoom(scene_, blocked, 0).empty()) {
            for (const std::size_t body : machine.longBodies(0)) firstHit(body, machine.bodies()[body].name, nullptr);
        }
        const Interval bend{scene_.needs.front().lo, scene_.needs.back().hi};
        for (std::size_t f = 0; f < machine.families().size() && reasons_.empty(); ++f) {
            firstHit(machine.families()[f].high, isPress() ? machine.bodies()[machine.families()[f].high].name : "bar",
                     &bend);
            for (Reason& reason : reasons_) reason.bar = machine.barOf(f);
        }
    }

    void firstHit(std::size_t body, const std::string& name, const Interval* where) {
        const GroupUse* worst = nullptr;
        double first = 0;
        double depth = 0;
        for (const GroupUse& use : scene_.uses) {
            const IntervalSet& inner = engine_.table.contact(use.record, body).shadow.inner;
            if (inner.empty() || (where != nullptr && !coversMiddle(inner.shifted(use.shift_um), *where))) continue;
            double use_depth = 0;
            const double angle = engine_.table.firstContact_rad(use.record, body, use_depth);
            if (angle < 0 || (worst != nullptr && angle >= first)) continue;
            worst = &use;
            first = angle;
            depth = use_depth;
        }
        // On a press brake a side moves by half of what is bent.
        const double bent = engine_.table.machine().movesBothSides() ? 2 * first : first;
        if (worst != nullptr) reasons_.push_back(hit(*worst, name, Angle::radians(bent).deg(), depth));
    }

    // A contact that leaves no bar over the middle of any stretch of bend.
    [[nodiscard]] bool coversMiddle(const IntervalSet& shadow, const Interval& bend) const {
        if (shadow.covers(Interval{bend.lo + bend.length() / 4, bend.hi - bend.length() / 4})) return true;
        return std::any_of(scene_.needs.begin(), scene_.needs.end(), [&](const Interval& need) {
            const Micron middle = (need.lo + need.hi) / 2;
            return shadow.meets(Interval{middle - 1, middle + 1});
        });
    }

    [[nodiscard]] Reason hit(const GroupUse& use, const std::string& body, double at_deg, double depth) const {
        Reason reason = make("hit");
        reason.panel = engine_.groupName(use.record);
        reason.body = body;
        reason.at_deg = at_deg;
        reason.depth_mm = depth;
        if (!use.moving && body == "leaf") {
            reason.code = "leaf-lifts-held";
            reason.words = start() + words().leafMeets(reason.panel, at_deg, bend_deg());
        } else {
            reason.words = fmt::format("{}{} hits the {} at about {:.0f}° and would go {:.1f} mm into it", start(),
                                       reason.panel, body, at_deg, depth);
        }
        return reason;
    }

    void whatIsLeft() {
        const PlaceAnswer answer = engine_.placer.place(ask());
        if (const std::optional<Placed>& placed = answer.placed) {
            Reason reason = make("undecided");
            const bool open = engine_.closer.concerns(scene_) &&
                              !engine_.closer.close(engine_.placer.along(), scene_, *placed, Certainty::kOuter);
            reason.words =
                start() +
                (open
                     ? "whether the hem closes is not decided: " + engine_.closer.trouble(scene_, *placed)
                     : "neither proven clear nor proven to hit: something passes within a tenth of a millimetre or so");
            reasons_.push_back(reason);
            return;
        }
        if (answer.why == NoPlace::kTrapped) {
            Reason reason = make("trapped");
            reason.words = start() + words().trapped();
            reasons_.push_back(reason);
        } else if (answer.why == NoPlace::kNotClosed) {
            notClosed();
        } else if (answer.why == NoPlace::kNowhere) {
            Reason reason = make("overhang");
            reason.words = start() + words().nowhere();
            reasons_.push_back(reason);
        } else {
            noBars();
        }
    }

    // Some piece of the row suits the bend, on punches and dies of some height.
    [[nodiscard]] bool anySuits(ToolRow row) const {
        const Machine& machine = engine_.table.machine();
        const StrokeBend& bend = scene_.bends.front();
        for (std::size_t f = 0; f < machine.families().size(); ++f) {
            for (std::size_t face = 0; machine.families()[f].row == row && face < machine.faceCount(); ++face) {
                if (machine.standsOn(f, face) && engine_.table.familyFits(bend.bend, bend.hold, f, face)) return true;
            }
        }
        return false;
    }

    // On a press brake it is told first when no die or no punch suits the bend, wherever it stands.
    bool noToolSuits() {
        if (!isPress()) return false;
        const bool no_die = !anySuits(ToolRow::kLower);
        if (!no_die && anySuits(ToolRow::kUpper)) return false;
        Reason reason = make("no-tools");
        reason.body = no_die ? "die" : "punch";
        reason.words = start() + words().noTool(no_die ? ToolRow::kLower : ToolRow::kUpper, set_deg());
        reasons_.push_back(reason);
        return true;
    }

    // The row of a press brake that would not cover the bend even if nothing stood in its way.
    [[nodiscard]] std::optional<ToolRow> lackingRow() const {
        const Machine& machine = engine_.table.machine();
        BarRequest request{scene_.needs, {}, {}};
        request.free.add(Interval{scene_.needs.front().lo - kFar, scene_.needs.back().hi + kFar});
        for (const ToolRow row : {ToolRow::kUpper, ToolRow::kLower}) {
            request.allowed.assign(machine.brake()->toolCount(), false);
            for (const ToolId tool : machine.brake().tools(row)) request.allowed[tool.index()] = true;
            int offered = 0;
            bool cut_short = false;
            if (!engine_.strings.choose(
                    request, [](const BarString&) { return true; }, offered, cut_short) &&
                !cut_short)
                return row;
        }
        return std::nullopt;
    }

    void noBars() {
        if (noToolSuits()) return;
        const Obstacles blocked = engine_.placer.obstacles(ask(), 0);
        const Interval need{scene_.needs.front().lo, scene_.needs.back().hi};
        const IntervalSet free = blocked.bars.front().gapsIn(Interval{need.lo - kFar / 8, need.hi + kFar / 8});
        const Micron middle = (need.lo + need.hi) / 2;
        const auto room = std::find_if(free.items().begin(), free.items().end(),
                                       [&](const Interval& item) { return item.lo < middle && middle < item.hi; });
        const bool walled = room == free.items().end() || room->length() <= kFar / 16;
        Reason reason = make("no-bars");
        const std::optional<ToolRow> lacks = isPress() ? lackingRow() : std::nullopt;
        reason.body = !isPress() ? "bar" : (lacks == ToolRow::kLower ? "die" : "punch");
        if (walled && room != free.items().end()) reason.room_mm = {toMm(room->lo), toMm(room->hi)};
        const double free_mm = reason.room_mm ? (*reason.room_mm)[1] - (*reason.room_mm)[0] : 0;
        const std::string space =
            walled ? fmt::format("{:.1f} mm are free between what stands", free_mm) : "there is room";
        reason.words = start() + words().noString(lacks, toMm(need.length()), space, engine_.table.limits());
        reasons_.push_back(reason);
    }

    FoldEngine::Impl& engine_;
    const Part& part_;
    BendMask formed_;
    const Stroke& stroke_;
    std::optional<BendMask> flat_;
    StrokeScene scene_;
    std::string held_name_;
    std::vector<Reason> reasons_;
};

}  // namespace

std::vector<Reason> FoldEngine::explain(BendMask formed, const Stroke& stroke) {
    const auto asDrawn = [&] { return Explainer(*impl_, formed, stroke, *impl_->scenes.scene(formed, stroke)).run(); };
    if (impl_->demand == Demand::kPossible) return asDrawn();
    if (auto reason = impl_->whyNotHeld(formed, stroke)) return {std::move(*reason)};
    return asDrawn();
}

// A fact may leave bends out since it is so both with them flat and with them folded: then either is told.
std::vector<Reason> FoldEngine::explain(const ForbiddenStroke& forbidden) {
    const Stroke stroke = forbidden;
    if (impl_->demand != Demand::kPossible) return explain(forbidden.formed, stroke);
    const auto told = [&](BendMask formed, BendMask known) {
        Explainer explainer(*impl_, formed, stroke, impl_->settledBy(*impl_->scenes.scene(formed, stroke), known));
        explainer.holdsWith(known & ~formed);
        std::vector<Reason> reasons = explainer.run();
        if (reasons.size() > 1) reasons.resize(1);
        return reasons;
    };
    std::vector<Reason> reasons = told(forbidden.formed, forbidden.mask);
    if (forbidden.not_with == 0 || (!reasons.empty() && reasons.front().code != "undecided")) return reasons;
    reasons = told(forbidden.formed, forbidden.mask | forbidden.not_with);
    for (Reason& other : told(forbidden.formed | forbidden.not_with, forbidden.mask | forbidden.not_with))
        reasons.push_back(std::move(other));
    return reasons;
}

}  // namespace tinwright
