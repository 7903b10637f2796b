// SPDX-License-Identifier: GPL-3.0-or-later
#include "placing/placement.h"

#include <algorithm>

#include "contact/packing_room.h"

namespace tinwright {

namespace {

// Where a group keeps things away. Of what is wanted, contact that is meant to be (the sheet under the bar) is no
// obstacle at any distance, contact that is not, even of a panel that is meant to lie close, stays one.
void addContact(IntervalSet& to, ContactCache& table, const GroupUse& use, std::size_t body, Certainty certainty) {
    switch (certainty) {
        case Certainty::kWanted: {
            const BodyContact& contact = table.contacts().contactAndNear(use.record, body);
            to.addShifted(contact.near, use.shift_um);
            to.addShifted(contact.shadow.outer, use.shift_um);
            break;
        }
        case Certainty::kOuter:
            to.addShifted(table.contacts().contact(use.record, body).shadow.outer, use.shift_um);
            break;
        case Certainty::kInner:
            to.addShifted(table.contacts().contact(use.record, body).shadow.inner, use.shift_um);
            break;
    }
}

}  // namespace

Obstacles Placer::longObstacles(const PlaceQuestion& question, std::size_t face) {
    const Machine& machine = table_.machine();
    Obstacles result;
    const std::vector<std::size_t> long_bodies = machine.longBodies(face);
    for (const GroupUse& use : question.scene.uses) {
        for (const std::size_t body : long_bodies) addContact(result.machine, table_, use, body, question.certainty);
        if (machine.frames() >= 0)
            addContact(result.frames, table_, use, static_cast<std::size_t>(machine.frames()), question.certainty);
    }
    return result;
}

Obstacles Placer::obstacles(const PlaceQuestion& question, std::size_t face) {
    const StrokeScene& scene = question.scene;
    const Certainty certainty = question.certainty;
    const Machine& machine = table_.machine();
    Obstacles result = longObstacles(question, face);
    result.bars.resize(machine.families().size());
    std::vector<IntervalSet> lows(machine.families().size());
    for (const GroupUse& use : scene.uses) {
        for (const std::uint32_t f : table_.contacts().familiesMet(use.record, certainty == Certainty::kWanted)) {
            const ToolFamily& family = machine.families()[f];
            addContact(result.bars[f], table_, use, family.high, certainty);
            if (family.low < 0) continue;
            IntervalSet low;
            addContact(low, table_, use, static_cast<std::size_t>(family.low), certainty);
            lows[f].add(low);
        }
    }
    for (std::size_t f = 0; f < lows.size(); ++f) {
        const Relief& relief = machine.families()[f].relief;
        result.bars[f].add(question.keep_points ? withRelief(lows[f], relief, result.bars[f])
                                                : insideRelief(lows[f], relief));
    }
    // Room at the ends of a string: half the plus side between walls at least, the clearance where it is wanted.
    Micron room = micronCeil(0.5 * table_.limits().plus_side_mm);
    if (certainty == Certainty::kWanted) room = std::max(room, micronCeil(table_.limits().clearance_mm));
    for (IntervalSet& bars : result.bars) bars = bars.grown(room);
    if (question.tolerances != nullptr) question.tolerances->addObstacles(scene, face, result);
    return result;
}

// The middle of the machine where that is free; else as near to it as can be, a little off the edge of what is free.
std::vector<Micron> Placer::partPlaces(const StrokeScene& scene, const IntervalSet& room) const {
    const Micron length = micronFloor(table_.machine().brake()->length_mm);
    const Micron middle = (length - scene.needs.front().lo - scene.needs.back().hi) / 2;
    const Micron off = micronCeil(table_.limits().clearance_mm);
    std::vector<Micron> places;
    for (const Interval& item : room.items()) {
        const Micron inset = std::min(off, item.length() / 2);
        places.push_back(std::clamp(middle, item.lo + inset, item.hi - inset));
    }
    std::sort(places.begin(), places.end(), [&](Micron a, Micron b) {
        return std::pair(std::abs(a - middle), a) < std::pair(std::abs(b - middle), b);
    });
    return places;
}

namespace {

bool isEnough(const IntervalSet& some, const StrokeScene& scene) {
    Micron all = 0;
    for (const Interval& need : scene.needs) all += need.length();
    return static_cast<double>(some.length()) >= kLeastClampedShare * static_cast<double>(all);
}

}  // namespace

bool enoughSwung(const StrokeScene& scene) { return isEnough(scene.swung, scene); }

bool enoughSheet(const StrokeScene& scene) { return isEnough(scene.clamped, scene) && enoughSwung(scene); }

Micron Placer::marginOf(Certainty certainty) const {
    return certainty == Certainty::kWanted ? micronCeil(table_.limits().clearance_mm) : 0;
}

// Straight ways out are tried for every string before the planar search is tried, for the first string alone: the
// search takes a thousand times as long.
PlaceAnswer Placer::place(const PlaceQuestion& question) {
    if (!enoughSheet(question.scene)) return {std::nullopt, NoPlace::kTooLittleClamped, false};
    Trial trial{question, {}, {}, {}, true, false};
    NoPlace why = NoPlace::kNowhere;
    for (const bool straight_only : {true, false}) {
        if (!straight_only && (why != NoPlace::kTrapped || question.ways == WaysTried::kStraight)) break;
        trial.straight_only = straight_only;
        for (std::size_t face = 0; face < table_.machine().faceCount(); ++face) {
            NoPlace reason = NoPlace::kNowhere;
            if (auto placed = placeWithFace(trial, face, reason)) return {std::move(placed), why, trial.cut_short};
            why = std::max(why, reason);
        }
    }
    return {std::nullopt, why, trial.cut_short};
}

std::optional<Placed> Placer::placeWithFace(Trial& trial, std::size_t face, NoPlace& why) {
    if (!serves(trial.question, face)) return std::nullopt;
    const Obstacles blocked = obstacles(trial.question, face);
    const IntervalSet room = along_.partRoom(trial.scene(), blocked, marginOf(trial.question.certainty));
    for (const Micron part_x : partPlaces(trial.scene(), room)) {
        NoPlace reason = NoPlace::kNoBars;
        auto placed = placeBars(trial, {blocked, part_x, face}, reason);
        if (placed) return placed;
        why = std::max(why, reason);
    }
    return std::nullopt;
}

std::optional<Placed> Placer::placeBars(Trial& trial, const Site& site, NoPlace& why) {
    Placed placed{site.face, site.part_x, {}, true};
    bool found = false;
    const auto accept = [&](const BarString& bars) {
        placed.bars = bars;
        const bool out = waysFree(trial, placed);
        if (out && closesHems(trial.question, placed)) return found = true;
        why = std::max(why, out ? NoPlace::kNotClosed : NoPlace::kTrapped);
        return !trial.straight_only;  // of the planar search one string is enough
    };
    const auto withDies = [&](const BarString& punches) {
        placed.bars = punches;
        if (trial.straight_only && !waysFree(trial, placed)) {  // what is caught without dies is caught with any
            why = std::max(why, NoPlace::kTrapped);
            return false;
        }
        bool stop = true;  // dies stand as they do whatever the punches: where there are none for one string, there are
                           // for no other
        chooseRow(trial, site, ToolRow::kLower, found, [&](const BarString& dies) {
            BarString both = punches;
            both.insert(both.end(), dies.begin(), dies.end());
            return stop = accept(both);
        });
        return stop;
    };
    const bool both_rows = table_.machine().hasLowerRow();
    chooseRow(trial, site, ToolRow::kUpper, found,
              [&](const BarString& bars) { return both_rows ? withDies(bars) : accept(bars); });
    return found ? std::optional(placed) : std::nullopt;
}

// All kinds of bar together where none of them is hit, then each kind alone.
void Placer::chooseRow(Trial& trial, const Site& site, ToolRow row, const bool& found,
                       const std::function<bool(const BarString&)>& accept) {
    const Machine& machine = table_.machine();
    const Interval window{-site.part_x, micronFloor(machine.brake()->length_mm) - site.part_x};
    std::vector<std::size_t> kinds;
    for (std::size_t f = 0; f < machine.families().size(); ++f) {
        if (machine.families()[f].row == row && machine.standsOn(f, site.face) && isAsked(trial.question, f))
            kinds.push_back(f);
    }
    for (std::size_t pick = kinds.size() > 1 ? 0 : 1; pick <= kinds.size() && !found; ++pick) {
        BarRequest request{trial.scene().needs, {}, {}};
        IntervalSet barred;
        bool fits = true;
        std::vector<bool> wanted(machine.families().size(), false);
        for (std::size_t k = 0; k < kinds.size(); ++k) {
            if (pick != 0 && pick != k + 1) continue;
            barred.add(site.obstacles.bars[kinds[k]]);
            fits = fits && familyFits(trial.question, kinds[k], site.face);
            wanted[kinds[k]] = true;
        }
        if (!fits) continue;
        request.free = barred.gapsIn(window);
        request.allowed.assign(machine.brake()->toolCount(), false);
        for (const ToolId tool : machine.brake().tools())
            request.allowed[tool.index()] = wanted[machine.familyOf(tool)];
        int offered = 0;
        strings_.choose(request, accept, offered, trial.cut_short);
    }
    if (row == ToolRow::kUpper && machine.hasHorns() && !found) chooseHorned(trial, site, accept);
}

bool Placer::isAsked(const PlaceQuestion& question, std::size_t family) const {
    const std::vector<ToolFamily>& families = table_.machine().families();
    return !question.section || families[family].row != ToolRow::kUpper ||
           families[family].section == families[*question.section].section;
}

std::optional<Placed> Placer::placeAt(const PlaceQuestion& question, const Setup& setup) {
    if (setup.pieces.empty() || !enoughSheet(question.scene)) return std::nullopt;
    for (std::size_t packing = 0; packing < table_.machine().packingCount(); ++packing) {
        auto placed = placeAtWith(question, setup, table_.machine().faceWith(packing, setup.face));
        if (placed) return placed;
    }
    return std::nullopt;
}

std::optional<Placed> Placer::placeAtWith(const PlaceQuestion& question, const Setup& setup, std::size_t face) {
    const StrokeScene& scene = question.scene;
    if (!serves(question, face)) return std::nullopt;
    for (const SetupPiece& piece : setup.pieces) {
        if (!familyFits(question, table_.machine().familyOf(piece.tool), face)) return std::nullopt;
    }
    const Obstacles blocked = obstacles(question, face);
    IntervalSet room = along_.partRoom(scene, blocked, marginOf(question.certainty));
    IntervalSet barred;  // part x at which a standing piece would be hit
    for (const SetupPiece& piece : setup.pieces) {
        for (const Interval& item : blocked.bars[table_.machine().familyOf(piece.tool)].items()) {
            barred.add(Interval{piece.at.lo - item.hi, piece.at.hi - item.lo});
        }
    }
    room.subtract(barred);
    Trial trial{question, {}, {}, {}, true, false};
    for (const Interval& station : along_.stationsOf(setup)) {
        const Micron wanted = (station.lo + station.hi - scene.needs.front().lo - scene.needs.back().hi) / 2;
        for (const Interval& item : room.items()) {
            Placed placed{face, std::clamp(wanted, item.lo, item.hi), {}, true};
            for (const SetupPiece& piece : setup.pieces) {
                placed.bars.push_back({piece.tool, {piece.at.lo - placed.part_x_um, piece.at.hi - placed.part_x_um}});
            }
            if (along_.covered(scene, placed.bars) && waysFree(trial, placed) && closesHems(question, placed))
                return placed;
        }
    }
    return std::nullopt;
}

bool Placer::foldsHems(const StrokeScene& scene) const {
    return table_.bodies().part().bend(scene.bends.front().bend).hem.has_value();
}

bool Placer::closesHems(const PlaceQuestion& question, const Placed& placed) const {
    return question.hems == nullptr || !question.hems->concerns(question.scene) ||
           question.hems->close(along_, question.scene, placed, question.certainty).has_value();
}

bool Placer::serves(const PlaceQuestion& question, std::size_t face) {
    return faceServes(question.scene, face) && drivenClearsBeam(question, face);
}

bool Placer::faceServes(const StrokeScene& scene, std::size_t face) {
    const std::size_t packing = table_.machine().packingOf(face);
    if (packing > 0 && (foldsHems(scene) || !packingRoom(table_, scene, packing).enough)) return false;
    return std::all_of(scene.bends.begin(), scene.bends.end(),
                       [&](const StrokeBend& bend) { return table_.clamped().swings(bend.bend, bend.hold, face); });
}

bool Placer::drivenClearsBeam(const PlaceQuestion& question, std::size_t face) {
    return table_.tools().drivenClearsBeam(question.scene.bends.front().bend, face) &&
           (question.tolerances == nullptr || question.tolerances->drivenClearsBeam(question.scene, face));
}

bool Placer::familyFits(const PlaceQuestion& question, std::size_t family, std::size_t face) {
    const StrokeScene& scene = question.scene;
    if (question.tolerances != nullptr && !question.tolerances->familyFits(scene, family, face)) return false;
    return std::all_of(scene.bends.begin(), scene.bends.end(),
                       [&](const StrokeBend& bend) { return table_.tools().fits(bend.bend, bend.hold, family, face); });
}

std::optional<RestShadows>& Placer::atRest(Trial& trial, Phase phase) {
    std::optional<RestShadows>& part = phase == Phase::kAfter ? trial.after : trial.before;
    if (!part) part = atRest(trial.scene(), phase, trial.question.keep_points);
    return part;
}

bool Placer::waysFree(Trial& trial, Placed& placed) {
    if (!table_.machine().exits().plain_known) return longWaysFree(trial, placed);
    placed.plain_ways = true;
    for (const Phase phase : {Phase::kAfter, Phase::kBefore}) {
        const bool with_own = phase == Phase::kAfter && foldsHems(trial.scene());
        if (!with_own && plainWay(trial.scene(), placed, phase)) continue;
        const WayOut way = wayOut(*atRest(trial, phase), placed, trial.straight_only);
        if (!way.found) return false;
        placed.plain_ways = placed.plain_ways && way.plain;
    }
    return trial.question.tolerances == nullptr || waysHold(trial, placed);
}

// No way is so plain that it is known without looking: the part is lifted out of the lower tools first.
bool Placer::longWaysFree(Trial& trial, Placed& placed) {
    placed.plain_ways = true;
    for (const Phase phase : {Phase::kAfter, Phase::kBefore}) {
        const WayOut way = wayOut(*atRest(trial, phase), placed, trial.straight_only);
        if (!way.found) return false;
        placed.plain_ways = placed.plain_ways && way.plain;
    }
    return true;
}

bool Placer::waysHold(Trial& trial, Placed& placed) {
    for (const Phase phase : {Phase::kAfter, Phase::kBefore}) {
        const WayOut told = wayOut(*atRest(trial, phase), placed, trial.straight_only);
        if (!trial.question.tolerances->wayHolds(trial.scene(), phase, placed, trial.tolerant, trial.straight_only,
                                                 told, placed.plain_ways))
            return false;
    }
    return true;
}

bool Placer::plainWay(const StrokeScene& scene, const Placed& placed, Phase phase) {
    const Interval window{-placed.part_x_um, micronFloor(table_.machine().brake()->length_mm) - placed.part_x_um};
    for (const GroupUse& use : scene.uses) {
        const PlainExit& exit = table_.ways().of(use.record, phase);
        const auto before = [&](Interval at) { return Interval{at.lo - use.shift_um, at.hi - use.shift_um}; };
        if (exit.bodies[placed.face].meets(before(window))) return false;
        for (const StandingTool& bar : placed.bars) {
            if (exit.bars[table_.machine().familyOf(bar.tool)].meets(before(bar.at))) return false;
        }
    }
    return true;
}

RestShadows Placer::atRest(const StrokeScene& scene, Phase phase, bool keep_points) {
    std::vector<RestGroup> part;
    for (const GroupUse& use : scene.uses) {
        const GroupRecord& contact = table_.at(use.record);
        part.push_back({&table_.records().atRest(contact.congruent, phase), use.shift_um + contact.from_congruent_um,
                        contact.is_arc, nullptr, -1, false});
    }
    const bool in_vee = table_.machine().hasLowerRow() && phase == Phase::kAfter;
    // What stands out at the bend catches on the shoulders of a V first. And of a hem the return may be narrower than
    // its strip, which leans over the nose.
    const bool with_own = phase == Phase::kAfter && (in_vee || foldsHems(scene));
    for (std::size_t i = 0; with_own && i < scene.bends.size(); ++i) {
        const StrokeBend& own = scene.bends[i];
        part.push_back({&table_.strips().sprungBack(own.bend, own.hold), own.shift_um, true, nullptr, -1, false});
    }
    RestShadows shadows(table_.machine(), std::move(part), groups_, escapes_);
    if (in_vee) shadows.raiseUnder(table_.geometry().riseAfter_mm(scene.bends.front().bend));
    if (!keep_points) shadows.leavePointsOut();
    return shadows;
}

WayOut Placer::wayOut(RestShadows& part, const Placed& placed, bool straight_only) const {
    return findWayOut(table_.machine(), part, placed, straight_only);
}

}  // namespace tinwright
