// SPDX-License-Identifier: GPL-3.0-or-later
#include "search/label_search.h"

#include <algorithm>
#include <limits>
#include <tuple>

#include "states/bits.h"

namespace tinwright::search {

namespace {

// Roughly: the label, its places in heap and state, and what the oracle keeps of its cost.
constexpr std::uint64_t kBytesPerLabel = 400;
constexpr std::uint64_t kDeadEndShare = 4;

}  // namespace

LabelSearch::LabelSearch(StateTable& table, Bounds& bounds, Reach& reach, BestOrders& best)
    : table_(table),
      bounds_(bounds),
      reach_(reach),
      best_(best),
      open_(Later{this}),
      least_undecided_ms_(kNever_ms),
      least_dead_end_ms_(kNever_ms) {}

LabelEnd LabelSearch::run(std::size_t most_labels) {
    Label first;
    first.node = nodeAt(table_.coFoldable().start, kNothingSetUp);
    if (!push(first)) return LabelEnd::kStopped;
    while (!open_.empty()) {
        const Open next = open_.top();
        if (tooLate(next.rank, labels_[next.label])) return LabelEnd::kAll;  // and so are all the others
        open_.pop();
        if (labels_[next.label].dropped) continue;
        opening_ = next.rank;
        if (labels_.size() >= most_labels) return LabelEnd::kMany;
        if (!open(next)) return LabelEnd::kStopped;
        opening_.reset();
    }
    return LabelEnd::kAll;
}

std::int64_t LabelSearch::leastUndecided_ms() const {
    return table_.sawUndecided() ? std::min(least_undecided_ms_, least_dead_end_ms_) : kNever_ms;
}

/// All orders that begin like this come after the last one in hand.
bool LabelSearch::tooLate(const Rank& bounded, const Label& label) const {
    const std::strong_ordering order = best_.compareWithLast(bounded);
    if (std::is_neq(order)) return std::is_gt(order);
    Sequence sequence;
    for (const CandidateStroke* candidate : candidatesOf(label)) sequence.push_back(*candidate);
    return best_.comesAfterLast(sequence);
}

/// False when the budget ran out.
bool LabelSearch::open(const Open& next) {
    const BendMask formed = nodes_[labels_[next.label].node].formed;
    ++opened_;
    SearchProgress& progress = table_.budget().progress();
    ++progress.partial_orders;
    if (!next.rank.tight) progress.least_ms = next.rank.time_ms;
    if (best_.first() != nullptr) progress.best_ms = best_.first()->time_ms;
    const std::optional<bool> finishes = mayFinish(formed);
    if (!finishes) return false;
    if (!*finishes) {
        least_dead_end_ms_ = std::min(least_dead_end_ms_, next.rank.time_ms);
        return true;
    }
    const std::vector<CandidateStroke>* listed = table_.listed(formed);
    if (!listed) return false;
    return expand(next.label, *listed);
}

/// A sharp bound leads by dead ends by itself for the most part, and asking for each state whether it finishes takes
/// more than it saves; unless there turn out to be many.
std::optional<bool> LabelSearch::mayFinish(BendMask formed) {
    if (!bounds_.isSharp() || kDeadEndShare * dead_ends_ > opened_) return reach_.finishes(formed);
    return reach_.known(formed).value_or(true);
}

bool LabelSearch::expand(std::uint32_t parent, const std::vector<CandidateStroke>& listed) {
    const BendMask formed = nodes_[labels_[parent].node].formed;
    bool any = false;
    for (std::size_t i = 0; i < listed.size(); ++i) {
        if (notWorthAsking(parent, listed[i])) continue;
        const CandidateStroke& candidate = table_.answered(formed, i);
        any = any || candidate.answer != StrokeAnswer::kImpossible;
        if (candidate.answer == StrokeAnswer::kPossible && !follow(parent, candidate)) return false;
        if (candidate.answer == StrokeAnswer::kUndecided) noteUndecided(parent, candidate);
    }
    dead_ends_ += any ? 0 : 1;
    return true;
}

/// Even if it were possible and took the least that it can, and whatever stood after it.
bool LabelSearch::notWorthAsking(std::uint32_t parent, const CandidateStroke& candidate) {
    const BendMask formed = nodes_[labels_[parent].node].formed;
    const Remaining rest = bounds_.by(formed, nodes_[labels_[parent].node].machine_state, candidate);
    if (!rest.finishes) return true;
    Rank rank = labels_[parent].rank;
    const Rank least = bounded(labels_[parent]);
    rank.spoils = std::max(rank.spoils + rest.spoils, least.spoils);
    rank.time_ms = std::max(rank.time_ms + rest.time_ms, least.time_ms);
    rank.pieces = std::max(rank.pieces + rest.pieces, least.pieces);
    return std::is_gt(best_.compareWithLast(rank));
}

bool LabelSearch::follow(std::uint32_t parent, const CandidateStroke& candidate) {
    const BendMask formed = nodes_[labels_[parent].node].formed;
    // Past the time of the last order in hand only what spoils less, or is comfortable where that is tight, ranks
    // before.
    const Rank* last = best_.last();
    const bool by_time = last != nullptr && !last->tight && bounded(labels_[parent]).spoils >= last->spoils;
    const std::int64_t most_ms = by_time ? last->time_ms - labels_[parent].rank.time_ms : kNever_ms;
    for (const StepCost& cost : table_.costs(formed, nodes_[labels_[parent].node].machine_state, candidate, most_ms)) {
        if (!follow(parent, candidate, cost)) return false;
    }
    return true;
}

bool LabelSearch::follow(std::uint32_t parent, const CandidateStroke& candidate, const StepCost& cost) {
    const BendMask formed = nodes_[labels_[parent].node].formed;
    const std::uint32_t node = nodeAt(formed | candidate.bends, cost.after);
    if (!nodes_[node].rest.finishes) return true;
    const Label label{
        labels_[parent].rank.with(cost), &candidate, parent, node, likeAfter(labels_[parent].like, candidate), false,
        labels_[parent].depth + 1,       cost};
    const Rank rank = bounded(label);
    if (reach_.known(formed | candidate.bends) == false) {
        least_dead_end_ms_ = std::min(least_dead_end_ms_, rank.time_ms);
        return true;
    }
    if (tooLate(rank, label)) return true;
    if ((formed | candidate.bends) != table_.all()) return push(label);
    offer(label);
    return true;
}

/// False when the budget ran out. What it counts is the labels kept, since they take the memory.
bool LabelSearch::push(const Label& label) {
    const auto index = static_cast<std::uint32_t>(labels_.size());
    labels_.push_back(label);
    dominators_.emplace_back();
    if (!keep(index)) {
        labels_.pop_back();
        dominators_.pop_back();
        return true;
    }
    open_.push({bounded(label), index});
    return table_.budget().keep(kBytesPerLabel) && table_.budget().take();
}

/// The step takes at least what its dearest bend takes, and so on: the bound told for the states before and after.
void LabelSearch::noteUndecided(std::uint32_t parent, const CandidateStroke& candidate) {
    const BendMask unformed = table_.all() & ~nodes_[labels_[parent].node].formed;
    const std::int64_t rest_ms =
        bounds_.quickTime_ms(unformed & ~candidate.bends) + bounds_.stepTime_ms(candidate.bends);
    least_undecided_ms_ = std::min(least_undecided_ms_, labels_[parent].rank.time_ms + rest_ms);
}

void LabelSearch::offer(const Label& last) {
    std::vector<OrderStep> steps(last.depth);
    const Label* label = &last;
    for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
        const Label& parent = labels_[label->parent];
        *step = {*label->candidate, nodes_[parent.node].machine_state, nodes_[parent.node].formed, label->cost};
        label = &parent;
    }
    best_.offer(last.rank, std::move(steps));
}

