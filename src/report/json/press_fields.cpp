// SPDX-License-Identifier: GPL-3.0-or-later
#include "json/kind_fields.h"
#include "kinds/gauge_text.h"

namespace tinwright::report {
namespace {

const char* touchName(GaugeStop::Touch touch) {
    switch (touch) {
        case GaugeStop::Touch::kEdge: return "edge";
        case GaugeStop::Touch::kFace: return "face";
        case GaugeStop::Touch::kBend: break;
    }
    return "bend";
}

Json gaugeStop(const Part& part, const GaugeStop& stop) {
    Json fingers = Json::array();
    for (const PlacedFinger& finger : stop.fingers)
        fingers.push_back({{"from_mm", lengthJson(finger.from_mm)}, {"to_mm", lengthJson(finger.to_mm)}});
    return {{"distance_mm", lengthJson(stop.distance_mm)},
            {"touch", touchName(stop.touch)},
            {"panel", part.panel(stop.panel).name},
            {"edge", textOrNull(stop.edge)},
            {"flat", stop.isFlat()},
            {"bends_between", stop.bends_between},
            {"fingers_z_mm", lengthJson(stop.fingers_z_mm)},
            {"fingers", fingers},
            {"tolerance_mm", lengthJson(stop.tolerance_mm)}};
}

class PressFields final : public KindFields {
public:
    [[nodiscard]] Json row(ToolRow row) const override { return row == ToolRow::kLower ? "die" : "punch"; }

    [[nodiscard]] Json depth_mm(const FoldStep& step) const override { return lengthJson(step.depth_mm); }

    [[nodiscard]] Json included_deg(double turned_deg) const override { return rounded(180 - turned_deg, 1000.0); }

    [[nodiscard]] Json gauge(const Part& part, const BrakeInSetup& brake, const FoldStep& step) const override {
        return {{"stop", step.gauge_stop ? gaugeStop(part, *step.gauge_stop) : Json(nullptr)},
                {"trouble", textOrNull(gaugeTroubleWords(brake, step))}};
    }
};

}  // namespace

const KindFields& fieldsOfKind(const PressBrake& /*kind*/) {
    static const PressFields kFields;
    return kFields;
}

}  // namespace tinwright::report
