// SPDX-License-Identifier: GPL-3.0-or-later
#include "exits/way_out.h"

#include <algorithm>
#include <limits>
#include <optional>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "exits/piece_escape.h"
#include "exits/planar_escape.h"

namespace tinwright {

namespace {

constexpr double kWayOut_mm = PlanarEscape::kOut_mm;
const Vec2 kUp(0, 1);
const Vec2 kForward(-1, 0);
const Vec2 kBack(1, 0);

// The part of a solid between two x, seen along x; empty when there is none.
Polygon sectionBetween(const Solid& solid, double lo, double hi) {
    if (solid.x_hi_mm() <= lo || solid.x_lo_mm() >= hi) return {};
    std::vector<Vec2> seen;
    const std::vector<Vec3>& corners = solid.corners();
    const std::size_t n = corners.size() / 2;
    const auto edge = [&](const Vec3& a, const Vec3& b) {
        const auto at = [&](double x) { return std::clamp((x - a.x()) / (b.x() - a.x()), 0.0, 1.0); };
        double t0 = 0;
        double t1 = 1;
        if (a.x() != b.x()) {
            t0 = std::min(at(lo), at(hi));
            t1 = std::max(at(lo), at(hi));
        }
        for (const double t : {t0, t1}) {
            const Vec3 p = a + t * (b - a);
            if (p.x() >= lo - 1e-9 && p.x() <= hi + 1e-9) seen.emplace_back(p.y(), p.z());
        }
    };
    for (std::size_t i = 0; i < n; ++i) {
        edge(corners[i], corners[(i + 1) % n]);
        edge(corners[n + i], corners[n + (i + 1) % n]);
        edge(corners[i], corners[n + i]);
    }
    Polygon hull = hullOf(std::move(seen));
    return hull.size() < 3 ? Polygon{} : hull;
}

std::vector<Convex2> moved(std::vector<Convex2> sections, const Vec2& by) {
    for (Convex2& section : sections) section = section.moved(by);
    return sections;
}

// What of a section may lie over the bed's top when it may be higher or lower by so much.
Polygon overBed(const Polygon& at, double by_mm) {
    const Polygon section =
        by_mm > 0 ? sweptBy(moved({Convex2(at)}, -kUp * by_mm).front().points(), kUp * 2 * by_mm).points() : at;
    Polygon kept;
    for (std::size_t i = 0; i < section.size(); ++i) {
        const Vec2& a = section[i];
        const Vec2& b = section[(i + 1) % section.size()];
        if (a.y() >= 0) kept.push_back(a);
        if ((a.y() < 0 && b.y() > 0) || (a.y() > 0 && b.y() < 0))
            kept.push_back(a + (b - a) * (a.y() / (a.y() - b.y())));
    }
    return kept.size() < 3 ? Polygon{} : kept;
}

class Finder {
public:
    Finder(const Machine& machine, const WayOutRequest& request) : machine_(machine), request_(request) {
        for (std::size_t i = 0; i < request.bars.size(); ++i) {
            const bool die = machine.families()[machine.familyOf(request.bars[i].tool)].row == ToolRow::kLower;
            (die ? dies_ : standing_).push_back(static_cast<int>(i));
        }
    }

    WayOut run() {
        switch (machine_.exits().order) {
            case Exits::Order::kPiecesFirst: result_.found = takeLooseBars() && partLeaves(); break;
            case Exits::Order::kRaisedPieces: result_.found = raisePieces() && partLeavesUnderBeam(); break;
            case Exits::Order::kOverLower: result_.found = raisePieces() && partLeavesDie(); break;
        }
        return std::move(result_);
    }

    // The moves that are told, of the same pieces, each as much longer or shorter as it takes.
    bool follow(const WayOut& told) {
        if (told.lift_mm > 0) {
            const double* give_mm = freeGive(told.lift_mm);
            if (give_mm == nullptr) return false;
            result_.lift_mm = told.lift_mm;
            raised_ = Vec2(*give_mm, told.lift_mm);
        }
        return std::all_of(told.moves.begin(), told.moves.end(), [&](const ExitMove& move) {
            return move.piece < 0 ? partFollows(move) : pieceFollows(move);
        });
    }

private:
    bool pieceFollows(const ExitMove& move) {
        const auto at = std::find(standing_.begin(), standing_.end(), move.piece);
        const bool out =
            at != standing_.end() && (machine_.exits().loose() ? looseFollows(move) : outInPlace(move.piece));
        return out && sameSide(move) && took(static_cast<std::size_t>(at - standing_.begin()));
    }

