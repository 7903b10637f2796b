// SPDX-License-Identifier: GPL-3.0-or-later
// Why a stroke is not possible: FoldEngine::explain.
#include <algorithm>
#include <iterator>

#include <tinwright/brake/machines/leaf_on_sheet.h>

#include "contact/packing_room.h"
#include "engine/fold_engine_impl.h"
#include "engine/tools_asked.h"

namespace tinwright {

namespace {

class Explainer {
public:
    Explainer(FoldEngine::Impl& engine, BendMask formed, const Stroke& stroke, StrokeScene scene)
        : engine_(engine),
          part_(engine.table.bodies().part()),
          formed_(formed),
          stroke_(stroke),
          scene_(std::move(scene)),
          asked_(engine, scene_) {}
    Explainer(const Explainer&) = delete;  // what is asked about tools refers to the scene
    Explainer& operator=(const Explainer&) = delete;

    /// What is told holds wherever these bends are flat and those of the state folded.
    void holdsWith(BendMask flat) { flat_ = flat; }

    std::vector<Reason> run() {
        if (noHem() || tooShortToSwing() || overAngle() || clampedWidthMissing() || machineTooShort())
            return std::move(reasons_);
        panelHits();
        ownStripHits();
        machineHits();
        return std::move(reasons_);
    }

private:
    Reason make(ReasonCode code) const {
        Reason reason = engine_.reasonFor(code, formed_, stroke_);
        reason.flat = flat_;
        return reason;
    }

    /// Where part and bars go, as far as nothing is witnessed to be in the way.
    [[nodiscard]] PlaceQuestion ask() { return engine_.ask(scene_, Certainty::kInner); }

    bool noHem() {
        const auto hem = engine_.noHem(stroke_);
        if (!hem) return false;
        Reason reason = make(ReasonCode::kNoHem);
        reason.panel = part_.bend(*hem).child;
        reason.no_hem = engine_.closer.whyNot({*hem});
        reasons_.push_back(reason);
        return true;
    }

    // The first fold goes; what its pieces do not do is told of those that are tried first.
    Reason notClosed() {
        Reason reason = make(ReasonCode::kNotClosed);
        reason.panel = part_.bend(stroke_.first()).child;
        PlaceQuestion first_fold = ask();
        first_fold.hems = nullptr;
        const std::optional<Placed> placed = engine_.placer.place(first_fold).placed;
        reason.closing = placed ? engine_.closer.trouble(scene_, *placed) : ClosingTrouble{};
        return reason;
    }

    bool overAngle() {
        if (engine_.reachesAngle(stroke_)) return false;
        const Machine& machine = engine_.table.machine();
        const AngleLimit limit = engine_.angleLimit(stroke_);
        Reason reason = make(limit.told_as);
        reason.at_deg = Angle::radians(machine.mostAngle_rad()).deg();
        reason.body = limit.body;
        if (limit.told_as == ReasonCode::kLeafAngle)
            reason.set_angle =
                Angle::radians(reason.set_angle.rad() + engine_.leastLead(stroke_.first(), stroke_.hold).rad());
        if (limit.told_as == ReasonCode::kLeafJams) {
            reason.at_deg = reason.set_angle.deg();
            reason.depth_mm = leafPresses_mm(machine.brake(), {machine.thickness_mm(), 0, reason.set_angle});
            reason.setback_mm = machine.thickness_mm();
        }
        reasons_.push_back(reason);
        return true;
    }

    bool clampedWidthMissing() {
        if (enoughSheet(scene_)) return false;
        Reason reason = make(ReasonCode::kTooLittleClamped);
        reason.panel = heldPanel(part_.bend(stroke_.first()), stroke_.hold);
        reasons_.push_back(reason);
        return true;
    }

    // Nowhere along the machine even if nothing of it stood in the way but its ends.
    bool machineTooShort() {
        for (const std::size_t face : asked_.faces()) {
            Obstacles ends = engine_.placer.longObstacles(ask(), face);
            ends.machine = {};
            if (!engine_.placer.along().partRoom(scene_, ends, 0).empty()) return false;
        }
        reasons_.push_back(make(ReasonCode::kNowhere));
        return true;
    }

