// SPDX-License-Identifier: GPL-3.0-or-later
#include "entities/dxf_vet.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <vector>

#include <tinwright/base/holds.h>

#include "entities/dxf_groups.h"
#include "entities/dxf_limits.h"

namespace tinwright {

namespace {

constexpr std::string_view kBinarySentinel = "AutoCAD Binary DXF";
constexpr std::size_t kMostVetIssues = 20;

/// Groups of an entity that are handed on: texts and numbers.
struct Kind {
    std::string_view type;
    std::vector<int> numbers;
    std::vector<int> texts;
};

const std::vector<Kind>& kinds() {
    static const std::vector<Kind> kKinds{
        {"LINE", {10, 20, 30, 11, 21, 31, 210, 220, 230}, {}},
        {"ARC", {10, 20, 30, 40, 50, 51, 210, 220, 230}, {}},
        {"CIRCLE", {10, 20, 30, 40, 210, 220, 230}, {}},
        {"ELLIPSE", {10, 20, 30, 11, 21, 31, 40, 41, 42, 210, 220, 230}, {}},
        {"LWPOLYLINE", {10, 20, 42, 38, 70, 210, 220, 230}, {}},
        {"POLYLINE", {30, 70, 210, 220, 230}, {}},
        {"VERTEX", {10, 20, 30, 42}, {}},
        {"SEQEND", {}, {}},
        {"SPLINE", {10, 20, 30, 11, 21, 31, 40, 41, 70, 71, 210, 220, 230}, {}},
        {"INSERT", {10, 20, 30, 41, 42, 43, 44, 45, 50, 70, 71, 210, 220, 230}, {2}},
        {"TEXT", {10, 20, 30, 11, 21, 31, 40, 50, 72, 73, 210, 220, 230}, {1}},
        {"MTEXT", {10, 20, 30, 40, 50, 71, 210, 220, 230}, {1, 3}},
        {"BLOCK", {10, 20, 30, 70}, {2}},
        {"ENDBLK", {}, {}},
        {"LAYER", {62, 70}, {2, 6}},
    };
    return kKinds;
}

const Kind* kindOf(std::string_view type) {
    const auto found =
        std::find_if(kinds().begin(), kinds().end(), [&](const Kind& kind) { return kind.type == type; });
    return found == kinds().end() ? nullptr : &*found;
}

/// A record: group 0 and what follows up to the next.
struct Record {
    std::string_view type;
    std::size_t line = 0;
    std::vector<DxfGroup> groups;

    [[nodiscard]] std::size_t count(int code) const {
        return static_cast<std::size_t>(
            std::count_if(groups.begin(), groups.end(), [&](const DxfGroup& group) { return group.code == code; }));
    }
    [[nodiscard]] std::string_view valueOf(int code) const {
        const auto found =
            std::find_if(groups.begin(), groups.end(), [&](const DxfGroup& group) { return group.code == code; });
        return found == groups.end() ? std::string_view{} : found->value;
    }
};

std::optional<double> numberIn(std::string_view text) {
    if (text.starts_with('+')) text.remove_prefix(1);
    double value = 0;
    const auto [rest, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || rest != text.data() + text.size() || !(std::abs(value) < DxfLimits::kLargestNumber))
        return std::nullopt;
    return value;
}

class Vetter {
public:
    Vetter(std::string_view bytes, const std::string& file) : groups_(bytes, file) {}
    Result<VettedDxf> run();

private:
    void put(int code, std::string_view value) {
        fmt::format_to(std::back_inserter(vetted_.text), "{}\n{}\n", code, value);
    }
    void take(Record& record);
    void takeHeader(const Record& record);
    void takeEntity(const Record& record);
    void putNumber(const DxfGroup& group);
    bool isHidden(const Record& record) const;
    bool isWanted(const Record& record) const;
    void openSection(const Record& record);

