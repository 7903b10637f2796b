// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>
#include <vector>

#include "shop/shop_draft.h"

/// The lists of tools that brakes and sets hold: bars, punches, dies.
namespace tinwright {

/// A kind of list. A list "bars" may have an "each_bar" beside it, and sets of that kind of tooling file as items.
struct ToolKind {
    std::string_view list;                     ///< the field, and the kind of a set's tooling file
    std::string_view each;                     ///< the field that holds what the tools of a list have in common
    std::string_view one;                      ///< for messages
    std::vector<std::string_view> fields;      ///< that both a tool and `each` may have
    std::vector<std::string_view> own_fields;  ///< that only a tool has
    void (*take)(const JsonCursor& object, ToolDraft& draft);
    /// The tools that an item says: most say one. `each` has what is common.
    std::vector<ToolDraft> (*read)(const JsonCursor& item, const ToolDraft& each);
};

[[nodiscard]] const ToolKind& barKind();
[[nodiscard]] const ToolKind& punchKind();
[[nodiscard]] const ToolKind& dieKind();

/// Reads the list of an object (a brake, or a set's tooling file) with the sets it refers to.
[[nodiscard]] std::vector<ToolDraft> readTools(const ToolKind& kind, const JsonCursor& object, ShopFiles& files);

/// Takes the list of a brake, which stands in place of one that was given before.
void takeTools(const ToolKind& kind, const JsonCursor& brake, ShopFiles& files, GivenFields& given,
               std::vector<ToolDraft>& into);

/// A tool that says all by itself: `read` of kinds whose items are one tool each.
[[nodiscard]] std::vector<ToolDraft> readOneTool(const ToolKind& kind, const JsonCursor& item, const ToolDraft& each);

/// What every tool says: id, width, height, count, uncertain figures.
void takeCommon(const JsonCursor& object, ToolDraft& draft);

/// Reports an id or width that was not given, and a tool that is wider than its brake is long.
void checkIdAndWidth(const ToolKind& kind, const ToolDraft& draft, const BrakeDraft& of);

/// Reports which of these fields (with what each should say) were not given; true when all were.
[[nodiscard]] bool needToolFields(const ToolKind& kind, const ToolDraft& draft,
                                  std::initializer_list<std::pair<const char*, const char*>> fields);

/// True when one of these fields was given and could not be read.
[[nodiscard]] bool hasBadField(const ToolDraft& draft, std::initializer_list<const char*> fields);

/// Reports a size that was said beside a profile that has another.
void checkAgrees(const ToolDraft& draft, const char* field, double said_mm, double profile_mm,
                 std::string_view expected);

/// Reports ids that two of the tools have.
void checkIds(const std::vector<const ToolDraft*>& tools);

/// Checks that what is said of a tool fits together and makes it; `of`: its brake.
[[nodiscard]] Bar finishBar(const ToolDraft& draft, const BrakeDraft& of);
[[nodiscard]] Punch finishPunch(const ToolDraft& draft, const BrakeDraft& of);
[[nodiscard]] Die finishDie(const ToolDraft& draft, const BrakeDraft& of);

/// Figures of the tools of a list that nobody has measured, as pointers: "/bars/B30/height"; said of every tool they
/// are said once, "/bars/*/height".
[[nodiscard]] std::vector<std::string> uncertainOf(const ToolKind& kind, const std::vector<ToolDraft>& tools);

}  // namespace tinwright