    // By how much the worst of its bends misses the leaf.
    bool tooShortToSwing() {
        if (enoughSwung(scene_)) return false;
        const Machine& machine = engine_.table.machine();
        Reason reason = make(ReasonCode::kLeafShort);
        for (const StrokeBend& bend : scene_.bends) {
            const auto wanted_mm =
                machine.sideDepthToSwing_mm(engine_.table.geometry().motions(bend.bend), engine_.table.limits());
            if (!wanted_mm) continue;
            const double lacks_mm =
                *wanted_mm - engine_.table.clamped().swungDepth_mm(bend.bend, bend.hold, *wanted_mm);
            if (lacks_mm <= reason.depth_mm) continue;
            reason.depth_mm = lacks_mm;
            reason.panel = heldPanel(part_.bend(bend.bend), opposite(bend.hold));
        }
        const double would_do_mm = machine.brake().setback_mm() - reason.depth_mm;
        if (would_do_mm >= machine.thickness_mm()) reason.setback_mm = would_do_mm;
        reason.body = BodyRef::Kind::kLeaf;
        reasons_.push_back(reason);
        return true;
    }

    void panelHits() {
        for (const GroupUse& moving : scene_.uses) {
            if (!moving.moving) continue;
            for (const GroupUse& held : scene_.uses) {
                if (held.moving) continue;
                const PairVerdict& verdict =
                    engine_.table.pairs().of(moving.record, held.record, moving.shift_um - held.shift_um).verdict;
                if (!verdict.hit) continue;
                Reason reason = make(ReasonCode::kPanelHit);
                reason.panel = engine_.bodyOf(moving.record);
                reason.body = engine_.bodyOf(held.record);
                reason.at_deg = Angle::radians(verdict.at_rad).deg();
                reason.depth_mm = verdict.depth_mm;
                reasons_.push_back(reason);
                return;
            }
        }
    }

    // The strip that is being bent, against sheet beside it: what is not cut free of a bend's ends.
    void ownStripHits() {
        for (const StrokeBend& bend : scene_.bends) {
            for (const GroupUse& use : scene_.uses) {
                if (engine_.table.strips().contact(bend.bend, bend.hold, use.record, bend.shift_um - use.shift_um) !=
                    StripContact::kHit)
                    continue;
                Reason reason = make(ReasonCode::kPanelHit);
                reason.panel = bend.bend;
                reason.body = engine_.bodyOf(use.record);
                reason.at_deg = Angle::radians(engine_.table.geometry().set_rad(bend.bend)).deg();
                reasons_.push_back(reason);
                return;
            }
        }
    }

    // A tool of each row that stands on a face, where there are rows of several heights.
    [[nodiscard]] std::vector<ToolId> toolsOn(std::size_t face) const {
        const Machine& machine = engine_.table.machine();
        std::vector<ToolId> tools;
        if (!machine.hasLowerRow()) return tools;
        for (const ToolRow row : {ToolRow::kLower, ToolRow::kUpper}) {
            for (std::size_t family = 0; family < machine.families().size(); ++family) {
                if (machine.families()[family].row != row || !machine.standsOn(family, face)) continue;
                tools.push_back(machine.toolOf(family));
                break;
            }
        }
        return tools;
    }

    // Witnessed contacts that stand in the way where they are: with machine-length bodies when the part fits nowhere,
    // with bars where the bend is. Then what is left.
    void machineHits() {
        const std::vector<std::size_t> with_room = facesWithRoom();
        if (with_room.empty()) {
            for (Reason& hit : longBodyHits(asked_.faces())) reasons_.push_back(std::move(hit));
        }
        if (!reasons_.empty()) return;
        const std::vector<std::size_t>& faces = with_room.empty() ? asked_.faces() : with_room;
        barHits(faces);
        if (reasons_.empty()) whatIsLeft(faces);
        tellHeightsWithoutRoom(faces);
    }

