// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/plan/plan_time.h>

#include <algorithm>
#include <numeric>
#include <string>
#include <variant>

#include <tinwright/base/contract.h>
#include <tinwright/brake/plan/setup_piece.h>

namespace tinwright {

namespace {

std::vector<SetupPiece> standingFor(const FoldStep& step) {
    std::vector<SetupPiece> pieces;
    for (const PlacedTool& tool : step.tools) {
        pieces.push_back(
            {tool.tool, {micronNearest(tool.from_mm + step.part_x_mm), micronNearest(tool.to_mm + step.part_x_mm)}});
    }
    return pieces;
}

/// With which the brake is found.
std::string firstFaceOf(const LeafBrake& leaf) { return leaf.leaf_faces.empty() ? "" : leaf.leaf_faces.front().name; }
std::string firstFaceOf(const PressBrake&) { return {}; }

std::string firstFace(const Brake& brake) {
    return std::visit([](const auto& kind) { return firstFaceOf(kind); }, brake.kind);
}

FoldActions actionsAfter(const BrakeInSetup& brake, const FoldStep* before, const FoldStep& step) {
    FoldActions actions;
    actions.pieces =
        piecesHandled(before != nullptr ? standingFor(*before) : std::vector<SetupPiece>(), standingFor(step));
    actions.leaf_face = step.leaf_face != (before != nullptr ? before->leaf_face : firstFace(*brake));
    actions.packed = step.packing.has_value();
    actions.care = step.care;
    actions.turned = step.turn_deg != 0;
    actions.flipped = step.flip;
    actions.special_way = !step.plain_ways;
    actions.gauge = gaugeWork(step.gauge_stop, step.gauge_trouble);
    actions.closes_hem = step.closing.has_value();
    actions.turned_for_hem = step.closing && step.closing->turned;
    return actions;
}

}  // namespace

TimeShares timeShares_ms(const Times& times, const FoldActions& actions) {
    TimeShares shares{};
    const auto share = [&](TimeShare what) -> long long& { return shares[static_cast<std::size_t>(what)]; };
    share(TimeShare::kFold) = times.fold_ms;
    share(TimeShare::kGauge) =
        times.gauge_ms + (actions.gauge.by_sight
                              ? times.gauge_sight_ms
                              : std::min(actions.gauge.bends_between * times.gauge_formed_ms, times.gauge_sight_ms));
    share(TimeShare::kPieces) = static_cast<long long>(actions.pieces) * times.piece_ms;
    share(TimeShare::kLeafFace) = actions.leaf_face ? times.leaf_face_ms : 0;
    share(TimeShare::kPacking) = actions.packed ? times.packing_ms : 0;
    share(TimeShare::kCare) = (actions.care.bars_packed ? times.bar_packing_ms : 0) +
                              (actions.care.bars_clamped ? times.bar_clamps_ms : 0) +
                              (actions.care.in_tongs ? times.tongs_ms : 0);
    share(TimeShare::kTurn) = actions.turned ? times.turn_ms : 0;
    share(TimeShare::kFlip) = actions.flipped ? times.flip_ms : 0;
    share(TimeShare::kWay) = actions.special_way ? times.way_out_ms : 0;
    share(TimeShare::kHem) = (actions.closes_hem ? times.hem_ms : 0) + (actions.turned_for_hem ? times.turn_ms : 0);
    share(TimeShare::kCarry) = actions.carried ? times.carry_ms : 0;
    return shares;
}

long long foldTime_ms(const Times& times, const FoldActions& actions) {
    const TimeShares shares = timeShares_ms(times, actions);
    return std::accumulate(shares.begin(), shares.end(), 0LL);
}

GaugeWork gaugeWork(const std::optional<GaugeStop>& stop, const std::optional<GaugeTrouble>& trouble) {
    if (stop) return {stop->bends_between, false};
    return {0, trouble && *trouble != GaugeTrouble::kNoGauge};
}

std::vector<FoldActions> foldActions(const std::vector<BrakeInSetup>& brakes, const std::vector<FoldStep>& folds) {
    TINWRIGHT_REQUIRE(brakes.size() >= folds.size(), "every fold has its brake");
    std::vector<FoldActions> all;
    for (std::size_t i = 0; i < folds.size(); ++i) {
        const FoldStep* before = nullptr;
        for (std::size_t k = i; k-- > 0 && before == nullptr;) {
            if (brakes[k].isSameAs(brakes[i])) before = &folds[k];
        }
        all.push_back(actionsAfter(brakes[i], before, folds[i]));
        all.back().carried = i > 0 && !brakes[i].isSameAs(brakes[i - 1]);
    }
    return all;
}

std::vector<FoldActions> foldActions(const BrakeInSetup& brake, const std::vector<FoldStep>& folds) {
    return foldActions(std::vector<BrakeInSetup>(folds.size(), brake), folds);
}

long long planTime_ms(const Times& times, const std::vector<FoldActions>& folds) {
    return std::accumulate(folds.begin(), folds.end(), 0LL,
                           [&](long long sum, const FoldActions& fold) { return sum + foldTime_ms(times, fold); });
}

}  // namespace tinwright
