// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/shop_rest_bound.h"

#include <algorithm>
#include <bit>
#include <numeric>

#include "states/bits.h"

namespace tinwright {

namespace {

/// So many questions are asked of the fold engine for all sets of families together.
constexpr std::size_t kMostQuestions = 24'000;
constexpr std::size_t kMostFamilies = 12;
/// A lie hangs on the bends between the base and the panel that is held; with more of them than this turns are left
/// out.
constexpr int kLongestPath = 6;
constexpr std::size_t kMostNodes = 160;
constexpr std::size_t kMostBytes = std::size_t{128} << 20;

std::vector<Micron> widthsOf(const Setup& setup) {
    std::vector<Micron> widths;
    for (const SetupPiece& piece : setup.pieces) widths.push_back(piece.at.length());
    std::sort(widths.begin(), widths.end());
    return widths;
}

}  // namespace

ShopRestBound::ShopRestBound(const BoundQuestions& asked, const std::vector<StepFamily>& families, BendMask start)
    : asked_(asked), start_(start) {
    BendMask bends = 0;
    for (const StepFamily& family : families) bends |= family.bends;
    search::forEachBend(bends, [&](std::size_t b) {
        for (const Side hold : kBothSides) addFold(idAt<BendId>(b), hold);
    });
    for (const StepFamily& family : families) turns_known_ = turns_known_ && liesAgree(family.bends);
    if (!turns_known_) nodes_.clear();
    chooseFamilies(families);
    all_ = (Done{1} << families_.size()) - 1;
    options_.resize(std::size_t{all_} + 1);
}

RestLowerBound ShopRestBound::least(BendMask formed, MachineState machine_state) {
    if (machine_state == kNothingSetUp) return restOf(formed, machine_state, nullptr);
    const Orientation lie = asked_.states.orientationIn(machine_state);
    return restOf(formed, machine_state, &lie);
}

/// Turning to it; and after it, with the bars of before, which are no dearer to change later by way of others.
RestLowerBound ShopRestBound::leastBy(BendMask formed, MachineState machine_state, const CandidateStroke& candidate) {
    const Orientation* lie = turns_known_ ? &nodes_[nodeOf(formed, candidate)] : nullptr;
    RestLowerBound rest = restOf(formed | candidate.bends, machine_state, lie);
    const bool turns = lie != nullptr && machine_state != kNothingSetUp && rest.time_ms < kNever_ms;
    if (turns) rest.time_ms += handlingTime_ms(asked_.states.orientationIn(machine_state), *lie);
    return rest;
}

/// With these bars standing and the part left so (null: anyhow).
RestLowerBound ShopRestBound::restOf(BendMask formed, MachineState machine_state, const Orientation* left) {
    const Done done = doneIn(formed);
    const Done touched = touchedIn(formed);
    Table& here = table(machine_state, touched);
    const auto [entry, is_new] = least_from_.try_emplace({&here, done, left == nullptr ? Orientation{} : *left}, 0);
    if (is_new) entry->second = leastFrom(here, done, left);
    return {entry->second, entry->second >= kNever_ms ? 0 : piecesFrom(done, touched)};
}

// ---- how the part lies ----

Orientation ShopRestBound::orientationFor(BendMask formed, BendId bend, Side hold) const {
    return orientationOf(asked_.engine.machineFromBase(formed, {bit(bend), hold}, false), asked_.part.bend(bend).up);
}

std::int64_t ShopRestBound::handlingTime_ms(const Orientation& from, const Orientation& to) const {
    return (from.nose != to.nose ? asked_.times.turn_ms : 0) +
           (from.drawn_face_up != to.drawn_face_up ? asked_.times.flip_ms : 0);
}

void ShopRestBound::addFold(BendId bend, Side hold) {
    Fold fold{bend, hold, asked_.engine.lieHangsOn(bend, hold) & ~bit(bend), {}};
    const BendMask open = fold.path & ~start_;
    turns_known_ = turns_known_ && std::popcount(open) <= kLongestPath && nodes_.size() <= kMostNodes;
    if (turns_known_) {
        for (BendMask formed = open;; formed = (formed - 1) & open) {
            const Orientation lie = orientationFor(start_ | formed, bend, hold);
            const auto [entry, is_new] = node_of_.try_emplace(lie, static_cast<Node>(nodes_.size()));
            if (is_new) nodes_.push_back(lie);
            fold.lies.emplace_back(formed, entry->second);
            if (formed == 0) break;
        }
    }
    folds_.push_back(std::move(fold));
}

/// A stroke of several bends lies as any of them alone: not where one of them is on the way to another, or another face
/// is up.
bool ShopRestBound::liesAgree(BendMask family) const {
    bool up[2] = {false, false};
    bool apart = true;
    for (const Fold& fold : folds_) {
        if (!contains(family, fold.bend)) continue;
        up[asked_.part.bend(fold.bend).up ? 1 : 0] = true;
        apart = apart && (fold.path & family) == 0;
    }
    return apart && up[0] != up[1];
}

ShopRestBound::Node ShopRestBound::nodeOf(BendMask formed, const CandidateStroke& candidate) const {
    const auto fold = std::find_if(folds_.begin(), folds_.end(), [&](const Fold& one) {
        return one.bend == candidate.first() && one.hold == candidate.hold;
    });
    const BendMask lies = fold->path & formed & ~start_;
    return std::find_if(fold->lies.begin(), fold->lies.end(), [&](const auto& lie) { return lie.first == lies; })
        ->second;
}

std::vector<ShopRestBound::Node> ShopRestBound::nodesOf(const Fold& fold, BendMask formed) const {
    std::vector<Node> nodes;
    for (const auto& [bends, node] : fold.lies) {
        const bool agrees = (formed & fold.path & ~start_ & ~bends) == 0;
        if (agrees && std::find(nodes.begin(), nodes.end(), node) == nodes.end()) nodes.push_back(node);
    }
    std::sort(nodes.begin(), nodes.end());
    return nodes;
}

// ---- families ----

/// As many as the questions allow, those first whose last steps take most when all others are complete.
void ShopRestBound::chooseFamilies(const std::vector<StepFamily>& families) {
    BendMask bends = start_;
    for (const StepFamily& family : families) bends |= family.bends;
    std::vector<std::size_t> order(families.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::vector<std::int64_t> interests;
    for (const StepFamily& family : families) interests.push_back(interest(family.bends, bends & ~family.bends));
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return interests[a] > interests[b]; });
    std::size_t asked = 0;
    for (const std::size_t index : order) {
        asked += 2 * static_cast<std::size_t>(std::popcount(families[index].bends));
        if (families_.size() == kMostFamilies || (asked << (families_.size() + 1)) > kMostQuestions) break;
        families_.push_back(families[index].bends);
        one_step_.push_back(families[index].one_step);
    }
}