    bool looseFollows(const ExitMove& move) {
        if (move.kind == ExitMove::Kind::kPieceUp) return liftsAway(move.piece, 0);
        if (move.kind == ExitMove::Kind::kPieceRound) return goesRound(move.piece);
        if (move.kind == ExitMove::Kind::kPieceBack && move.path.back().z_mm == 0) return drawsBack(move.piece);
        const bool along = move.kind == ExitMove::Kind::kPieceAlong;
        for (std::size_t step = along ? 0 : 1; step < RestShadows::kBackSteps_mm.size(); ++step) {
            if (along ? slidesAndLifts(move.piece, step) : liftsAway(move.piece, step)) return true;
        }
        return false;
    }

    // What goes along the machine goes to the side that is told.
    [[nodiscard]] bool sameSide(const ExitMove& told) const {
        return told.path.back().x_mm * result_.moves.back().path.back().x_mm >= 0;
    }

    bool partFollows(const ExitMove& move) {
        const bool loose = machine_.exits().loose();
        switch (move.kind) {
            case ExitMove::Kind::kPartUp: return partLifts();
            case ExitMove::Kind::kPartForward: return loose ? partDrawsOut() : partDrawsForward(raised_);
            case ExitMove::Kind::kPartAlong: return partSlides(move.path.back().x_mm < 0 ? -1 : 1, raised_);
            default: return partTilts(raised_);
        }
    }

    // ---- loose bars ----

    bool takeLooseBars() {
        while (!standing_.empty()) {
            if (!takeOne()) return false;
        }
        return true;
    }

    // The simple ways are tried for every piece before any other way is tried for one.
    bool takeOne() {
        for (std::size_t k = 0; k < standing_.size(); ++k) {
            if (machine_.beam() < 0 && liftsAway(standing_[k], 0)) return took(k);
        }
        result_.plain = false;
        for (std::size_t k = 0; k < standing_.size(); ++k) {
            if (drawsBack(standing_[k])) return took(k);
        }
        for (std::size_t step = 0; step < RestShadows::kBackSteps_mm.size() && machine_.beam() < 0; ++step) {
            for (std::size_t k = 0; k < standing_.size(); ++k) {
                if (liftsAway(standing_[k], step) || slidesAndLifts(standing_[k], step)) return took(k);
            }
        }
        for (std::size_t k = 0; k < standing_.size() && machine_.beam() < 0; ++k) {
            if (goesRound(standing_[k])) return took(k);
        }
        return false;
    }

    // Through the free space round part and pieces, by as many moves as it takes.
    bool goesRound(int piece) {
        BarString others;
        for (const int other : standing_) {
            if (other != piece) others.push_back(barAt(other));
        }
        auto path = PieceEscape(machine_, *request_.part, barAt(piece), std::move(others), betweenFrames()).wayOut();
        if (!path) return false;
        add(ExitMove::Kind::kPieceRound, piece, std::move(*path));
        return true;
    }

    // Along x, as far as frames at the machine's ends let pieces go.
    [[nodiscard]] Interval betweenFrames() const {
        return {machine_.brake()->overhang_left ? -kFar / 4 : request_.machine.lo,
                machine_.brake()->overhang_right ? kFar / 4 : request_.machine.hi};
    }

    bool took(std::size_t k) {
        result_.order.push_back(standing_[k]);
        standing_.erase(standing_.begin() + static_cast<std::ptrdiff_t>(k));
        return true;
    }

    // Where a piece of this family cannot be drawn back by so much and then lifted.
    [[nodiscard]] const IntervalSet& noLift(int piece, std::size_t back_step, std::size_t give) const {
        return request_.part->noLift(machine_.familyOf(barAt(piece).tool), back_step, give);
    }
    [[nodiscard]] const std::vector<double>& gives_mm() const { return request_.part->gives_mm(); }

    [[nodiscard]] static std::vector<ExitMove::Point> liftPath(double along_mm, double back_mm) {
        std::vector<ExitMove::Point> path;
        if (along_mm != 0) path.push_back({along_mm, 0, 0, 0});
        if (back_mm > 0) path.push_back({along_mm, back_mm, 0, 0});
        path.push_back({along_mm, back_mm, kWayOut_mm, 0});
        return path;
    }