std::uint32_t LabelSearch::nodeAt(BendMask formed, MachineState machine_state) {
    const auto [place, added] =
        node_at_.try_emplace({formed, machine_state}, static_cast<std::uint32_t>(nodes_.size()));
    if (added) nodes_.push_back({formed, machine_state, bounds_.of(formed, machine_state), {}});
    return place->second;
}

/// Enters the newest label of a state, or says that K others dominate it. Those already dropped need not be looked
/// at: whatever K labels dominated them dominate what they would.
bool LabelSearch::keep(std::uint32_t newest) {
    std::vector<std::uint32_t>& kept = nodes_[labels_[newest].node].labels;
    Label& label = labels_[newest];
    for (const std::uint32_t other : kept) {
        if (dominates(other, newest)) addDominator(newest, labels_[other].like);
    }
    if (label.dropped) return false;
    for (const std::uint32_t other : kept) {
        if (dominates(newest, other)) addDominator(other, label.like);
    }
    std::erase_if(kept, [&](std::uint32_t other) { return labels_[other].dropped; });
    kept.push_back(newest);
    return true;
}

void LabelSearch::addDominator(std::uint32_t label, std::uint32_t like) {
    std::vector<std::uint32_t>& likes = dominators_[label].likes;
    const auto place = std::lower_bound(likes.begin(), likes.end(), like);
    if (place == likes.end() || *place != like) likes.insert(place, like);
    labels_[label].dropped = labels_[label].dropped || like == labels_[label].like || likes.size() >= best_.wanted();
}