    // Of upper tools of other heights, with which the part fits nowhere, what is as long as the machine and is hit.
    void tellHeightsWithoutRoom(const std::vector<std::size_t>& with_room) {
        std::vector<std::size_t> without;
        for (const std::size_t face : asked_.faces()) {
            if (std::find(with_room.begin(), with_room.end(), face) == with_room.end()) without.push_back(face);
        }
        const std::vector<std::size_t> kinds = kindsOf(ToolRow::kUpper, with_room);
        Reason& first = reasons_.front();
        if (without.empty() || kinds.empty() || first.body.kind == BodyRef::Kind::kDie) return;
        const auto named = [&](ToolId tool) { return asked_.named(engine_.table.machine().familyOf(tool)); };
        const ToolId told = named(first.tool.value_or(engine_.table.machine().toolOf(kinds.front())));
        std::vector<Reason> hits = longBodyHits(without);
        for (std::size_t i = 0, n = hits.size(); i < n; ++i) {
            std::vector<Reason> others = std::move(hits[i].also);
            for (Reason& other : others) hits.push_back(std::move(other));
        }
        for (Reason& hit : hits) {
            if (hit.heights_of.empty()) continue;
            hit.tool = named(hit.heights_of.back());
            hit.also.clear();
            const bool known = hit.tool == told || std::any_of(first.also.begin(), first.also.end(),
                                                               [&](const Reason& o) { return o.tool == hit.tool; });
            if (known) continue;
            first.tool = told;
            first.also.push_back(std::move(hit));
        }
    }

    [[nodiscard]] std::vector<std::size_t> facesWithRoom() {
        std::vector<std::size_t> faces;
        for (const std::size_t face : asked_.faces()) {
            const Obstacles blocked = engine_.placer.longObstacles(ask(), face);
            if (!engine_.placer.along().partRoom(scene_, blocked, 0).empty()) faces.push_back(face);
        }
        return faces;
    }

    // Of several faces that one is told first with which it gets furthest: it fits nowhere with any.
    std::vector<Reason> longBodyHits(const std::vector<std::size_t>& faces) {
        std::vector<std::vector<Reason>> of_faces;
        for (const std::size_t face : faces) {
            std::vector<Reason> hits;
            for (const std::size_t body : engine_.table.machine().longBodies(face)) {
                auto hit = firstHit(body, nullptr);
                if (!hit) continue;
                hit->heights_of = toolsOn(face);
                hits.push_back(std::move(*hit));
            }
            if (!hits.empty()) of_faces.push_back(std::move(hits));
        }
        const auto first_deg = [](const std::vector<Reason>& hits) {
            const auto sooner = [](const Reason& a, const Reason& b) { return a.at_deg < b.at_deg; };
            return std::min_element(hits.begin(), hits.end(), sooner)->at_deg;
        };
        const auto furthest = std::max_element(of_faces.begin(), of_faces.end(), [&](const auto& a, const auto& b) {
            return first_deg(a) < first_deg(b);
        });
        if (furthest == of_faces.end()) return {};
        std::iter_swap(of_faces.begin(), furthest);
        if (of_faces.size() > 1 && !of_faces.front().front().heights_of.empty()) addOfOtherHeights(of_faces);
        return std::move(of_faces.front());
    }

    // What is as long as the machine and is hit with tools of other heights.
    void addOfOtherHeights(std::vector<std::vector<Reason>>& of_faces) {
        for (std::vector<Reason>& hits : of_faces) {
            // the upper one
            for (Reason& hit : hits) hit.tool = asked_.named(engine_.table.machine().familyOf(hit.heights_of.back()));
        }
        std::vector<Reason>& told = of_faces.front();
        std::vector<Reason>& also = told.front().also;
        for (std::size_t i = 1; i < of_faces.size(); ++i) {
            for (Reason& hit : of_faces[i]) {
                const bool known = std::any_of(also.begin(), also.end(), [&](const Reason& told) {
                    return told.tool == hit.tool && told.body == hit.body;
                });
                if (!known && hit.tool != told.front().tool) also.push_back(std::move(hit));
            }
        }
        if (also.empty()) {
            for (Reason& hit : told) hit.tool.reset();
        }
    }