    DxfGroups groups_;
    VettedDxf vetted_;
    Issues issues_;
    std::string_view section_;
    std::size_t entities_ = 0;
    bool any_section_ = false;
    bool ended_ = false;
    std::size_t last_line_ = 1;
};

// Group codes 60 to 79 hold whole numbers.
void Vetter::putNumber(const DxfGroup& group) {
    const auto value = numberIn(group.value);
    if (!value) {
        if (issues_.size() < kMostVetIssues) {
            issues_.push_back(groups_.issueAt(
                group.line, "dxf.number", '"' + printable(group.value) + '"',
                fmt::format("a number for group {}, nearer to 0 than {:g}", group.code, DxfLimits::kLargestNumber)));
        }
        return;
    }
    const bool whole = group.code >= 60 && group.code <= 79;
    put(group.code,
        whole ? fmt::format("{}", static_cast<long long>(std::clamp(*value, -1e6, 1e6))) : fmt::format("{}", *value));
}

void Vetter::openSection(const Record& record) {
    if (!section_.empty()) {
        put(0, "ENDSEC");
        section_ = {};
    }
    ended_ |= record.type == "EOF";
    if (record.type != "SECTION") return;
    any_section_ = true;
    const std::string_view name = record.valueOf(2);
    if (name != "HEADER" && name != "TABLES" && name != "BLOCKS" && name != "ENTITIES") return;
    section_ = name;
    put(0, "SECTION");
    put(2, name);
    if (name == "HEADER") takeHeader(record);
}

void Vetter::takeHeader(const Record& record) {
    for (std::size_t i = 0; i + 1 < record.groups.size(); ++i) {
        if (record.groups[i].code != 9 || record.groups[i].value != "$INSUNITS" || record.groups[i + 1].code != 70)
            continue;
        put(9, "$INSUNITS");
        putNumber(record.groups[i + 1]);
    }
}

bool Vetter::isHidden(const Record& record) const {
    return record.valueOf(60) == "1" || (section_ == "ENTITIES" && record.valueOf(67) == "1");
}

// Vertices of a curve-fit frame (flag 16) are no points of the curve.
bool Vetter::isWanted(const Record& record) const {
    if (kindOf(record.type) == nullptr) return false;
    if (section_ == "TABLES") return record.type == "LAYER";
    if (record.type == "LAYER") return false;
    const bool of_blocks = record.type == "BLOCK" || record.type == "ENDBLK";
    if (of_blocks) return section_ == "BLOCKS";
    return true;
}

void Vetter::takeEntity(const Record& record) {
    if (!isWanted(record)) {
        if (section_ != "TABLES" && record.type != "ATTRIB") ++vetted_.left_out[printable(record.type)];
        return;
    }
    if (++entities_ == DxfLimits::kEntities + 1) {
        issues_.push_back(groups_.issueAt(record.line, "dxf.too-many",
                                          fmt::format("more than {} entities", DxfLimits::kEntities),
                                          fmt::format("at most {}", DxfLimits::kEntities)));
    }
    if (entities_ > DxfLimits::kEntities) return;
    if (isHidden(record)) {
        if (record.type != "VERTEX" && record.type != "SEQEND") ++vetted_.hidden;
        if (record.type != "POLYLINE" && record.type != "VERTEX" && record.type != "SEQEND") return;
    }
    if (record.type == "VERTEX" && (static_cast<int>(numberIn(record.valueOf(70)).value_or(0)) & 16) != 0) return;
    const Kind& kind = *kindOf(record.type);
    put(0, record.type);
    put(5, fmt::format("{:X}", record.line));
    if (isHidden(record)) put(67, "1");
    // Counts first: the library makes room by them.
    if (record.type == "LWPOLYLINE") put(90, std::to_string(record.count(10)));
    if (record.type == "SPLINE") {
        put(72, std::to_string(record.count(40)));
        put(73, std::to_string(record.count(10)));
        put(74, std::to_string(record.count(11)));
    }
    for (const DxfGroup& group : record.groups) {
        if (group.code == 8 || group.code == 6 || holds(kind.texts, group.code))
            put(group.code, group.value);
        else if (holds(kind.numbers, group.code))
            putNumber(group);
    }
}

void Vetter::take(Record& record) {
    if (record.type.empty()) return;
    if (record.type == "SECTION" || record.type == "ENDSEC" || record.type == "EOF")
        openSection(record);
    else if (section_ == "TABLES" && (record.type == "TABLE" || record.type == "ENDTAB"))
        return;
    else if (!section_.empty() && section_ != "HEADER")
        takeEntity(record);
}

Result<VettedDxf> Vetter::run() {
    Record record;
    while (const auto group = groups_.next()) {
        last_line_ = group->line;
        if (group->code == 0) {
            take(record);
            record = {group->value, group->line, {}};
        } else {
            record.groups.push_back(*group);
        }
    }
    take(record);
    if (!section_.empty()) put(0, "ENDSEC");
    put(0, "EOF");
    for (const Issue& issue : groups_.issues()) issues_.push_back(issue);
    if (issues_.empty() && !any_section_)
        issues_.push_back(groups_.issueAt(1, "dxf.not-dxf", "no section of a drawing", "a DXF file (ASCII)"));
    // Half a drawing may well look like a whole one with fewer cut-outs.
    if (issues_.empty() && !ended_)
        issues_.push_back(groups_.issueAt(last_line_, "dxf.cut-short", "the end of the file",
                                          "EOF as the last entry of a drawing", "the file seems cut short"));
    if (!issues_.empty()) return std::move(issues_);
    return std::move(vetted_);
}

}  // namespace

std::string printable(std::string_view bytes) {
    std::string text(bytes.substr(0, 60));
    for (char& c : text) {
        if (c < 0x20 || c > 0x7e) c = '?';
    }
    return text;
}

Result<VettedDxf> vetDxf(std::string_view bytes, const std::string& file) {
    if (bytes.size() > DxfLimits::kBytes) {
        return Issue{"dxf.too-large",
                     file,
                     "",
                     fmt::format("{} bytes", bytes.size()),
                     fmt::format("at most {} bytes", DxfLimits::kBytes),
                     ""};
    }
    if (bytes.starts_with(kBinarySentinel)) {
        return Issue{"dxf.binary", file, "", "a binary DXF file", "an ASCII DXF file", "export it again as ASCII"};
    }
    if (bytes.starts_with("AC10") || bytes.find('\0') != std::string_view::npos) {
        return Issue{
            "dxf.not-dxf", file, "", "bytes of another format", "an ASCII DXF file", "export the drawing as DXF"};
    }
    if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
    return Vetter(bytes, file).run();
}

}  // namespace tinwright