    bool liftsAway(int piece, std::size_t back_step) {
        for (std::size_t give = 0; give < gives_mm().size(); ++give) {
            if (noLift(piece, back_step, give).meets(barAt(piece).at)) continue;
            const double back_mm = RestShadows::kBackSteps_mm[back_step];
            add(back_mm > 0 ? ExitMove::Kind::kPieceBack : ExitMove::Kind::kPieceUp, piece,
                liftPath(0, back_mm + gives_mm()[give]))
                .drawn_back_mm = back_mm;
            return true;
        }
        return false;
    }

    bool drawsBack(int piece) {
        if (blocked(piece, kBack * kWayOut_mm).meets(barAt(piece).at)) return false;
        add(ExitMove::Kind::kPieceBack, piece, {{0, kWayOut_mm, 0, 0}});
        return true;
    }

    // Along the machine within the room that part and other pieces leave, to where it lifts.
    bool slidesAndLifts(int piece, std::size_t back_step) {
        for (std::size_t give = 0; give < gives_mm().size(); ++give) {
            const bool out = slides(piece, Vec2::Zero(), noLift(piece, back_step, give), [&](double by_mm) {
                const double back_mm = RestShadows::kBackSteps_mm[back_step];
                add(ExitMove::Kind::kPieceAlong, piece, liftPath(by_mm, back_mm + gives_mm()[give])).drawn_back_mm =
                    back_mm;
            });
            if (out) return true;
        }
        return false;
    }

    // The room along x round a piece that part, other pieces and frames at the machine's ends leave it; empty when
    // something is in its way where it stands.
    [[nodiscard]] Interval roomOf(int piece, const Vec2& raised) const {
        const Interval at = barAt(piece).at;
        Interval room = betweenFrames();
        const auto wall = [&](const Interval& item) {
            if (item.hi <= at.lo) {
                room.lo = std::max(room.lo, item.hi);
            } else if (item.lo >= at.hi) {
                room.hi = std::min(room.hi, item.lo);
            } else {
                room = {};
            }
        };
        for (const Interval& item : barBlocked(piece, raised, raised).items()) wall(item);
        for (const int other : standing_) {
            if (other != piece) wall(barAt(other).at);
        }
        return room;
    }

    template <class Then>
    bool slides(int piece, const Vec2& raised, const IntervalSet& no_exit, Then then) {
        const Interval at = barAt(piece).at;
        const Interval room = roomOf(piece, raised);
        std::optional<Micron> best;
        Micron from = room.lo;  // of a stretch of the room where it comes out
        const auto stretch = [&](Micron to) {
            if (to - from < at.length()) return;
            const Micron by = std::clamp(at.lo, from, to - at.length()) - at.lo;
            if (!best || std::abs(by) < std::abs(*best)) best = by;
        };
        for (const Interval& item : no_exit.items()) {
            if (item.hi <= room.lo || item.lo >= room.hi) continue;
            stretch(item.lo);
            from = std::max(from, item.hi);
        }
        stretch(room.hi);
        if (!best) return false;
        then(toMm(*best));
        return true;
    }

    bool partLeaves() {
        if (request_.machine.empty()) return true;
        if (partLifts()) return true;
        result_.plain = false;
        return partDrawsOut() || partSlides(Vec2::Zero()) || partTilts(Vec2::Zero());
    }

    bool partLifts() {
        if (machine_.beam() >= 0 || !bodiesFree(-kUp * kWayOut_mm)) return false;
        add(ExitMove::Kind::kPartUp, -1, {{0, 0, kWayOut_mm, 0}});
        return true;
    }

    bool partDrawsOut() {
        if (!beamFree(Vec2::Zero(), kBack * kWayOut_mm, request_.machine) || !bodiesFree(kBack * kWayOut_mm))
            return false;
        add(ExitMove::Kind::kPartForward, -1, {{0, -kWayOut_mm, 0, 0}});
        return true;
    }

    // ---- bars on a beam ----

    bool raisePieces() { return raiseBy(machine_.lift_mm(request_.face, request_.part->rise_mm())); }

    bool raiseBy(double opening) {
        for (const double lift : {opening, 0.5 * opening, 0.25 * opening, std::min(2.0, opening)}) {
            const double* give_mm = freeGive(lift);
            if (give_mm == nullptr) continue;
            result_.lift_mm = lift;
            raised_ = Vec2(*give_mm, lift);
            if (lift < opening) result_.plain = false;
            return true;
        }
        result_.lift_mm = 0;
        result_.plain = false;
        return true;  // it may still slide off an end, or its pieces come out singly
    }

