// SPDX-License-Identifier: GPL-3.0-or-later
// The punches of a press brake.
#include <fmt/format.h>

#include <tinwright/io/json/json_reading.h>

#include "shop/shop_tools.h"

namespace tinwright {

namespace {

void takeHorn(const JsonCursor& object, ToolDraft& draft) {
    takeField(object, "horn", draft.given, draft.horn, [](const JsonCursor& at) -> std::optional<std::optional<Horn>> {
        const std::size_t before = at.context().issues.size();
        if (!at.object({"reach", "height", "end"})) return std::nullopt;
        Horn horn{needLength_mm(at, "reach", kSize_mm), needLength_mm(at, "height", kSize_mm), true};
        if (const std::optional<JsonCursor> end = at.need("end", "\"left\" or \"right\""))
            horn.at_left = end->choice({"left", "right"}) == 0;
        return at.context().issues.size() == before ? std::optional(std::optional(horn)) : std::nullopt;
    });
}

std::optional<double> optionalLength_mm(const JsonCursor& object, std::string_view field) {
    const std::optional<JsonCursor> at = object.get(field);
    return at ? at->length_mm(kSize_mm) : std::nullopt;
}

void takeThroat(const JsonCursor& object, ToolDraft& draft) {
    takeField(object, "throat", draft.given, draft.throat,
              [](const JsonCursor& at) -> std::optional<std::optional<PunchThroat>> {
                  const std::size_t before = at.context().issues.size();
                  if (!at.object({"depth", "from", "to", "deepest_from", "deepest_to", "neck"})) return std::nullopt;
                  PunchThroat throat{needLength_mm(at, "depth", kPlace_mm), needLength_mm(at, "from", kSize_mm),
                                     needLength_mm(at, "to", kSize_mm),     optionalLength_mm(at, "deepest_from"),
                                     optionalLength_mm(at, "deepest_to"),   needLength_mm(at, "neck", kSize_mm)};
                  return at.context().issues.size() == before ? std::optional(std::optional(throat)) : std::nullopt;
              });
}

// A section is told in one way: point by point, or by its tip angle, body and throat.
void takePunchSection(const JsonCursor& object, ToolDraft& draft) {
    const bool has_numbers = object.has("tip_angle_deg") || object.has("body_width") || object.has("throat");
    if (object.has("profile") && has_numbers) {
        object.get("profile")->wrong("section",
                                     "either a profile or a tip angle and body width (with a throat), not both");
    } else if (object.has("profile")) {
        for (const char* field : {"tip_angle_deg", "body_width", "throat"}) draft.given.drop(field);
    } else if (has_numbers) {
        draft.given.drop("profile");
    }
    takeField(object, "profile", draft.given, draft.tool.profile, readPolygon);
    takeField(object, "tip_angle_deg", draft.given, draft.tip_angle_deg, [](const JsonCursor& at) {
        return at.number({5, 170}, "degrees");
    });
    takeLength(object, "body_width", draft.given, kSize_mm, draft.body_width_mm);
    takeThroat(object, draft);
}

void takePunch(const JsonCursor& object, ToolDraft& draft) {
    takeCommon(object, draft);
    takeLength(object, "tip_radius", draft.given, kSizeOrNone_mm, draft.tip_radius_mm);
    takePunchSection(object, draft);
    takeHorn(object, draft);
    takeNumber(object, "max_kn_per_m", draft.given, kForce, "kN/m", draft.max_kn_per_m);
    draft.given.readUncertain(object);
}

void finishPunchProfile(const ToolDraft& draft, Punch& punch) {
    const std::string why = whyNoPunch(punch.profile, punch.tip_radius_mm);
    if (!why.empty()) return draft.given.wrong("profile", "punch.profile", why);
    punch.height_mm = height_mm(punch.profile);
    checkAgrees(draft, "height", draft.tool.height_mm, punch.height_mm, "the profile's height");
}

void finishPunchNumbers(const ToolDraft& draft, Punch& punch) {
    if (!needToolFields(punchKind(), draft,
                        {{"tip_angle_deg", "the angle of the tip in degrees, or a \"profile\""},
                         {"body_width", "how thick the punch is from front to back, over its tip"},
                         {"height", "the height from tip to seat"}})) {
        return;
    }
    PunchSection section{
        Angle::degrees(draft.tip_angle_deg), punch.tip_radius_mm, punch.height_mm, draft.body_width_mm, {}};
    std::string why = whyNoPunchSection(section);
    if (!why.empty()) return draft.given.wrong("height", "punch.section", why);
    if (draft.given.has("throat")) section.throat = draft.throat;
    why = whyNoPunchSection(section);
    if (!why.empty()) return draft.given.wrong("throat", "punch.section", why);
    punch.profile = punchSection(section);
}

void checkHorn(const ToolDraft& draft, const Punch& punch) {
    if (!punch.horn) return;
    if (draft.given.good("width") && punch.horn->reach_mm >= punch.width_mm)
        draft.given.wrong("horn", "punch.horn", fmt::format("a reach of less than the width, {:g} mm", punch.width_mm));
    if (punch.height_mm > 0 && punch.horn->height_mm >= punch.height_mm)
        draft.given.wrong("horn", "punch.horn",
                          fmt::format("a height of less than the punch's, {:g} mm", punch.height_mm));
}

}  // namespace

const ToolKind& punchKind() {
    static const ToolKind kind{
        "punches",
        "each_punch",
        "punch",
        {"height", "tip_radius", "tip_angle_deg", "body_width", "throat", "profile", "horn", "max_kn_per_m", "count",
         "uncertain", "note"},
        {"id", "width"},
        takePunch,
        [](const JsonCursor& item, const ToolDraft& each) { return readOneTool(punchKind(), item, each); }};
    return kind;
}

Punch finishPunch(const ToolDraft& draft, const BrakeDraft& of) {
    Punch punch{draft.tool, draft.tip_radius_mm, draft.horn, draft.max_kn_per_m};
    checkIdAndWidth(punchKind(), draft, of);
    if (!needToolFields(punchKind(), draft, {{"tip_radius", "the radius of the tip, 0 when it is sharp"}}))
        return punch;
    if (hasBadField(draft, {"profile", "tip_radius", "tip_angle_deg", "body_width", "throat", "height"})) return punch;
    draft.given.has("profile") ? finishPunchProfile(draft, punch) : finishPunchNumbers(draft, punch);
    checkHorn(draft, punch);
    return punch;
}

}  // namespace tinwright