std::int64_t ShopRestBound::interest(BendMask family, BendMask others) {
    std::int64_t least_ms = kNever_ms;
    search::forEachBend(family, [&](std::size_t b) {
        for (const Side hold : kBothSides) {
            const StrokeLowerBound one = asked_.engine.lowerBound(others, others, {bit(idAt<BendId>(b)), hold});
            if (!one.possible) continue;
            least_ms = std::min<std::int64_t>(
                least_ms, (one.plain ? 0 : asked_.times.way_out_ms) + one.pieces * asked_.times.piece_ms);
        }
    });
    return least_ms;
}

ShopRestBound::Done ShopRestBound::doneIn(BendMask formed) const {
    Done done = 0;
    for (std::size_t f = 0; f < families_.size(); ++f) done |= (families_[f] & ~formed) == 0 ? Done{1} << f : 0;
    return done;
}

ShopRestBound::Done ShopRestBound::touchedIn(BendMask formed) const {
    Done touched = 0;
    for (std::size_t f = 0; f < families_.size(); ++f) {
        const bool begun = one_step_[f] && (families_[f] & formed) != 0 && (families_[f] & ~formed) != 0;  // of others
                                                                                                           // it makes
                                                                                                           // no
                                                                                                           // difference
        touched |= begun ? Done{1} << f : 0;
    }
    return touched;
}

BendMask ShopRestBound::formedBy(Done done) const {
    BendMask formed = start_;
    for (std::size_t f = 0; f < families_.size(); ++f) formed |= (done >> f & 1U) != 0 ? families_[f] : 0;
    return formed;
}

const std::vector<ShopRestBound::Option>& ShopRestBound::options(Done done) {
    if (options_[done]) return *options_[done];
    std::vector<Option> made;
    for (std::uint32_t family = 0; family < families_.size(); ++family) {
        if ((done >> family & 1U) == 0) addOptions(done, family, made);
    }
    return *(options_[done] = std::move(made));
}

/// Each bend of the family as one of the last step. Where that forms all of them, none of the others takes less, and
/// bars stand over all.
void ShopRestBound::addOptions(Done done, std::uint32_t family, std::vector<Option>& options) {
    const BendMask formed = formedBy(done);
    const auto add = [&](const Fold& fold, const StrokeLowerBound& least, bool whole, std::int64_t before_ms) {
        if (!least.possible) return;
        const std::int64_t way_out_ms = least.plain ? 0 : asked_.times.way_out_ms;
        Option option{family,
                      whole,
                      turns_known_ ? nodesOf(fold, formed) : std::vector<Node>{0},
                      way_out_ms + before_ms,
                      least.pieces,
                      least.widest_um};
        if (std::find(options.begin(), options.end(), option) == options.end()) options.push_back(std::move(option));
    };
    const bool alone = std::has_single_bit(families_[family]);
    for (const Fold& fold : folds_) {
        if (!contains(families_[family], fold.bend)) continue;
        const std::int64_t before_ms = alone || !one_step_[family] ? 0 : stepTime_ms();
        add(fold, asked_.engine.lowerBound(formed, formed, {bit(fold.bend), fold.hold}), alone, before_ms);
    }
    if (alone || !one_step_[family]) return;
    for (const Fold& fold : folds_) {  // all at once, of which the first is held as the stroke is
        if (fold.bend == firstBend(families_[family]))
            add(fold, asked_.engine.lowerBound(formed, formed, {families_[family], fold.hold}), true, 0);
    }
}