    // How far the part must give way to the front for all pieces to rise; none when they cannot.
    [[nodiscard]] const double* freeGive(double lift) const {
        for (const double& give_mm : gives_mm()) {
            const Vec2 back = kBack * give_mm;
            const bool free = std::none_of(standing_.begin(), standing_.end(), [&](int piece) {
                return barBlocked(piece, back, back + kUp * lift).meets(barAt(piece).at) ||
                       (give_mm > 0 && blocked(piece, back).meets(barAt(piece).at));
            });
            if (free) return &give_mm;
        }
        return nullptr;
    }

    bool partLeavesUnderBeam() {
        if (partDrawsForward(raised_)) return true;
        result_.plain = false;
        if (partSlides(raised_)) return true;
        if (machine_.exits().in_place && takeInPlace() && partDrawsForward(raised_)) return true;
        return partTilts(raised_);
    }

    bool partDrawsForward(const Vec2& raised) {
        if (!bodiesFree(kBack * kWayOut_mm) || !beamFree(raised, kBack * kWayOut_mm, request_.machine)) return false;
        for (const int piece : standing_) {
            if (barBlocked(piece, raised, raised + kBack * kWayOut_mm).meets(barAt(piece).at)) return false;
        }
        add(ExitMove::Kind::kPartForward, -1, {{0, -kWayOut_mm, 0, 0}});
        return true;
    }

    // True when some piece comes out.
    bool takeInPlace() {
        bool some = false;
        for (bool again = true; again;) {
            again = false;
            for (std::size_t k = 0; k < standing_.size() && !again; ++k) {
                again = outInPlace(standing_[k]);
                if (again) some = took(k);
            }
        }
        return some;
    }

    // Loosened, it is slid along to where it comes out to the front.
    bool outInPlace(int piece) {
        const double lift = result_.lift_mm;
        const IntervalSet no_exit = barBlocked(piece, raised_, raised_ + kForward * kWayOut_mm);
        return slides(piece, raised_, no_exit, [&](double by_mm) {
            std::vector<ExitMove::Point> path{{0, 0, lift, 0}};
            if (by_mm != 0) path.push_back({by_mm, 0, lift, 0});
            path.push_back({by_mm, -kWayOut_mm, lift, 0});
            add(ExitMove::Kind::kPieceAlong, piece, std::move(path));
        });
    }

    // ---- punches on a ram ----

    // Out of the V first, as high as it takes, then forward; or as it lies along the machine.
    bool partLeavesDie() {
        for (const double up_mm : heightsOverDie()) {
            if (liftsAndDrawsForward(up_mm)) return true;
        }
        result_.plain = false;
        return partSlides(raised_) || partTilts(raised_);
    }

    // Part heights worth a try: just out of the V, and shares of the room under the raised punches.
    [[nodiscard]] std::vector<double> heightsOverDie() const {
        const double least_mm = request_.part->rise_mm() + kOverDie_mm;
        std::vector<double> heights;
        for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0}) {
            const double up_mm = least_mm + share * (result_.lift_mm - kUnderPunch_mm - least_mm);
            if (up_mm >= least_mm || share == 0.0) heights.push_back(up_mm);
        }
        return heights;
    }

    bool liftsAndDrawsForward(double up_mm) {
        if (up_mm > result_.lift_mm) return false;
        const Vec2 down = -kUp * up_mm;
        const Vec2 over = raised_ + down;
        if (!underFree(Vec2::Zero(), down) || !underFree(down, down + kBack * kWayOut_mm)) return false;
        if (!overFree(raised_, over, request_.machine) || !overFree(over, over + kBack * kWayOut_mm, request_.machine))
            return false;
        for (const int piece : standing_) {
            const Interval at = barAt(piece).at;
            if (barBlocked(piece, raised_, over).meets(at) ||
                barBlocked(piece, over, over + kBack * kWayOut_mm).meets(at))
                return false;
        }
        add(ExitMove::Kind::kPartForward, -1, {{0, 0, up_mm, 0}, {0, -kWayOut_mm, up_mm, 0}}).out_of_vee_mm =
            request_.part->rise_mm() > 0 ? up_mm : 0;
        return true;
    }

