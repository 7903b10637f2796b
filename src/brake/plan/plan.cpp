// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/plan/plan.h>

namespace tinwright {

const char* toText(Verdict verdict) {
    switch (verdict) {
        case Verdict::kFeasible: return "feasible";
        case Verdict::kWithTrouble: return "feasible with trouble";
        case Verdict::kInfeasible: return "infeasible";
        case Verdict::kUndecided: break;
    }
    return "undecided";
}

int rankOf(Verdict verdict) {
    switch (verdict) {
        case Verdict::kFeasible: return 3;
        case Verdict::kWithTrouble: return 2;
        case Verdict::kUndecided: return 1;
        case Verdict::kInfeasible: break;
    }
    return 0;
}

const char* toText(BodyRef::Kind kind) {
    switch (kind) {
        case BodyRef::Kind::kNone: break;
        case BodyRef::Kind::kPanel: return "panel";
        case BodyRef::Kind::kStrip: return "bend";
        case BodyRef::Kind::kBar: return "bar";
        case BodyRef::Kind::kPunch: return "punch";
        case BodyRef::Kind::kDie: return "die";
        case BodyRef::Kind::kJaw: return "jaw";
        case BodyRef::Kind::kBed: return "bed";
        case BodyRef::Kind::kLeaf: return "leaf";
        case BodyRef::Kind::kBeam: return "beam";
        case BodyRef::Kind::kRam: return "ram";
        case BodyRef::Kind::kFrame: return "side frame";
    }
    return "";
}

const char* toText(Holding::Open open) {
    switch (open) {
        case Holding::Open::kNothing: break;
        case Holding::Open::kStroke: return "stroke";
        case Holding::Open::kWayIn: return "way-in";
        case Holding::Open::kWayOut: return "way-out";
        case Holding::Open::kLine: return "line";
    }
    return "";
}

const char* toText(ReasonCode code) {
    switch (code) {
        case ReasonCode::kHit: return "hit";
        case ReasonCode::kLeafLiftsHeld: return "leaf-lifts-held";
        case ReasonCode::kPanelHit: return "panel-hit";
        case ReasonCode::kNoBars: return "no-bars";
        case ReasonCode::kTooLittleClamped: return "no-land";
        case ReasonCode::kTrapped: return "trapped";
        case ReasonCode::kLeafShort: return "leaf-short";
        case ReasonCode::kLeafJams: return "leaf-jams";
        case ReasonCode::kLeafAngle: return "leaf-angle";
        case ReasonCode::kVeeAngle: return "vee-angle";
        case ReasonCode::kNoTools: return "no-tools";
        case ReasonCode::kNowhere: return "overhang";
        case ReasonCode::kNoHem: return "no-hem";
        case ReasonCode::kNotClosed: return "not-closed";
        case ReasonCode::kNotOneStroke: return "not-one-stroke";
        case ReasonCode::kNotHeld: return "not-held";
        case ReasonCode::kUndecided: break;
    }
    return "undecided";
}

}  // namespace tinwright