    // Sections of a row that were tried: those with horns go with the plain ones of their section.
    [[nodiscard]] std::vector<std::size_t> kindsOf(ToolRow row, const std::vector<std::size_t>& faces) const {
        const Machine& machine = engine_.table.machine();
        std::vector<std::size_t> kinds = asked_.ofRow(row, faces);
        const std::vector<ToolFamily>& all = machine.families();
        const std::vector<std::size_t> offered = kinds;
        std::erase_if(kinds, [&](std::size_t horned) {
            return machine.hasHorns() && all[horned].low >= 0 &&
                   std::any_of(offered.begin(), offered.end(), [&](std::size_t plain) {
                       return all[plain].low < 0 && all[plain].section == all[horned].section;
                   });
        });
        return kinds;
    }

    static bool getsLessFar(const Reason& a, const Reason& b) {
        return a.at_deg != b.at_deg ? a.at_deg < b.at_deg : a.depth_mm > b.depth_mm;
    }

    // What is hit is no reason while other bars that would do are not; of several that one is told first that gets
    // furthest.
    void barHits(const std::vector<std::size_t>& faces) {
        for (const ToolRow row : {ToolRow::kUpper, ToolRow::kLower}) {
            std::vector<Reason> hits;
            const std::vector<std::size_t> families = kindsOf(row, faces);
            for (const std::size_t family : families) {
                if (auto hit = barHit(family)) hits.push_back(std::move(*hit));
            }
            if (hits.empty() || hits.size() < families.size()) continue;
            addTold(std::move(hits), getsLessFar);
            return;
        }
    }

    // The one that gets furthest is the reason, the rest go with it by their tools' names.
    template <class GetsLessFar>
    void addTold(std::vector<Reason> of_tools, GetsLessFar gets_less_far) {
        const Machine& machine = engine_.table.machine();
        if (of_tools.size() > 1) {
            for (Reason& one : of_tools) one.tool = asked_.named(machine.familyOf(*one.tool));
        }
        std::stable_sort(of_tools.begin(), of_tools.end(), [&](const Reason& a, const Reason& b) {
            return machine.brake()->tool(*a.tool).id < machine.brake()->tool(*b.tool).id;
        });
        const auto first = std::max_element(of_tools.begin(), of_tools.end(), gets_less_far);
        std::rotate(of_tools.begin(), first, first + 1);
        reasons_.push_back(std::move(of_tools.front()));
        reasons_.back().also.assign(std::make_move_iterator(of_tools.begin() + 1),
                                    std::make_move_iterator(of_tools.end()));
    }

    std::optional<Reason> barHit(std::size_t family) {
        const Machine& machine = engine_.table.machine();
        const Interval bend{scene_.needs.front().lo, scene_.needs.back().hi};
        const std::size_t body = machine.families()[family].high;
        auto reason = firstHit(body, &bend);
        if (reason) reason->tool = machine.toolOf(family);
        return reason;
    }