    // ---- both ----

    // Along the machine off an open end: nothing of the part may pass a standing piece that it meets.
    bool partSlides(const Vec2& raised) { return partSlides(-1, raised) || partSlides(1, raised); }

    bool partSlides(int way, const Vec2& raised) {
        const bool open = way < 0 ? machine_.brake()->overhang_left : machine_.brake()->overhang_right;
        if (!open || !clearsAlong(way, raised)) return false;
        add(ExitMove::Kind::kPartAlong, -1, {{way * 2 * kWayOut_mm, 0, 0, 0}});
        return true;
    }

    [[nodiscard]] bool clearsAlong(int way, const Vec2& raised) const {
        const auto ahead = [&](Interval at) {
            return way < 0 ? Interval{at.lo, kFar / 2} : Interval{-kFar / 2, at.hi};
        };
        const Interval machine = ahead(request_.machine);
        const Vec2 here = kBack * raised.x();
        for (const std::size_t under : machine_.under(request_.face)) {
            if (request_.part->body(under, here, here).meets(machine)) return false;
        }
        if (machine_.frames() >= 0 &&
            !request_.part->body(static_cast<std::size_t>(machine_.frames()), here, here).empty())
            return false;
        if (std::any_of(dies_.begin(), dies_.end(),
                        [&](int die) { return barBlocked(die, here, here).meets(ahead(barAt(die).at)); }))
            return false;
        if (!beamFree(raised, Vec2::Zero(), machine)) return false;
        return std::none_of(standing_.begin(), standing_.end(),
                            [&](int piece) { return barBlocked(piece, raised, raised).meets(ahead(barAt(piece).at)); });
    }

    bool partTilts(const Vec2& raised) {
        if (request_.straight_only) return false;
        PlanarEscape escape;
        double back_mm = 0;
        const auto addStill = [&](BodyKind kind, const std::vector<Convex2>& sections, Interval where, bool rises) {
            eachSection(kind, where, [&](const Polygon& wall) {
                for (const Vec2& p : wall) back_mm = std::max(back_mm, p.x());
                for (const Convex2& section : sections) escape.addPair(wall, section, rises);
            });
        };
        const Vec2 back = kBack * raised.x() + kUp * request_.part->rise_mm();
        for (const std::size_t under : machine_.under(request_.face))
            addStill(machine_.bodies()[under].kind, moved(body(under), back), request_.machine, false);
        for (const int die : dies_)
            eachBody(die, [&](std::size_t section, Interval at) {
                addStill(BodyKind::kDie, moved(body(section), back), at, false);
            });
        const bool rises = machine_.exits().order == Exits::Order::kOverLower;
        for (const std::size_t over : machine_.over(request_.face))
            addStill(BodyKind::kBeam, moved(body(over), raised), request_.machine, rises);
        for (const int piece : standing_)
            eachBody(piece, [&](std::size_t section, Interval at) {
                addStill(BodyKind::kBarHigh, moved(body(section), raised), at, rises);
            });
        escape.tiltAbout(rises ? Vec2::Zero() : Vec2(back_mm, 0));
        if (rises) escape.upperTravels(ramTravel(raised.y()));
        const auto way = escape.search(machine_.exits().part_up, request_.part->escapes());
        if (!way) return false;
        addPlanar(*way);
        return true;
    }

    // The ram goes up and down while the part is drawn out, from where it was raised to.
    [[nodiscard]] UpperTravel ramTravel(double raised_mm) const {
        const double opening_mm = machine_.lift_mm(request_.face, request_.part->rise_mm());
        return {-raised_mm, std::max(0.0, opening_mm - raised_mm)};
    }

    // Bed and leaf, moved by `by` against the part, do not meet it.
    [[nodiscard]] bool bodiesFree(const Vec2& by) const { return underFree(Vec2::Zero(), by); }

    // What lies under the part, moved against it between two places, does not meet it.
    [[nodiscard]] bool underFree(const Vec2& from, const Vec2& to) const {
        const std::vector<std::size_t>& under = machine_.under(request_.face);
        return std::none_of(
                   under.begin(), under.end(),
                   [&](std::size_t body) { return request_.part->body(body, from, to).meets(request_.machine); }) &&
               std::none_of(dies_.begin(), dies_.end(),
                            [&](int die) { return barBlocked(die, from, to).meets(barAt(die).at); });
    }

