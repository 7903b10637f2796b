// SPDX-License-Identifier: GPL-3.0-or-later
#include "options/order_list.h"

#include <optional>
#include <string_view>

#include <tinwright/base/words.h>

namespace tinwright::app {
namespace {

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kBlank = " \t\r\n";
    const std::size_t first = text.find_first_not_of(kBlank);
    if (first == std::string_view::npos) return text.substr(text.size());
    return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

/// Blanks beside a comma or a plus are no part of a name.
std::vector<std::string_view> split(std::string_view text, char at) {
    std::vector<std::string_view> pieces;
    for (;;) {
        const std::size_t end = text.find(at);
        pieces.push_back(trimmed(text.substr(0, end)));
        if (end == std::string_view::npos) return pieces;
        text.remove_prefix(end + 1);
    }
}

std::optional<BendId> bendNamed(const Part& part, std::string_view name) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (part.bends[i].name == name) return idAt<BendId>(i);
    }
    return std::nullopt;
}

std::vector<std::string> bendNames(const Part& part) {
    std::vector<std::string> names;
    for (const Bend& bend : part.bends) names.push_back(bend.name);
    return names;
}

std::string inQuotes(std::string_view text) { return '"' + std::string(text) + '"'; }

Issue unknownBend(const Part& part, const std::string& place, std::string_view name) {
    const std::vector<std::string> names = bendNames(part);
    std::string expected = "one of the part's bends:";
    for (const std::string& known : names) expected += " " + known;
    const std::string nearest = nearestWord(name, names);
    return {"order.bend",   "command line", place,
            inQuotes(name), expected,       nearest.empty() ? "" : "did you mean " + nearest + "?"};
}

/// Names may hold a + of their own, so the longest name that fits is taken.
std::size_t bendsAt(const Part& part, const std::vector<std::string_view>& pieces, std::size_t first,
                    std::optional<BendId>& bend) {
    for (std::size_t count = pieces.size() - first; count > 0; --count) {
        const std::string_view& last = pieces[first + count - 1];
        const char* begin = pieces[first].data();
        bend = bendNamed(part, std::string_view(begin, static_cast<std::size_t>(last.data() + last.size() - begin)));
        if (bend) return count;
    }
    return 1;
}

std::vector<BendId> parseStroke(const Part& part, std::string_view text, const std::string& place, Issues& issues) {
    const std::vector<std::string_view> pieces = split(text, '+');
    std::vector<BendId> bends;
    for (std::size_t i = 0; i < pieces.size();) {
        std::optional<BendId> bend;
        const std::size_t taken = bendsAt(part, pieces, i, bend);
        if (bend) {
            bends.push_back(*bend);
        } else {
            issues.push_back(unknownBend(part, place, pieces[i]));
        }
        i += taken;
    }
    return bends;
}

}  // namespace

Result<std::vector<std::vector<BendId>>> parseOrder(const Part& part, const std::string& text, const std::string& place,
                                                    BendMask formed) {
    if (trimmed(text).empty())
        return Issue{"order.empty", "command line", place, "nothing", "names of bends, as in a,b+c", ""};
    Issues issues;
    std::vector<std::vector<BendId>> order;
    BendMask seen = 0;
    for (const std::string_view stroke : split(text, ',')) {
        order.push_back(parseStroke(part, stroke, place, issues));
        for (const BendId bend : order.back()) {
            const std::string name = part.bend(bend).name;
            if (contains(seen, bend)) {
                issues.push_back(
                    {"order.twice", "command line", place, inQuotes(name) + " twice", "each bend once", ""});
            }
            if (contains(formed, bend)) {
                issues.push_back({"order.formed", "command line", place, inQuotes(name),
                                  "only bends that are not folded already (--formed, --made)", ""});
            }
            seen |= bit(bend);
        }
    }
    if (!issues.empty()) return issues;
    return order;
}

Result<BendMask> parseFormed(const Part& part, const std::string& text) {
    if (trimmed(text).empty()) return BendMask{0};
    const auto order = parseOrder(part, text, "--formed", 0);
    if (!order) return order.issues();
    BendMask formed = 0;
    for (const std::vector<BendId>& stroke : order.value()) formed |= maskOf(stroke);
    return formed;
}

}  // namespace tinwright::app