    std::optional<Reason> firstHit(std::size_t body, const Interval* where) {
        const GroupUse* worst = nullptr;
        FirstContact first;
        for (const GroupUse& use : scene_.uses) {
            const IntervalSet& inner = engine_.table.contacts().contact(use.record, body).shadow.inner;
            if (inner.empty() || (where != nullptr && !coversMiddle(inner.shifted(use.shift_um), *where))) continue;
            const FirstContact& contact = engine_.table.contacts().firstContact(use.record, body);
            if (contact.at_rad < 0 || (worst != nullptr && contact.at_rad >= first.at_rad)) continue;
            worst = &use;
            first = contact;
        }
        if (worst == nullptr) return std::nullopt;
        // On a press brake a side moves by half of what is bent.
        const double bent = engine_.table.machine().movesBothSides() ? 2 * first.at_rad : first.at_rad;
        const BodyRef::Kind what = engine_.table.machine().bodies()[body].what;
        const bool lifts = !worst->moving && what == BodyRef::Kind::kLeaf;
        Reason reason = make(lifts ? ReasonCode::kLeafLiftsHeld : ReasonCode::kHit);
        reason.panel = engine_.bodyOf(worst->record);
        reason.body = what;
        reason.at_deg = Angle::radians(bent).deg();
        reason.depth_mm = first.depth_mm;
        if (what == BodyRef::Kind::kBed || what == BodyRef::Kind::kLeaf)
            reason.not_packed = notPacked(engine_.table.at(worst->record).lowest_mm);
        return reason;
    }

    // Of something flat that hangs under the sheet by no more than it may be packed up; nothing where it was.
    [[nodiscard]] std::optional<NotPacked> notPacked(double lowest_mm) {
        const Machine& machine = engine_.table.machine();
        if (part_.bend(stroke_.first()).hem) return std::nullopt;  // its closing wants the sheet on the bed
        for (std::size_t packing = 1; packing < machine.packingCount(); ++packing) {
            const Machine::Packed& packed = machine.packing(packing);
            if (lowest_mm > -kFlat_mm || lowest_mm < -packed.height_mm - kArcSagitta_mm - kFlat_mm || !packed.on_leaf)
                continue;
            for (std::size_t face = 0; face < machine.plainFaceCount(); ++face) {
                if (engine_.placer.faceServes(scene_, machine.faceWith(packing, face))) return std::nullopt;
            }
            const bool has_room = packingRoom(engine_.table, scene_, packing).enough;
            const double presses_mm =
                machine.packedPresses_mm(packing, engine_.table.geometry().motions(scene_.bends.front().bend));
            return NotPacked{packed.height_mm, has_room ? std::max(0.0, presses_mm) : 0};
        }
        return std::nullopt;
    }

    // A contact that leaves no bar over the middle of any stretch of bend.
    [[nodiscard]] bool coversMiddle(const IntervalSet& shadow, const Interval& bend) const {
        if (shadow.covers(Interval{bend.lo + bend.length() / 4, bend.hi - bend.length() / 4})) return true;
        return std::any_of(scene_.needs.begin(), scene_.needs.end(), [&](const Interval& need) {
            const Micron middle = (need.lo + need.hi) / 2;
            return shadow.meets(Interval{middle - 1, middle + 1});
        });
    }

    // What is only caught gets further than what does not stand, and that further than what is hit; of bars that do not
    // cover the bend those with most room.
    static std::pair<int, double> farRank(const Reason& reason) {
        switch (reason.code) {
            case ReasonCode::kHit: return {0, 0};
            case ReasonCode::kNoBars: return {1, reason.uncovered->free_mm.value_or(toMm(kFar))};
            default: return {2, 0};
        }
    }

    // Of each kind of upper tools that would do: hit, or what else there is.
    void whatIsLeft(const std::vector<std::size_t>& faces) {
        std::vector<Reason> hits;
        std::vector<std::size_t> others;
        for (const std::size_t family : kindsOf(ToolRow::kUpper, faces)) {
            if (auto hit = barHit(family)) {
                hits.push_back(std::move(*hit));
            } else {
                others.push_back(family);
            }
        }
        if (hits.size() + others.size() < 2 || others.empty()) {
            reasons_.push_back(left(std::nullopt, faces));
            return;
        }
        std::vector<Reason> told;
        for (const std::size_t family : others) {
            told.push_back(left(family, faces));
            told.back().tool = engine_.table.machine().toolOf(family);
        }
        std::move(hits.begin(), hits.end(), std::back_inserter(told));
        addTold(std::move(told), [](const Reason& a, const Reason& b) { return farRank(a) < farRank(b); });
    }