    [[nodiscard]] bool beamFree(const Vec2& raised, const Vec2& by, Interval machine) const {
        return overFree(raised, raised + by, machine);
    }

    [[nodiscard]] bool overFree(const Vec2& from, const Vec2& to, Interval machine) const {
        const std::vector<std::size_t>& over = machine_.over(request_.face);
        return std::none_of(over.begin(), over.end(),
                            [&](std::size_t body) { return request_.part->body(body, from, to).meets(machine); });
    }

    // Where the part is in the way of a piece that is moved by `by` (by nothing: where it stands).
    [[nodiscard]] const IntervalSet& blocked(int piece, const Vec2& by) const {
        return barBlocked(piece, Vec2::Zero(), by);
    }

    [[nodiscard]] const IntervalSet& barBlocked(int piece, const Vec2& from, const Vec2& to) const {
        return request_.part->bars(machine_.familyOf(barAt(piece).tool), from, to);
    }

    [[nodiscard]] const StandingTool& barAt(int piece) const { return request_.bars[static_cast<std::size_t>(piece)]; }
    [[nodiscard]] const std::vector<Convex2>& body(std::size_t index) const { return machine_.bodies()[index].section; }

    // What stands over all of a piece's width, and what its relief or horn shortens.
    template <class Take>
    void eachBody(int piece, Take take) const {
        const ToolFamily& family = machine_.families()[machine_.familyOf(barAt(piece).tool)];
        take(family.high, barAt(piece).at);
        if (family.low >= 0) take(static_cast<std::size_t>(family.low), family.relief.shortened(barAt(piece).at));
    }

    template <class Take>
    void eachSection(BodyKind kind, Interval where, Take take) const {
        for (const RestGroup& group : request_.part->part()) {
            std::vector<Vec2> strip;
            for (const Solid& solid : group.seenFrom(kind)) {
                Polygon section =
                    sectionBetween(solid, toMm(where.lo - group.shift_um), toMm(where.hi - group.shift_um));
                if (group.aboveBed() && RestGroup::isUnder(kind) && !section.empty())
                    section = overBed(section, group.above_bed_mm);
                if (group.is_strip) {
                    strip.insert(strip.end(), section.begin(), section.end());
                } else if (!section.empty()) {
                    take(section);
                }
            }
            const Polygon hull = hullOf(std::move(strip));
            if (hull.size() > 2) take(hull);
        }
    }

    ExitMove& add(ExitMove::Kind kind, int piece, std::vector<ExitMove::Point> path) {
        return result_.moves.emplace_back(ExitMove{kind, piece, std::move(path)});
    }

    void addPlanar(const std::vector<PlanarPose>& way) {
        std::vector<ExitMove::Point> path;
        for (const PlanarPose& pose : way) path.push_back({0, pose.y_mm, pose.z_mm, pose.tilt_deg, pose.raised_mm});
        add(ExitMove::Kind::kPartTilted, -1, std::move(path));
    }

    static constexpr double kOverDie_mm = 1;  // lifted out of the V, the part is this much over where it lay at the
                                              // least
    static constexpr double kUnderPunch_mm = 1;
    const Machine& machine_;
    const WayOutRequest& request_;
    std::vector<int> standing_;  // bars and punches
    std::vector<int> dies_;
    Vec2 raised_ = Vec2::Zero();  // where beam and pieces are by now, seen from the part
    WayOut result_;
};

}  // namespace

WayOut findWayOut(const Machine& machine, const WayOutRequest& request) { return Finder(machine, request).run(); }

namespace {

WayOutRequest requestOf(const Machine& machine, RestShadows& part, const Placed& placed, bool straight_only) {
    WayOutRequest request;
    request.part = &part;
    request.straight_only = straight_only;
    request.bars = placed.bars;
    request.machine = {-placed.part_x_um, micronFloor(machine.brake()->length_mm) - placed.part_x_um};
    request.face = placed.face;
    return request;
}

}  // namespace

WayOut findWayOut(const Machine& machine, RestShadows& part, const Placed& placed, bool straight_only) {
    return findWayOut(machine, requestOf(machine, part, placed, straight_only));
}

bool wayServes(const Machine& machine, RestShadows& part, const Placed& placed, const WayOut& told) {
    const WayOutRequest request = requestOf(machine, part, placed, false);
    return Finder(machine, request).follow(told);
}

}  // namespace tinwright
