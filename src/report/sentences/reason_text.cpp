// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/reason_text.h"

#include <algorithm>
#include <cmath>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "kinds/brake_words.h"

namespace tinwright::report {
namespace {

/// Lengths are told to the tenth, angles of contacts to the degree.
bool sameTenths(double a, double b) { return std::nearbyint(a * 10) == std::nearbyint(b * 10); }
bool sameDegrees(double a, double b) { return std::nearbyint(a) == std::nearbyint(b); }

bool sameUncovered(const std::optional<Uncovered>& a, const std::optional<Uncovered>& b) {
    if (!a || !b) return a.has_value() == b.has_value();
    if (a->free_mm.has_value() != b->free_mm.has_value()) return false;
    return sameTenths(a->bend_mm, b->bend_mm) && (!a->free_mm || sameTenths(*a->free_mm, *b->free_mm)) &&
           a->lacks == b->lacks && a->like == b->like;
}

bool sameClosing(const std::optional<ClosingTrouble>& a, const std::optional<ClosingTrouble>& b) {
    if (!a || !b) return a.has_value() == b.has_value();
    return a->why == b->why && a->between == b->between && sameTenths(a->has_mm, b->has_mm) &&
           sameTenths(a->needs_mm, b->needs_mm) && a->die == b->die;
}

/// What lies at the back is no part of what is told there.
bool samePanel(const Reason& a, const Reason& b) {
    return a.code == ReasonCode::kTooLittleClamped || a.panel == b.panel;
}

/// Tools are told where several were tried.
bool sameTools(const Reason& a, const Reason& b) { return (a.also.empty() && b.also.empty()) || a.tool == b.tool; }

bool sameState(const Reason& a, const Reason& b) { return a.flat == b.flat && (!a.flat || a.formed == b.formed); }

}  // namespace

bool ownStripMeets(const Reason& reason) {
    return reason.panel.kind == BodyRef::Kind::kStrip && contains(reason.stroke.bends, reason.panel.bend());
}

bool overbendAlone(const Reason& reason) { return reason.at_deg > reason.angle.deg(); }

double toldDepth_mm(const Reason& reason) {
    constexpr double kLeastTold_mm = 0.1;
    return std::max(kLeastTold_mm, reason.depth_mm);
}

bool meetsFilletInDepth(const FoldContext& on, const Reason& reason) {
    constexpr double kFromTheStart_deg = 0.5;
    return reason.code == ReasonCode::kHit && reason.panel.kind == BodyRef::Kind::kStrip &&
           reason.body.kind == BodyRef::Kind::kBar && reason.tool && on.brake->bar(*reason.tool) != nullptr &&
           reason.at_deg < kFromTheStart_deg && contains(reason.formed, reason.panel.bend());
}

bool toldAlike(const Reason& a, const Reason& b) {
    return a.code == b.code && a.stroke.bends == b.stroke.bends && sameState(a, b) && samePanel(a, b) &&
           a.body == b.body && sameDegrees(a.at_deg, b.at_deg) && overbendAlone(a) == overbendAlone(b) &&
           sameTenths(toldDepth_mm(a), toldDepth_mm(b)) && sameUncovered(a.uncovered, b.uncovered) &&
           sameClosing(a.closing, b.closing) && a.apart == b.apart && sameTools(a, b) &&
           std::equal(a.also.begin(), a.also.end(), b.also.begin(), b.also.end(), toldAlike);
}

std::vector<ReasonSentence> sentencesOf(const FoldContext& on, const std::vector<const Reason*>& reasons) {
    const std::string either_side = wordsFor(*on.brake).terms.either_side;
    std::vector<ReasonSentence> sentences;
    for (const Reason* one_more : reasons) {
        const Reason& reason = *one_more;
        const auto other_side = std::find_if(sentences.begin(), sentences.end(), [&](const ReasonSentence& one) {
            return !either_side.empty() && one.reason->stroke.hold != reason.stroke.hold &&
                   toldAlike(*one.reason, reason);
        });
        if (other_side != sentences.end()) {
            other_side->words = reasonWordsOfSide(on, reason, either_side);
        } else {
            sentences.push_back({&reason, reasonWords(on, reason)});
        }
    }
    return sentences;
}

std::vector<ReasonSentence> sentencesOf(const FoldContext& on, const std::vector<Reason>& reasons) {
    std::vector<const Reason*> all;
    for (const Reason& reason : reasons) all.push_back(&reason);
    return sentencesOf(on, all);
}

}  // namespace tinwright::report
