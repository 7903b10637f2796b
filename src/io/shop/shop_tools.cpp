// SPDX-License-Identifier: GPL-3.0-or-later
// Lists of bars, punches and dies: "each_bar" holds what all bars of a list have in common, a bar what is its own, and
// an item with "set" brings in the list of a tooling file.
#include "shop/shop_tools.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include <tinwright/base/words.h>
#include <tinwright/io/json/json_reading.h>

namespace tinwright {

namespace {

constexpr std::size_t kMaxTools = 200;
constexpr int kMaxCount = 100;

// Items of "only": ids of the set that are meant, the rest is left out.
void keepOnly(const ToolKind& kind, const JsonCursor& item, std::vector<ToolDraft>& tools) {
    const std::optional<JsonCursor> only = item.get("only");
    if (!only) return;
    std::vector<ToolDraft> kept;
    for (const JsonCursor& wanted : only->items(1, kMaxTools)) {
        const std::optional<std::string> id = wanted.name();
        if (!id) continue;
        const auto found =
            std::find_if(tools.begin(), tools.end(), [&](const ToolDraft& tool) { return tool.tool.id == *id; });
        if (found != tools.end()) {
            kept.push_back(*found);
            continue;
        }
        std::vector<std::string> ids;
        for (const ToolDraft& tool : tools) ids.push_back(tool.tool.id);
        const std::string near = nearestWord(*id, ids);
        wanted.wrong("only", fmt::format("the id of a {} of that set", kind.one),
                     near.empty() ? "" : "perhaps \"" + near + "\"");
    }
    tools = std::move(kept);
}

std::vector<ToolDraft> readSet(const ToolKind& kind, const JsonCursor& item, ShopFiles& files) {
    if (!item.object({"set", "only", "note"})) return {};
    static_cast<void>(textOr(item, "note", ""));
    ShopFile* file = files.enter(*item.get("set"), kind.list);
    if (file == nullptr) return {};
    const JsonCursor set = file->cursor();
    std::vector<ToolDraft> tools;
    if (set.object({"format", "units", "kind", "name", "note", kind.each, kind.list})) {
        static_cast<void>(textOr(set, "note", ""));
        static_cast<void>(textOr(set, "name", ""));
        static_cast<void>(set.need(kind.list, fmt::format("a list of {}", kind.list)));
        tools = readTools(kind, set, files);
    }
    files.leave();
    keepOnly(kind, item, tools);
    return tools;
}

ToolDraft readEach(const ToolKind& kind, const JsonCursor& object) {
    ToolDraft each;
    const std::optional<JsonCursor> common = object.get(kind.each);
    if (!common || !common->object(kind.fields)) return each;
    static_cast<void>(textOr(*common, "note", ""));
    kind.take(*common, each);
    return each;
}

std::vector<std::string_view> fieldsOfItem(const ToolKind& kind) {
    std::vector<std::string_view> fields = kind.own_fields;
    fields.insert(fields.end(), kind.fields.begin(), kind.fields.end());
    return fields;
}

std::vector<ToolDraft> readItem(const ToolKind& kind, const JsonCursor& item, const ToolDraft& each, ShopFiles& files) {
    if (item.has("set")) return readSet(kind, item, files);
    if (!item.object(fieldsOfItem(kind))) return {};
    static_cast<void>(textOr(item, "note", ""));
    return kind.read(item, each);
}

}  // namespace

std::vector<ToolDraft> readTools(const ToolKind& kind, const JsonCursor& object, ShopFiles& files) {
    const ToolDraft each = readEach(kind, object);
    std::vector<ToolDraft> tools;
    const std::optional<JsonCursor> list = object.get(kind.list);
    if (!list) return tools;
    for (const JsonCursor& item : list->items(1, kMaxTools)) {
        for (ToolDraft& tool : readItem(kind, item, each, files)) tools.push_back(std::move(tool));
        if (tools.size() > kMaxTools) {
            list->wrong("count", fmt::format("at most {} kinds of {}, with those of the sets", kMaxTools, kind.list));
            tools.resize(kMaxTools);
            break;
        }
    }
    return tools;
}

void takeTools(const ToolKind& kind, const JsonCursor& brake, ShopFiles& files, GivenFields& given,
               std::vector<ToolDraft>& into) {
    if (const std::optional<JsonCursor> list = brake.get(kind.list)) {
        into = readTools(kind, brake, files);
        given.give(kind.list, *list, !into.empty());
    } else if (const std::optional<JsonCursor> each = brake.get(kind.each)) {
        each->wrong("each-bar", fmt::format("\"{}\" beside it", kind.list),
                    fmt::format("it says what the {} of that list have in common", kind.list));
    }
}

std::vector<ToolDraft> readOneTool(const ToolKind& kind, const JsonCursor& item, const ToolDraft& each) {
    std::vector<ToolDraft> tools{each};
    kind.take(item, tools.back());
    return tools;
}

void takeCommon(const JsonCursor& object, ToolDraft& draft) {
    draft.given.setWhole(object);
    takeField(object, "id", draft.given, draft.tool.id, [](const JsonCursor& at) { return at.name(); });
    takeLength(object, "width", draft.given, kSize_mm, draft.tool.width_mm);
    takeLength(object, "height", draft.given, kSize_mm, draft.tool.height_mm);
    takeField(object, "count", draft.given, draft.tool.count,
              [](const JsonCursor& at) { return at.integer(1, kMaxCount); });
}

void checkIdAndWidth(const ToolKind& kind, const ToolDraft& draft, const BrakeDraft& of) {
    if (!draft.given.has("id"))
        draft.given.wrong("id", "missing", fmt::format("a name for the {}, of letters and digits", kind.one));
    if (!draft.given.has("width"))
        draft.given.wrong("width", "missing", fmt::format("the {}'s width along the machine", kind.one));
    if (draft.given.good("width") && of.given.good("length") && draft.tool.width_mm > of.brake.length_mm) {
        draft.given.wrong("width", "bar.width",
                          fmt::format("no more than the brake's length, {:g} mm", of.brake.length_mm));
    }
}

bool needToolFields(const ToolKind& kind, const ToolDraft& draft,
                    std::initializer_list<std::pair<const char*, const char*>> fields) {
    bool complete = true;
    for (const auto& [field, expected] : fields) {
        if (draft.given.has(field)) continue;
        draft.given.wrong(field, "missing", expected,
                          fmt::format("or say it for all {} in \"{}\"", kind.list, kind.each));
        complete = false;
    }
    return complete;
}

bool hasBadField(const ToolDraft& draft, std::initializer_list<const char*> fields) {
    return std::any_of(fields.begin(), fields.end(),
                       [&](const char* field) { return draft.given.has(field) && !draft.given.good(field); });
}

void checkAgrees(const ToolDraft& draft, const char* field, double said_mm, double profile_mm,
                 std::string_view expected) {
    constexpr double kMeasured_mm = 0.02;
    if (!draft.given.has(field) || std::abs(profile_mm - said_mm) <= kMeasured_mm) return;
    draft.given.wrong(field, "bar.profile", fmt::format("{}, {:g} mm", expected, profile_mm));
}

void checkIds(const std::vector<const ToolDraft*>& tools) {
    std::set<std::string> ids;
    for (const ToolDraft* tool : tools) {
        if (!tool->given.good("id") || ids.insert(tool->tool.id).second) continue;
        tool->given.wrong("id", "repeated", "an id that no other bar, punch or die of the brake has",
                          "say how many there are with \"count\"");
    }
}

std::vector<std::string> uncertainOf(const ToolKind& kind, const std::vector<ToolDraft>& tools) {
    std::vector<std::string> all;
    for (const ToolDraft& tool : tools) {
        for (const std::string& pointer : tool.given.uncertain()) {
            const bool everywhere = std::all_of(tools.begin(), tools.end(), [&](const ToolDraft& other) {
                const auto& list = other.given.uncertain();
                return std::find(list.begin(), list.end(), pointer) != list.end();
            });
            const std::string text = fmt::format("/{}/{}{}", kind.list, everywhere ? "*" : tool.tool.id, pointer);
            if (std::find(all.begin(), all.end(), text) == all.end()) all.push_back(text);
        }
    }
    return all;
}

}  // namespace tinwright
