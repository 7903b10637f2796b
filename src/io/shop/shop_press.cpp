// SPDX-License-Identifier: GPL-3.0-or-later
// What a press brake has and a leaf brake has not: how it is read, and whether it fits together.
#include "shop/shop_press.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include <tinwright/io/json/json_reading.h>

#include "shop/shop_tools.h"

namespace tinwright {

namespace {

constexpr double kMeasuredPress_mm = 0.02;
constexpr Range kBottomingFactor{1, 20};

void takeFrames(const JsonCursor& object, BrakeDraft& draft) {
    const std::optional<JsonCursor> frames = object.get("frames");
    if (!frames) return;
    const std::size_t before = frames->context().issues.size();
    if (frames->object({"throat", "left", "right"})) {
        draft.press.press.throat_mm = needLength_mm(*frames, "throat", kSize_mm);
        draft.press.frame_left_in_mm = needLength_mm(*frames, "left", kPlace_mm);
        draft.press.frame_right_in_mm = needLength_mm(*frames, "right", kPlace_mm);
    }
    draft.given.give("frames", *frames, frames->context().issues.size() == before);
}

void takeAdapter(const JsonCursor& object, BrakeDraft& draft) {
    const std::optional<JsonCursor> adapter = object.get("adapter");
    if (!adapter) return;
    const std::size_t before = adapter->context().issues.size();
    draft.press.adapter.clear();
    if (adapter->object({"height", "profile"})) {
        draft.press.adapter_height_mm = needLength_mm(*adapter, "height", kSize_mm);
        if (const std::optional<JsonCursor> profile = adapter->get("profile"))
            draft.press.adapter = readPolygon(*profile).value_or(Polygon{});
    }
    draft.given.give("adapter", *adapter, adapter->context().issues.size() == before);
}

void takeBending(const JsonCursor& object, BrakeDraft& draft) {
    PressBrake& press = draft.press.press;
    takeField(object, "bending", draft.given, press.mode, [](const JsonCursor& at) -> std::optional<PressMode> {
        const std::optional<std::size_t> mode = at.choice({"air", "bottoming"});
        if (!mode) return std::nullopt;
        return *mode == 0 ? PressMode::kAirBending : PressMode::kBottoming;
    });
    takeNumber(object, "bottoming_factor", draft.given, kBottomingFactor, "times the air bend", press.bottoming_factor);
}

void takeGauge(const JsonCursor& object, BrakeDraft& draft) {
    takeField(object, "back_gauge", draft.given, draft.press.press.gauge,
              [](const JsonCursor& at) -> std::optional<std::optional<BackGauge>> {
                  const std::size_t before = at.context().issues.size();
                  if (!at.object({"nearest", "furthest", "finger_width", "finger_height", "lowest", "highest"}))
                      return std::nullopt;
                  const BackGauge gauge{
                      needLength_mm(at, "nearest", kSizeOrNone_mm), needLength_mm(at, "furthest", kSize_mm),
                      needLength_mm(at, "finger_width", kSize_mm),  needLength_mm(at, "finger_height", kSize_mm),
                      needLength_mm(at, "lowest", kPlace_mm),       needLength_mm(at, "highest", kPlace_mm)};
                  if (at.context().issues.size() != before) return std::nullopt;
                  if (gauge.nearest_mm >= gauge.furthest_mm)
                      at.wrong("press.gauge", "a furthest stop behind the nearest one");
                  if (gauge.lowest_mm > gauge.highest_mm)
                      at.wrong("press.gauge-height", "a highest place of the fingers no lower than the lowest one");
                  return at.context().issues.size() == before ? std::optional(std::optional(gauge)) : std::nullopt;
              });
}

// The y range over which a section has its underside (`side` -1) or its top (1) at z = 0; empty when that is not at z =
// 0.
struct Seat {
    double front_mm = HUGE_VAL;
    double back_mm = -HUGE_VAL;
    double z_mm = 0;
    [[nodiscard]] bool isAtOrigin() const {
        return std::abs(z_mm) <= kMeasuredPress_mm && front_mm <= kMeasuredPress_mm && back_mm >= -kMeasuredPress_mm;
    }
};

Seat seatOf(const Polygon& section, double side) {
    Seat seat;
    seat.z_mm = section.front().y();
    for (const Vec2& point : section)
        seat.z_mm = side > 0 ? std::max(seat.z_mm, point.y()) : std::min(seat.z_mm, point.y());
    for (const Vec2& point : section) {
        if (std::abs(point.y() - seat.z_mm) > kMeasuredPress_mm) continue;
        seat.front_mm = std::min(seat.front_mm, point.x());
        seat.back_mm = std::max(seat.back_mm, point.x());
    }
    return seat;
}

// What the section at `field` should have been; empty when it is simple and its seat is over or under the tip.
std::string whyNoSeat(const Polygon& section, double side, const char* seat_words) {
    std::string why;
    if (!isValid(Region{section, {}}, &why)) return "a polygon that does not cross itself (" + why + ")";
    const Seat seat = seatOf(section, side);
    if (seat.isAtOrigin()) return {};
    return fmt::format(
        "a section whose {} is at z = 0, with y = 0 (where tip and V meet) on it; it is at z = {:g} mm from y = {:g} "
        "to {:g} mm",
        seat_words, seat.z_mm, seat.front_mm, seat.back_mm);
}

void checkPressBed(const BrakeDraft& draft) {
    if (!draft.given.good("bed")) return;
    const std::string why = whyNoSeat(draft.bed, 1, "top (the dies' seat)");
    if (!why.empty()) draft.given.wrong("bed", "bed", why);
}

// What hangs under the ram by `height_mm`, when nobody says its section: as wide as the ram's underside.
Polygon adapterBlock(const Polygon& ram, double height_mm) {
    const Seat seat = seatOf(ram, -1);
    return {Vec2(seat.front_mm, 0), Vec2(seat.back_mm, 0), Vec2(seat.back_mm, height_mm),
            Vec2(seat.front_mm, height_mm)};
}

std::string whyNoAdapter(const Polygon& adapter, double height_mm) {
    std::string why = whyNoSeat(adapter, -1, "underside (the punches' seat)");
    if (!why.empty()) return why;
    const double top_mm = seatOf(adapter, 1).z_mm;
    return std::abs(top_mm - height_mm) <= kMeasuredPress_mm
               ? ""
               : fmt::format("a profile as high as the adapter, {:g} mm, not {:g} mm", height_mm, top_mm);
}

// The ram with what hangs under it as one section, z = 0 at the punches' seat.
void hangAdapter(const BrakeDraft& draft, PressBrake& press) {
    const double height_mm = draft.press.adapter_height_mm;
    const bool is_block = draft.press.adapter.empty();
    if (is_block && seatOf(press.ram, -1).back_mm - seatOf(press.ram, -1).front_mm < kMeasuredPress_mm)
        return draft.given.wrong("adapter", "press.adapter",
                                 "a \"profile\", since the ram's underside is an edge and has no width");
    const Polygon adapter = is_block ? adapterBlock(press.ram, height_mm) : draft.press.adapter;
    const std::string why = whyNoAdapter(adapter, height_mm);
    if (!why.empty()) return draft.given.wrong("adapter", "press.adapter", why);
    for (Vec2& point : press.ram) point.y() += height_mm;
    const std::vector<Region> both = unite({Region{press.ram, {}}, Region{adapter, {}}});
    if (both.size() != 1 || !both.front().holes.empty())
        return draft.given.wrong("adapter", "press.adapter",
                                 "a profile whose top bears on the ram's underside, with no hole between");
    press.ram = both.front().outline;
    press.open_height_mm -= height_mm;
    if (press.open_height_mm <= 0)
        draft.given.wrong("adapter", "press.adapter", "an adapter that leaves some of the open height");
}

void finishRam(const BrakeDraft& draft, PressBrake& press) {
    if (!draft.given.good("ram")) return;
    const std::string why = whyNoSeat(press.ram, -1, "underside (the punches' seat)");
    if (!why.empty()) return draft.given.wrong("ram", "press.ram", why);
    if (draft.given.good("adapter") && draft.given.good("open_height")) hangAdapter(draft, press);
}

void finishFrames(const BrakeDraft& draft, PressBrake& press) {
    if (!draft.given.good("frames") || !draft.given.good("length")) return;
    press.frames_left_mm = draft.press.frame_left_in_mm;
    press.frames_right_mm = draft.brake.length_mm - draft.press.frame_right_in_mm;
    if (press.frames_right_mm <= press.frames_left_mm)
        draft.given.wrong("frames", "press.frames",
                          fmt::format("side frames that leave some of the bed's length, {:g} mm, between them",
                                      draft.brake.length_mm));
}

void checkStroke(const BrakeDraft& draft) {
    if (!draft.given.good("stroke") || !draft.given.good("open_height") ||
        draft.press.press.stroke_mm <= draft.press.press.open_height_mm)
        return;
    draft.given.wrong("stroke", "press.stroke",
                      fmt::format("no more than the open height, {:g} mm", draft.press.press.open_height_mm));
}

// Each punch goes in over some die and comes down to some die. `press` with its adapter.
void checkReach(const BrakeDraft& draft, const PressBrake& press, const std::vector<Punch>& punches,
                const std::vector<Die>& dies) {
    if (!draft.given.good("open_height") || !draft.given.good("stroke") || dies.empty()) return;
    const auto [low, high] = std::minmax_element(dies.begin(), dies.end(),
                                                 [](const Die& a, const Die& b) { return a.height_mm < b.height_mm; });
    const double most_mm = press.open_height_mm - low->height_mm;
    const double least_mm = press.open_height_mm - press.stroke_mm - high->height_mm;
    for (std::size_t i = 0; i < punches.size(); ++i) {
        const GivenFields& given = draft.press.punches[i].given;
        if (punches[i].profile.empty()) continue;  // told already
        const char* const field = given.has("height") ? "height" : "profile";
        if (punches[i].height_mm >= most_mm) {
            given.wrong(field, "punch.height",
                        fmt::format("less than {:g} mm, which the open height leaves over the lowest die", most_mm));
        } else if (punches[i].height_mm < least_mm) {
            given.wrong(
                field, "punch.height",
                fmt::format("{:g} mm or more, or at the stroke's end it is still over the highest die", least_mm));
        }
    }
}

void finishTools(const BrakeDraft& draft, PressBrake& press) {
    std::vector<Punch>& punches = press.punches;
    std::vector<Die>& dies = press.dies;
    std::vector<const ToolDraft*> tools;
    for (const ToolDraft& punch : draft.press.punches) {
        tools.push_back(&punch);
        punches.push_back(finishPunch(punch, draft));
    }
    for (const ToolDraft& die : draft.press.dies) {
        tools.push_back(&die);
        dies.push_back(finishDie(die, draft));
    }
    checkIds(tools);
    if (std::none_of(dies.begin(), dies.end(), [](const Die& die) { return die.profile.empty(); }))
        checkReach(draft, press, punches, dies);
}

}  // namespace

void takePressFields(const JsonCursor& object, ShopFiles& files, BrakeDraft& draft) {
    PressBrake& press = draft.press.press;
    takeNumber(object, "force_kn", draft.given, kForce, "kN", press.force_kn);
    takeBending(object, draft);
    takeLength(object, "open_height", draft.given, kSize_mm, press.open_height_mm);
    takeLength(object, "stroke", draft.given, kSize_mm, press.stroke_mm);
    takeFrames(object, draft);
    takeField(object, "ram", draft.given, press.ram, readPolygon);
    takeAdapter(object, draft);
    takeGauge(object, draft);
    takeTools(punchKind(), object, files, draft.given, draft.press.punches);
    takeTools(dieKind(), object, files, draft.given, draft.press.dies);
}

void finishPress(const BrakeDraft& draft, Brake& brake) {
    needFields(draft, {{"force_kn", "the greatest force in kN"},
                       {"open_height", "the height from the punches' seat to the dies' seat with the ram up"},
                       {"stroke", "the stroke of the ram"},
                       {"ram", "the section that the punches hang on, as a list of points [y, z]"},
                       {"bed", "the section under the dies, as a list of points [y, z]"},
                       {"punches", "a list of punches"},
                       {"dies", "a list of dies"}});
    PressBrake press = draft.press.press;
    press.bed = draft.bed;
    checkPressBed(draft);
    checkStroke(draft);
    finishRam(draft, press);
    finishFrames(draft, press);
    finishTools(draft, press);
    brake.kind = std::move(press);
    brake.uncertain = draft.given.uncertain();
    for (std::string& pointer : uncertainOf(punchKind(), draft.press.punches))
        brake.uncertain.push_back(std::move(pointer));
    for (std::string& pointer : uncertainOf(dieKind(), draft.press.dies)) brake.uncertain.push_back(std::move(pointer));
}

}  // namespace tinwright