std::uint32_t LabelSearch::likeAfter(std::uint32_t like, const CandidateStroke& candidate) {
    const auto next = static_cast<std::uint32_t>(likes_.size() + 1);
    return likes_.try_emplace({like, BestOrders::likenessOf(candidate, table_.oracle())}, next).first->second;
}

/// Labels are opened by what they spoil and comfortable ones first: when a better one is still open, an order that
/// ranks before the best may come of it whatever it takes.
std::int64_t LabelSearch::least_ms() const {
    const Rank* best = best_.first();
    std::int64_t least = best == nullptr ? kNever_ms : best->time_ms;
    const auto take = [&](const Rank& left) {
        if (best == nullptr || std::tie(left.spoils, left.tight) <= std::tie(best->spoils, best->tight))
            least = std::min(least, left.time_ms);
    };
    if (opening_) take(*opening_);
    if (!open_.empty()) take(open_.top().rank);
    return least;
}

bool LabelSearch::dominates(std::uint32_t one, std::uint32_t other) const {
    const Label& a = labels_[one];
    const Label& b = labels_[other];
    if (a.rank.spoils != b.rank.spoils) return a.rank.spoils < b.rank.spoils;
    if (a.rank.tight && !b.rank.tight) return false;
    if (a.rank.time_ms != b.rank.time_ms) return a.rank.time_ms < b.rank.time_ms;
    if (a.rank.larger_behind != b.rank.larger_behind) return a.rank.larger_behind < b.rank.larger_behind;
    if (a.rank.pieces != b.rank.pieces) return a.rank.pieces < b.rank.pieces;
    return a.rank.clearance_um >= b.rank.clearance_um && before(one, other);
}

/// By sequence; of labels with the same one, which differ in what was set up, the older first.
bool LabelSearch::before(std::uint32_t a, std::uint32_t b) const {
    const std::strong_ordering order = compareSequences(labels_[a], labels_[b]);
    return std::is_eq(order) ? a < b : std::is_lt(order);
}

/// Labels form a tree: steps above the last label that both have in common are the same, and of those below it the
/// first that differs decides.
std::strong_ordering LabelSearch::compareSequences(const Label& a, const Label& b) const {
    const Label* x = &a;
    const Label* y = &b;
    std::strong_ordering longer = std::strong_ordering::equal;  // a beginning comes before what it begins
    for (; x->depth > y->depth; x = &labels_[x->parent]) longer = std::strong_ordering::greater;
    for (; y->depth > x->depth; y = &labels_[y->parent]) longer = std::strong_ordering::less;
    std::strong_ordering order = longer;
    for (; x != y; x = &labels_[x->parent], y = &labels_[y->parent]) {
        const std::strong_ordering step = Stroke{*x->candidate} <=> Stroke{*y->candidate};
        if (std::is_neq(step)) order = step;
    }
    return order;
}

Rank LabelSearch::bounded(const Label& label) const {
    Rank rank = label.rank;
    rank.spoils += nodes_[label.node].rest.spoils;
    rank.time_ms += nodes_[label.node].rest.time_ms;
    rank.pieces += nodes_[label.node].rest.pieces;
    return rank;
}

std::vector<const CandidateStroke*> LabelSearch::candidatesOf(const Label& last) const {
    std::vector<const CandidateStroke*> candidates(last.depth);
    const Label* label = &last;
    for (auto place = candidates.rbegin(); place != candidates.rend(); ++place, label = &labels_[label->parent])
        *place = label->candidate;
    return candidates;
}

bool LabelSearch::Later::operator()(const Open& a, const Open& b) const {
    if (a.rank != b.rank) return a.rank > b.rank;
    return search->before(b.label, a.label);
}

}  // namespace tinwright::search
