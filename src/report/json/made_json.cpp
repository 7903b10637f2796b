// SPDX-License-Identifier: GPL-3.0-or-later
#include "json/made_json.h"

#include <tinwright/part/model/bend_frame.h>

#include "sentences/made_text.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

Json measuredJson(const Part& now, const MadeReport& made, const MadeBend& bend, BendMask formed) {
    Json json = {{"bend", now.bend(bend.bend).name},
                 {"outside_mm", bend.outside_mm ? lengthJson(*bend.outside_mm) : Json(nullptr)},
                 {"angle_deg", bend.angle ? rounded(bend.angle->deg(), 1000.0) : Json(nullptr)},
                 {"line_moved_mm", lengthJson(lineMoved_mm(made, now, bend.bend))},
                 {"end_out_mm", nullptr}};
    if (bend.angle) {
        if (const auto out_mm = leansOut_mm(made.drawn, now, bend.bend, formed, made.inside_radius_mm))
            json["end_out_mm"] = lengthJson(*out_mm);
    }
    return json;
}

Json sizeJson(const Part& now, const SizeChange& change) {
    const FinishedSize& size = change.now;
    return {{"panel", now.panel(size.panel).name},
            {"from", now.panel(panelAt(now.bend(size.bend), opposite(size.side))).name},
            {"to", size.end.bend ? Json(now.panel(size.end.beyond).name) : Json(nullptr)},
            {"edge", textOrNull(size.end.edge)},
            {"drawn_mm", lengthJson(change.drawn.outside_mm)},
            {"outside_mm", lengthJson(size.outside_mm)},
            {"drawn_inside_mm", lengthJson(change.drawn.inside_mm)},
            {"inside_mm", lengthJson(size.inside_mm)}};
}

Json sizesJson(const Part& now, const std::vector<SizeChange>& changes) {
    Json list = Json::array();
    for (const SizeChange& change : changes) list.push_back(sizeJson(now, change));
    return list;
}

Json linesJson(const Part& now, const MadeReport& made) {
    Json list = Json::array();
    for (const TriedLine& line : made.lines) {
        if (!goes(line.verdict)) continue;
        Json order = Json::array();
        for (const std::vector<BendId>& stroke : line.order) order.push_back(bendNames(now, maskOf(stroke)));
        list.push_back({{"bend", now.bend(line.move.bend).name},
                        {"moved_mm", lengthJson(line.move.toward_child_mm)},
                        {"puts_right", line.move.puts_right},
                        {"sizes", sizesJson(now, line.move.left)},
                        {"brake", line.brake},
                        {"order", order}});
    }
    return list;
}

}  // namespace

Json madeJson(const Part& now, const MadeReport& made, BendMask formed) {
    Json measured = Json::array();
    for (const MadeBend& bend : made.made) measured.push_back(measuredJson(now, made, bend, formed));
    return {{"measured", measured},
            {"inside_radius_mm", made.inside_radius_mm >= 0 ? lengthJson(made.inside_radius_mm) : Json(nullptr)},
            {"sizes", sizesJson(now, made.changes)},
            {"lines", linesJson(now, made)},
            {"words", madeLines(now, made, formed)},
            {"cures", madeCures(now, made)}};
}

}  // namespace tinwright::report
