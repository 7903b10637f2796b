// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/model/bend_frame.h>
#include <tinwright/report/json/constraints_json.h>

#include <bit>

#include "data/json_values.h"
#include "words/words.h"

namespace tinwright {

namespace {

using report::bendNames;
using report::Json;

Json strokesJson(const Part& part, const ConstraintProblem& problem) {
    Json list = Json::array();
    for (const Stroke& stroke : problem.strokes) {
        const std::vector<std::string> bends = bendNames(part, stroke.bends);
        const Bend& first = part.bends[static_cast<std::size_t>(std::countr_zero(stroke.bends))];
        list.push_back({{"bends", bends}, {"held", part.panel(heldPanel(first, stroke.hold)).name}});
    }
    return list;
}

Json bansJson(const Part& part, const ConstraintProblem& problem) {
    Json list = Json::array();
    for (const ConstraintProblem::Ban& ban : problem.bans) {
        list.push_back(
            {{"strokes", ban.strokes}, {"formed", bendNames(part, ban.formed)}, {"flat", bendNames(part, ban.flat)}});
    }
    return list;
}

Json nodesJson(const Part& part, const ConstraintProblem& problem) {
    Json list = Json::array();
    for (const ConstraintProblem::Node& node : problem.nodes)
        list.push_back({{"formed", bendNames(part, node.formed)}, {"standing", node.machine_state}});
    return list;
}

Json stepsJson(const ConstraintProblem& problem) {
    Json list = Json::array();
    for (const ConstraintProblem::Arc& arc : problem.arcs) {
        list.push_back({{"from", arc.from},
                        {"to", arc.to},
                        {"stroke", arc.stroke},
                        {"time_ms", arc.cost.time_ms},
                        {"larger_behind", arc.cost.larger_behind},
                        {"pieces", arc.cost.pieces},
                        {"spoils", {{"surely", arc.cost.spoils.surely}, {"maybe", arc.cost.spoils.maybe}}},
                        {"tight", arc.cost.tight},
                        {"clearance_um", arc.cost.clearance_um}});
    }
    return list;
}

}  // namespace

std::string constraintsJson(const Part& part, const std::vector<BrakeConstraints>& brakes) {
    Json list = Json::array();
    for (const BrakeConstraints& one : brakes) {
        list.push_back({{"name", one.brake},
                        {"formed", bendNames(part, one.problem.formed)},
                        {"strokes", strokesJson(part, one.problem)},
                        {"bans", bansJson(part, one.problem)},
                        {"complete", one.problem.complete},
                        {"nodes", nodesJson(part, one.problem)},
                        {"steps", stepsJson(one.problem)},
                        {"costs_complete", one.problem.costs_complete}});
    }
    const Json document = {{"format", "tinwright-constraints/1"},
                           {"part", part.name},
                           {"bends", bendNames(part, allFormed(part))},
                           {"brakes", list}};
    return document.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tinwright
