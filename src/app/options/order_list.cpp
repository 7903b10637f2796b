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

Issue unknownPanel(const Part& part, const std::string& place, std::string_view name) {
    std::vector<std::string> names;
    std::string expected = "one of the part's panels:";
    for (const Panel& panel : part.panels) {
        names.push_back(panel.name);
        expected += " " + panel.name;
    }
    const std::string nearest = nearestWord(name, names);
    return {"order.panel",  "command line", place,
            inQuotes(name), expected,       nearest.empty() ? "" : "did you mean " + nearest + "?"};
}

std::optional<PanelId> panelNamed(const Part& part, std::string_view name) {
    for (std::size_t i = 0; i < part.panels.size(); ++i) {
        if (part.panels[i].name == name) return idAt<PanelId>(i);
    }
    return std::nullopt;
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

/// Each bend once, and none that is formed.
class BendsOnce {
public:
    BendsOnce(const Part& part, std::string place, BendMask formed)
        : part_(part), place_(std::move(place)), formed_(formed) {}

    void take(const std::vector<BendId>& stroke, Issues& issues) {
        for (const BendId bend : stroke) {
            const std::string name = inQuotes(part_.bend(bend).name);
            if (contains(seen_, bend))
                issues.push_back({"order.twice", "command line", place_, name + " twice", "each bend once", ""});
            if (contains(formed_, bend)) {
                issues.push_back({"order.formed", "command line", place_, name,
                                  "only bends that are not folded already (--formed, --made)", ""});
            }
            seen_ |= bit(bend);
        }
    }

private:
    const Part& part_;
    std::string place_;
    BendMask formed_;
    BendMask seen_ = 0;
};

Issue nothing(const std::string& place) {
    return {"order.empty", "command line", place, "nothing", "names of bends, as in a,b+c", ""};
}

/// Nothing of a stroke whose bends are not known.
void takeHold(const Part& part, std::string_view panel, const std::vector<BendId>& stroke, const std::string& place,
              std::vector<HoldPin>& holds, Issues& issues) {
    const std::optional<PanelId> known = panelNamed(part, panel);
    if (!known) {
        issues.push_back(unknownPanel(part, place, panel));
    } else if (!stroke.empty()) {
        holds.push_back(holdOn(part, maskOf(stroke), *known));
    }
}

}  // namespace

Result<std::vector<std::vector<BendId>>> parseOrder(const Part& part, const std::string& text, const std::string& place,
                                                    BendMask formed) {
    if (trimmed(text).empty()) return nothing(place);
    Issues issues;
    std::vector<std::vector<BendId>> order;
    BendsOnce once(part, place, formed);
    for (const std::string_view stroke : split(text, ',')) {
        order.push_back(parseStroke(part, stroke, place, issues));
        once.take(order.back(), issues);
    }
    if (!issues.empty()) return issues;
    return order;
}

Result<HeldOrder> parseHeldOrder(const Part& part, const std::string& text, const std::string& place, BendMask formed) {
    if (trimmed(text).empty()) return nothing(place);
    Issues issues;
    HeldOrder order;
    BendsOnce once(part, place, formed);
    for (const std::string_view one : split(text, ',')) {
        const std::size_t at = one.find('@');
        order.strokes.push_back(parseStroke(part, trimmed(one.substr(0, at)), place, issues));
        once.take(order.strokes.back(), issues);
        if (at != std::string_view::npos)
            takeHold(part, trimmed(one.substr(at + 1)), order.strokes.back(), place, order.holds, issues);
    }
    if (!issues.empty()) return issues;
    return order;
}

Result<std::vector<HoldPin>> parseHolds(const Part& part, const std::string& text, const std::string& place,
                                        BendMask formed) {
    Issues issues;
    std::vector<HoldPin> holds;
    for (const std::string_view one : split(text, ',')) {
        const std::size_t at = one.find('=');
        if (at == std::string_view::npos) {
            issues.push_back({"order.hold", "command line", place, inQuotes(one), "BEND=PANEL, as in left=floor", ""});
            continue;
        }
        const std::string_view name = trimmed(one.substr(0, at));
        const std::optional<BendId> bend = bendNamed(part, name);
        if (!bend) issues.push_back(unknownBend(part, place, name));
        std::vector<BendId> stroke;
        if (bend) stroke.push_back(*bend);
        BendsOnce(part, place, formed).take(stroke, issues);
        takeHold(part, trimmed(one.substr(at + 1)), stroke, place, holds, issues);
    }
    if (!issues.empty()) return issues;
    return holds;
}

Result<BendMask> parseFormed(const Part& part, const std::string& text) {
    if (trimmed(text).empty()) return BendMask{0};
    const auto order = parseOrder(part, text, "--formed", 0);
    if (!order) return order.issues();
    BendMask formed = 0;
    for (const std::vector<BendId>& stroke : order.value()) formed |= maskOf(stroke);
    return formed;
}

std::vector<std::string> splitAtCommas(const std::string& text) {
    std::vector<std::string> pieces;
    for (const std::string_view piece : split(text, ',')) pieces.emplace_back(piece);
    return pieces;
}

}  // namespace tinwright::app