    // With any tools, or with upper ones of one kind alone.
    Reason left(std::optional<std::size_t> upper, const std::vector<std::size_t>& faces) {
        PlaceQuestion question = ask();
        question.section = upper;
        const PlaceAnswer answer = engine_.placer.place(question);
        if (const std::optional<Placed>& placed = answer.placed) {
            Reason reason = make(ReasonCode::kUndecided);
            const bool open = engine_.closer.concerns(scene_) &&
                              !engine_.closer.close(engine_.placer.along(), scene_, *placed, Certainty::kOuter);
            if (open) reason.closing = engine_.closer.trouble(scene_, *placed);
            return reason;
        }
        switch (answer.why) {
            case NoPlace::kTrapped: return make(ReasonCode::kTrapped);
            case NoPlace::kNotClosed: return notClosed();
            case NoPlace::kNowhere: return make(ReasonCode::kNowhere);
            case NoPlace::kNone:
            case NoPlace::kNoBars:
            case NoPlace::kTooLittleClamped: break;
        }
        return noBars(upper, faces);
    }

    // Some piece of the row suits the bend, on punches and dies of some height.
    [[nodiscard]] bool anySuits(ToolRow row) const {
        const Machine& machine = engine_.table.machine();
        const StrokeBend& bend = scene_.bends.front();
        for (std::size_t f = 0; f < machine.families().size(); ++f) {
            for (std::size_t face = 0; machine.families()[f].row == row && face < machine.faceCount(); ++face) {
                if (machine.standsOn(f, face) && engine_.table.tools().fits(bend.bend, bend.hold, f, face)) return true;
            }
        }
        return false;
    }

    // With tools above and below it is told first when none of a row suits the bend, wherever it stands.
    std::optional<Reason> noToolSuits() {
        const Machine& machine = engine_.table.machine();
        if (!machine.hasLowerRow()) return std::nullopt;
        const bool no_die = !anySuits(ToolRow::kLower);
        if (!no_die && anySuits(ToolRow::kUpper)) return std::nullopt;
        Reason reason = make(ReasonCode::kNoTools);
        reason.body = machine.pieceOf(no_die ? ToolRow::kLower : ToolRow::kUpper);
        return reason;
    }

    // The row, where there are two, that would not cover the bend even if nothing stood in its way.
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

    // The section that is told, where there are others: the widest bar of it.
    std::optional<ToolId> like(const ToolsAsked::Room& room, std::optional<ToolRow> lacks) const {
        return !lacks && asked_.isOneOfSeveral(room.family) ? std::optional(asked_.named(room.family)) : std::nullopt;
    }

    // What is in the way of a section over the middle of the bend.
    [[nodiscard]] BodyRef inTheMiddle(std::size_t family) {
        const ToolFamily& tools = engine_.table.machine().families()[family];
        const Micron middle = (scene_.needs.front().lo + scene_.needs.back().hi) / 2;
        for (const int body : {static_cast<int>(tools.high), tools.low}) {
            if (body < 0) continue;
            for (const GroupUse& use : scene_.uses) {
                const Shadow& shadow =
                    engine_.table.contacts().contact(use.record, static_cast<std::size_t>(body)).shadow;
                if (shadow.outer.shifted(use.shift_um).meets(Interval{middle - 1, middle + 1}))
                    return engine_.bodyOf(use.record);
            }
        }
        return {};
    }

