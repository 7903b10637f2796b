// SPDX-License-Identifier: GPL-3.0-or-later
// The dies of a press brake. A block with several Vs makes one die of each: at work only one of them is used.
#include <fmt/format.h>

#include <algorithm>

#include <tinwright/brake/machines/hemming.h>
#include <tinwright/io/json/json_reading.h>

#include "shop/shop_tools.h"

namespace tinwright {

namespace {

constexpr std::size_t kMaxVeesInBlock = 20;

void takeSlot(const JsonCursor& object, ToolDraft& draft) {
    takeField(object, "slot", draft.given, draft.cut.slot,
              [](const JsonCursor& at) -> std::optional<std::optional<VeeSlot>> {
                  const std::size_t before = at.context().issues.size();
                  if (!at.object({"width", "depth"})) return std::nullopt;
                  VeeSlot slot{needLength_mm(at, "width", kSize_mm), needLength_mm(at, "depth", kSize_mm)};
                  return at.context().issues.size() == before ? std::optional(std::optional(slot)) : std::nullopt;
              });
}

// What is said of a V, in a die or in "vees".
void takeVee(const JsonCursor& object, ToolDraft& draft) {
    takeLength(object, "opening", draft.given, kSize_mm, draft.cut.vee.opening_mm);
    takeField(object, "angle_deg", draft.given, draft.cut.vee.angle, [](const JsonCursor& at) -> std::optional<Angle> {
        const std::optional<double> deg = at.number({5, 170}, "degrees");
        return deg ? std::optional(Angle::degrees(*deg)) : std::nullopt;
    });
    takeLength(object, "shoulder_radius", draft.given, kSizeOrNone_mm, draft.cut.vee.shoulder_radius_mm);
    takeLength(object, "offset", draft.given, kPlace_mm, draft.cut.offset_mm);
    takeSlot(object, draft);
    takeNumber(object, "max_kn_per_m", draft.given, kForce, "kN/m", draft.max_kn_per_m);
}

// The block's section is told in one way: point by point, or by its body's width and the slots of its Vs.
void takeBody(const JsonCursor& object, ToolDraft& draft) {
    if (object.has("profile") && (object.has("body_width") || object.has("slot"))) {
        object.get("profile")->wrong("section", "either a profile or a body width (with a slot), not both");
    } else if (object.has("profile")) {
        for (const char* field : {"body_width", "slot"}) draft.given.drop(field);
    } else if (object.has("body_width")) {
        draft.given.drop("profile");
    }
    takeField(object, "profile", draft.given, draft.tool.profile, readPolygon);
    takeLength(object, "body_width", draft.given, kSize_mm, draft.body_width_mm);
}

void takeJaw(const JsonCursor& object, ToolDraft& draft) {
    takeField(object, "jaw", draft.given, draft.jaw, [](const JsonCursor& at) -> std::optional<std::optional<Jaw>> {
        const std::size_t before = at.context().issues.size();
        if (!at.object({"depth", "floor", "opening", "hem_thickness"})) return std::nullopt;
        const Jaw jaw{needLength_mm(at, "depth", kSize_mm), needLength_mm(at, "floor", kSize_mm),
                      needLength_mm(at, "opening", kSize_mm), needLength_mm(at, "hem_thickness", kSize_mm)};
        return at.context().issues.size() == before ? std::optional(std::optional(jaw)) : std::nullopt;
    });
}

void takeDie(const JsonCursor& object, ToolDraft& draft) {
    takeCommon(object, draft);
    takeVee(object, draft);
    takeBody(object, draft);
    takeJaw(object, draft);
    draft.given.readUncertain(object);
}

bool hasBadVee(const ToolDraft& draft) {
    return hasBadField(draft, {"opening", "angle_deg", "shoulder_radius", "offset", "slot"});
}

bool needVee(const ToolDraft& draft) {
    return needToolFields(dieKind(), draft,
                          {{"opening", "the V's opening, between where its flanks would meet the top"},
                           {"angle_deg", "the V's angle in degrees"},
                           {"shoulder_radius", "the radius between top and flank, 0 when it is sharp"}});
}

ToolDraft readVeeOfBlock(const JsonCursor& item, const ToolDraft& block) {
    ToolDraft die = block;
    die.given.setWhole(item);
    if (!item.object(
            {"id", "opening", "angle_deg", "shoulder_radius", "offset", "slot", "max_kn_per_m", "uncertain", "note"}))
        return die;
    static_cast<void>(textOr(item, "note", ""));
    takeField(item, "id", die.given, die.tool.id, [](const JsonCursor& at) { return at.name(); });
    takeVee(item, die);
    die.given.readUncertain(item);
    return die;
}

// What all Vs of a block share is missed once, at the block.
void needBlock(const JsonCursor& item, ToolDraft& block) {
    const auto need = [&](const char* field, const char* expected) {
        if (block.given.has(field)) return;
        block.given.wrong(field, "missing", expected);
        block.given.give(field, item, false);
    };
    need("width", "the block's width along the machine");
    if (block.given.has("profile")) return;
    need("height", "the block's height");
    need("body_width", "how thick the block is from front to back, or a \"profile\"");
}

void tellOthers(std::vector<ToolDraft>& block) {
    const bool all_good = std::none_of(block.begin(), block.end(), [](const ToolDraft& die) {
        return hasBadVee(die) || !die.given.has("opening") || !die.given.has("angle_deg") ||
               !die.given.has("shoulder_radius");
    });
    for (ToolDraft& die : block) {
        die.block_good = all_good;
        for (const ToolDraft& other : block) {
            if (&other != &die) die.others_in_block.push_back(other.cut);
        }
    }
}

std::vector<ToolDraft> readBlock(const JsonCursor& item, const ToolDraft& each) {
    const std::optional<JsonCursor> vees = item.get("vees");
    if (!vees) return readOneTool(dieKind(), item, each);
    for (const char* field : {"id", "opening", "offset", "slot"}) {
        if (const std::optional<JsonCursor> at = item.get(field))
            at->wrong("vees", "nothing: every V of \"vees\" says it itself");
    }
    ToolDraft block = each;
    takeDie(item, block);
    needBlock(item, block);
    std::vector<ToolDraft> dies;
    for (const JsonCursor& vee : vees->items(1, kMaxVeesInBlock)) dies.push_back(readVeeOfBlock(vee, block));
    tellOthers(dies);
    return dies;
}

void finishDieProfile(const ToolDraft& draft, Die& die) {
    if (draft.given.has("slot"))
        return draft.given.wrong("slot", "section", "no slot in a V of a block whose \"profile\" is given and has it");
    std::string why = whyNoVee(die.vee);
    if (!why.empty()) return draft.given.wrong("opening", "die.vee", why);
    for (Vec2& point : die.profile) point.x() -= draft.cut.offset_mm;
    why = whyNoDie(die.profile, die.vee);
    if (!why.empty()) return draft.given.wrong("profile", "die.profile", why);
    die.height_mm = 0;
    for (const Vec2& point : die.profile) die.height_mm = std::max(die.height_mm, -point.y());
    checkAgrees(draft, "height", draft.tool.height_mm, die.height_mm, "the profile's height");
}

void finishDieNumbers(const ToolDraft& draft, Die& die) {
    if (!needToolFields(dieKind(), draft,
                        {{"body_width", "how thick the die is from front to back, or a \"profile\""},
                         {"height", "the die's height"}}))
        return;
    const DieSection section{{draft.cut}, die.height_mm, draft.body_width_mm};
    std::string why = whyNoDieSection(section);
    if (!why.empty()) return draft.given.wrong("opening", "die.section", why);
    DieSection block = section;
    for (const VeeCut& other : draft.others_in_block) {
        if (!whyNoDieSection({{other}, section.height_mm, section.body_width_mm}).empty())
            return;  // told where it stands
        block.cuts.push_back(other);
    }
    why = whyNoDieSection(block);
    if (!why.empty()) return draft.given.wrong("opening", "die.section", why);
    die.profile = dieSection(block, 0);
}

}  // namespace

const ToolKind& dieKind() {
    static const ToolKind kind{"dies",
                               "each_die",
                               "die",
                               {"height", "opening", "angle_deg", "shoulder_radius", "offset", "slot", "body_width",
                                "profile", "jaw", "max_kn_per_m", "count", "uncertain", "note"},
                               {"id", "width", "vees"},
                               takeDie,
                               readBlock};
    return kind;
}

Die finishDie(const ToolDraft& draft, const BrakeDraft& of) {
    Die die{draft.tool, draft.cut.vee, draft.jaw, draft.max_kn_per_m};
    checkIdAndWidth(dieKind(), draft, of);
    if (!needVee(draft) || !draft.block_good || hasBadVee(draft) ||
        hasBadField(draft, {"profile", "body_width", "height"}))
        return die;
    draft.given.has("profile") ? finishDieProfile(draft, die) : finishDieNumbers(draft, die);
    if (die.jaw && !die.profile.empty()) {
        if (const std::string why = whyNoJaw(die); !why.empty()) draft.given.wrong("jaw", "die.jaw", why);
    }
    return die;
}

}  // namespace tinwright
