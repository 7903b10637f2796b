// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/gltf/glb.h>

#include <memory>

#include <fmt/format.h>

#include <tinwright/base/contract.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>

#include "data/fold_place.h"
#include "gltf/glb_machine.h"
#include "gltf/glb_part.h"
#include "gltf/glb_writer.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {
namespace {

using namespace report;

class PlanScene {
public:
    PlanScene(const PlanReport& report, const BrakeReport& brake_report)
        : report_(report),
          brake_(brake_report.result.brake),
          folded_(partOnBrake(report.part, report.shop, brake_)),
          part_(folded_.part()),
          plan_(*brake_report.shownPlan()),
          shapes_(folded_),
          tools_(brake_),
          machine_(glbMachine(plan_, tools_)),
          part_nodes_(shapes_, brake_.inside_radius_mm()),
          writer_(printable(report.part.name)) {}

    std::string run() {
        const std::size_t sheet = writer_.addMaterial("sheet", {0.55, 0.60, 0.65});
        const std::size_t machine = writer_.addMaterial("machine", {0.25, 0.25, 0.25});
        const std::size_t bars = writer_.addMaterial("bars", {0.80, 0.40, 0.0});
        const std::vector<FoldScene> scenes = foldScenes();
        machine_->addMachine(writer_, machine, scenes.front());
        for (std::size_t f = 0; f < scenes.size(); ++f) machine_->addPieces(writer_, bars, scenes[f], f);
        part_nodes_.addNodes(
            writer_, sheet,
            part_nodes_.posesOf(scenes.front(), plan_.folds.front().part_x_mm, scenes.front().at(Angle()), 0, 0));
        for (std::size_t f = 0; f < scenes.size(); ++f) {
            writer_.addAnimation(
                fmt::format("fold {}: {}", f + 1, printable(strokeName(part_, plan_.folds[f].bends()))),
                machine_->tracks(part_nodes_, scenes[f], f));
        }
        return writer_.file();
    }

private:
    [[nodiscard]] std::vector<FoldScene> foldScenes() const {
        std::vector<FoldScene> scenes;
        for (const FoldPlace& place : foldPlaces(plan_.folds, report_.formed)) {
            const FoldStep& step = plan_.folds[place.number - 1];
            scenes.emplace_back(shapes_, step.on(brake_, part_.thickness_mm),
                                FoldCase{place.formed_before, step.stroke, step.set_angle});
        }
        return scenes;
    }

    const PlanReport& report_;
    const BrakeInSetup& brake_;
    const PartOnBrake folded_;
    const Part& part_;
    const Plan& plan_;
    PartShapes shapes_;
    ToolShapes tools_;
    std::unique_ptr<GlbMachine> machine_;
    GlbPart part_nodes_;
    GlbWriter writer_;
};

}  // namespace

std::string planGlb(const PlanReport& report, const BrakeReport& brake) {
    TINWRIGHT_REQUIRE(brake.shownPlan() != nullptr && !brake.shownPlan()->folds.empty(), "there is a plan to show");
    return PlanScene(report, brake).run();
}

}  // namespace tinwright