    Reason noBars(std::optional<std::size_t> upper, const std::vector<std::size_t>& faces) {
        if (auto none = noToolSuits()) return std::move(*none);
        // What bars meet does not hang on the leaf's face.
        const Obstacles blocked = engine_.placer.obstacles(ask(), 0);
        const Machine& machine = engine_.table.machine();
        const std::optional<ToolRow> lacks = machine.hasLowerRow() ? lackingRow() : std::nullopt;
        std::vector<ToolRow> rows{lacks.value_or(ToolRow::kUpper)};
        if (machine.hasLowerRow() && !lacks) rows.push_back(ToolRow::kLower);
        const ToolsAsked::Room room = asked_.room(rows, blocked, faces, upper);
        const Micron bend_um = scene_.needs.back().hi - scene_.needs.front().lo;
        Reason reason = make(ReasonCode::kNoBars);
        reason.body = machine.pieceOf(lacks.value_or(ToolRow::kUpper));
        if (room.walled && room.at) reason.room_mm = {toMm(room.at->lo), toMm(room.at->hi)};
        if (room.walled && !room.at) reason.panel = inTheMiddle(room.family);
        Uncovered& uncovered = reason.uncovered.emplace();
        uncovered.bend_mm = toMm(bend_um);
        if (room.walled) uncovered.free_mm = room.at ? toMm(room.at->hi) - toMm(room.at->lo) : 0;
        uncovered.lacks = lacks;
        uncovered.like = like(room, lacks);
        return reason;
    }

    FoldEngine::Impl& engine_;
    const Part& part_;
    BendMask formed_;
    const Stroke& stroke_;
    std::optional<BendMask> flat_;
    StrokeScene scene_;
    ToolsAsked asked_;
    std::vector<Reason> reasons_;
};

}  // namespace

Reason FoldEngine::Impl::reasonFor(ReasonCode code, BendMask formed, const Stroke& stroke) const {
    Reason reason;
    reason.code = code;
    reason.formed = formed;
    reason.stroke = stroke;
    reason.angle = table.bodies().part().bend(stroke.first()).angle;
    reason.set_angle = Angle::radians(table.geometry().set_rad(stroke.first()));
    return reason;
}

std::optional<Reason> FoldEngine::Impl::whyNotOneStroke(BendMask formed, const Stroke& stroke) {
    const auto apart = scenes.keptApart(formed, stroke);
    if (!apart) return std::nullopt;
    Reason reason = reasonFor(ReasonCode::kNotOneStroke, formed, stroke);
    reason.apart = apart->why;
    return reason;
}

std::vector<Reason> FoldEngine::explain(BendMask formed, const Stroke& stroke) {
    if (auto apart = impl_->whyNotOneStroke(formed, stroke)) return {std::move(*apart)};
    const auto asDrawn = [&] { return Explainer(*impl_, formed, stroke, *impl_->scenes.scene(formed, stroke)).run(); };
    if (impl_->demand == Demand::kPossible) return asDrawn();
    if (auto reason = impl_->whyNotHeld(formed, stroke)) return {std::move(*reason)};
    return asDrawn();
}

// A fact may leave bends out since it is so both with them flat and with them folded: then either is told.
std::vector<Reason> FoldEngine::explain(const ForbiddenStroke& forbidden) {
    const Stroke stroke = forbidden;
    if (auto apart = impl_->whyNotOneStroke(forbidden.formed, stroke)) {
        apart->flat = forbidden.mask & ~forbidden.formed;
        return {std::move(*apart)};
    }
    if (impl_->demand != Demand::kPossible) return explain(forbidden.formed, stroke);
    const auto told = [&](BendMask formed, BendMask known) {
        Explainer explainer(*impl_, formed, stroke, impl_->settledBy(*impl_->scenes.scene(formed, stroke), known));
        explainer.holdsWith(known & ~formed);
        std::vector<Reason> reasons = explainer.run();
        if (reasons.size() > 1) reasons.resize(1);
        return reasons;
    };
    std::vector<Reason> reasons = told(forbidden.formed, forbidden.mask);
    if (forbidden.not_with == 0 || (!reasons.empty() && reasons.front().code != ReasonCode::kUndecided)) return reasons;
    reasons = told(forbidden.formed, forbidden.mask | forbidden.not_with);
    for (Reason& other : told(forbidden.formed | forbidden.not_with, forbidden.mask | forbidden.not_with))
        reasons.push_back(std::move(other));
    return reasons;
}

}  // namespace tinwright