// ---- backwards over the sets of families ----

/// Tables are forgotten when they take too much: they can be made anew.
ShopRestBound::Table& ShopRestBound::table(MachineState machine_state, Done touched) {
    if (bytes_ > kMostBytes) {
        tables_.clear();
        table_of_.clear();
        least_from_.clear();
        bytes_ = 0;
    }
    Table*& known = table_of_[{machine_state, touched}];
    if (known == nullptr) {
        std::vector<Micron> widths = widthsOf(asked_.states.setup(asked_.states.setupIn(machine_state)));
        known = &tables_.try_emplace({widths, touched}, Table{widths, touched, {}}).first->second;
    }
    return *known;
}

/// By pieces handled at most, and by lie. Recursive: no deeper than there are families.
const std::vector<std::int64_t>& ShopRestBound::timesFrom(Table& table, Done done) {
    if (table.times_ms.empty()) {
        table.times_ms.resize(options_.size());
        bytes_ += options_.size() * sizeof(table.times_ms[0]);
    }
    if (!table.times_ms[done].empty()) return table.times_ms[done];
    const std::size_t lies = std::max<std::size_t>(nodes_.size(), 1);
    std::vector<std::int64_t> times_ms;
    if (done == all_) {
        times_ms.assign(lies * (kMostPieces + 1), 0);
    } else {
        for (std::size_t left = 0; left < lies; ++left) {
            const std::vector<std::int64_t> from = through(table, done, turns_known_ ? &nodes_[left] : nullptr);
            times_ms.insert(times_ms.end(), from.begin(), from.end());
        }
    }
    bytes_ += times_ms.size() * sizeof(times_ms[0]);
    return table.times_ms[done] = std::move(times_ms);
}

/// The least over the steps that come next, by pieces handled at most, from where the part was left (null: anyhow).
std::vector<std::int64_t> ShopRestBound::through(Table& table, Done done, const Orientation* left) {
    std::vector<std::int64_t> least_ms(kMostPieces + 1, kNever_ms);
    for (const Option& option : options(done)) {
        if (!mayBe(option, table.touched)) continue;
        const std::vector<std::int64_t>& after = timesFrom(table, done | Done{1} << option.family);
        const bool begun = (table.touched >> option.family & 1U) != 0;
        const std::int64_t extra_ms = option.extra_ms - (begun ? stepTime_ms() : 0);
        for (const Node node : option.nodes) {
            const std::int64_t turn_ms = left == nullptr || !turns_known_ ? 0 : handlingTime_ms(*left, nodes_[node]);
            for (int pieces = handled(table, option); pieces <= kMostPieces; ++pieces) {
                std::int64_t& best_ms = least_ms[static_cast<std::size_t>(pieces)];
                best_ms = std::min(
                    best_ms, turn_ms + extra_ms + after[node * (kMostPieces + 1) + static_cast<std::size_t>(pieces)]);
            }
        }
    }
    return least_ms;
}

std::int64_t ShopRestBound::leastFrom(Table& table, Done done, const Orientation* left) {
    if (done == all_) return 0;
    const std::vector<std::int64_t> times_ms = through(table, done, left);
    std::int64_t least_ms = kNever_ms;
    for (std::size_t pieces = 0; pieces < times_ms.size(); ++pieces) {
        if (times_ms[pieces] < kNever_ms)
            least_ms = std::min<std::int64_t>(
                least_ms, times_ms[pieces] + static_cast<std::int64_t>(pieces) * asked_.times.piece_ms);
    }
    return least_ms;
}

/// How many bars have to be put up for a step, when these stand.
int ShopRestBound::handled(const Table& table, const Option& option) const {
    const auto usable = std::upper_bound(table.machine_state.begin(), table.machine_state.end(), option.widest_um) -
                        table.machine_state.begin();
    return std::clamp(option.pieces - static_cast<int>(usable), 0, kMostPieces);
}

/// Pieces standing beyond one for each step that a family takes anyway. Recursive: no deeper than there are families.
std::int64_t ShopRestBound::piecesFrom(Done done, Done touched) {
    if (done == all_) return 0;
    const auto known = pieces_from_.find({done, touched});
    if (known != pieces_from_.end()) return known->second;
    std::int64_t least = kNever_ms;
    for (const Option& option : options(done)) {
        if (mayBe(option, touched))
            least =
                std::min<std::int64_t>(least, option.pieces - 1 + piecesFrom(done | Done{1} << option.family, touched));
    }
    return pieces_from_[{done, touched}] = least;
}

}  // namespace tinwright
