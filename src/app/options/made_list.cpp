// SPDX-License-Identifier: GPL-3.0-or-later
#include "options/made_list.h"

#include <algorithm>
#include <charconv>
#include <optional>
#include <string_view>

#include <fmt/format.h>

#include "options/option_table.h"
#include "options/order_list.h"

namespace tinwright::app {
namespace {

/// What one of the two options takes.
struct MadeKind {
    const char* option;
    const char* unit;
    NumberRange range;
    const char* example;
};
constexpr MadeKind kSizes{"--made", "mm", kMadeSize_mm, "left=35.2"};
constexpr MadeKind kAngles{"--made-angle", "degrees", kMadeAngle_deg, "left=88"};

std::string_view withoutBlanks(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

class MadeReader {
public:
    explicit MadeReader(const Part& part) : part_(part) {}
    void read(const MadeKind& kind, const std::vector<std::string>& texts);
    Result<std::vector<MadeBend>> made();

private:
    void report(const char* code, const MadeKind& kind, std::string found, std::string expected) {
        issues_.push_back({code, "command line", kind.option, std::move(found), std::move(expected), ""});
    }
    void readOne(const MadeKind& kind, std::string_view text);
    std::optional<BendId> bendIn(const MadeKind& kind, std::string_view name);
    std::optional<double> numberIn(const MadeKind& kind, std::string_view text);

    const Part& part_;
    std::vector<MadeBend> made_;
    Issues issues_;
};

std::optional<BendId> MadeReader::bendIn(const MadeKind& kind, std::string_view name) {
    const auto order = parseOrder(part_, std::string(name), kind.option, 0);
    if (!order) {
        append(issues_, order.issues());
        return std::nullopt;
    }
    if (order.value().size() == 1 && order.value().front().size() == 1) return order.value().front().front();
    report("made.form", kind, fmt::format("\"{}\"", name), "one bend before each =");
    return std::nullopt;
}

std::optional<double> MadeReader::numberIn(const MadeKind& kind, std::string_view text) {
    if (!numberComplaint(kind.range, std::string(text)).empty()) {
        report("made.range", kind, fmt::format("\"{}\"", text),
               fmt::format("a number from {} to {}, in {}", kind.range.least, kind.range.most, kind.unit));
        return std::nullopt;
    }
    double value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

void MadeReader::readOne(const MadeKind& kind, std::string_view text) {
    const std::size_t equals = text.rfind('=');
    if (equals == std::string_view::npos || withoutBlanks(text.substr(0, equals)).empty()) {
        return report("made.form", kind, fmt::format("\"{}\"", text),
                      fmt::format("a bend and what was measured of it in {}, as in {}", kind.unit, kind.example));
    }
    const std::optional<BendId> bend = bendIn(kind, withoutBlanks(text.substr(0, equals)));
    const std::optional<double> number = numberIn(kind, withoutBlanks(text.substr(equals + 1)));
    if (!bend || !number) return;
    auto at = std::find_if(made_.begin(), made_.end(), [&](const MadeBend& one) { return one.bend == *bend; });
    if (at == made_.end()) at = made_.insert(made_.end(), {*bend, std::nullopt, std::nullopt});
    const bool is_size = kind.option == kSizes.option;
    if (is_size ? at->outside_mm.has_value() : at->angle.has_value())
        return report("made.twice", kind, fmt::format("\"{}\" twice", part_.bend(*bend).name), "each bend once");
    if (is_size) {
        at->outside_mm = *number;
    } else {
        at->angle = Angle::degrees(*number);
    }
}

void MadeReader::read(const MadeKind& kind, const std::vector<std::string>& texts) {
    for (const std::string& text : texts) {
        std::string_view rest = text;
        for (;;) {
            const std::size_t comma = rest.find(',');
            readOne(kind, withoutBlanks(rest.substr(0, comma)));
            if (comma == std::string_view::npos) break;
            rest.remove_prefix(comma + 1);
        }
    }
}

Result<std::vector<MadeBend>> MadeReader::made() {
    if (!issues_.empty()) return std::move(issues_);
    std::sort(made_.begin(), made_.end(), [](const MadeBend& a, const MadeBend& b) { return a.bend < b.bend; });
    return std::move(made_);
}

}  // namespace

Result<std::vector<MadeBend>> parseMade(const Part& part, const std::vector<std::string>& sizes,
                                        const std::vector<std::string>& angles) {
    MadeReader reader(part);
    reader.read(kSizes, sizes);
    reader.read(kAngles, angles);
    return reader.made();
}

}  // namespace tinwright::app
