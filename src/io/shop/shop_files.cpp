// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/shop_files.h"

#include <fmt/format.h>

#include <algorithm>

#include <tinwright/io/json/json_reading.h>

namespace tinwright {

namespace {

constexpr std::size_t kMaxNesting = 8;       // files that refer to one another
constexpr std::size_t kMaxReferences = 200;  // followed in all: nested lists would else multiply
constexpr std::size_t kMaxFiles = 40;

bool same(const Issue& a, const Issue& b) {
    return a.code == b.code && a.file == b.file && a.place == b.place && a.found == b.found && a.expected == b.expected;
}

// A file that two brakes refer to is read twice; what is wrong with it is said once.
void dropRepeats(Issues& issues) {
    Issues kept;
    for (Issue& issue : issues) {
        if (std::none_of(kept.begin(), kept.end(), [&](const Issue& other) { return same(issue, other); })) {
            kept.push_back(std::move(issue));
        }
    }
    issues = std::move(kept);
}

}  // namespace

ShopFile* ShopFiles::add(std::string_view text, std::string name, const std::string& key, const std::string& format) {
    Result<nlohmann::json> parsed = parseJson(text, name);
    if (!parsed) {
        parse_issues_.insert(parse_issues_.end(), parsed.issues().begin(), parsed.issues().end());
        return by_key_[key] = nullptr;
    }
    auto file = std::make_unique<ShopFile>();
    file->context.file = std::move(name);
    file->context.code = format;
    file->document = std::move(parsed).value();
    file->key = key;
    readHeader(file->cursor(), "tinwright-" + format + "/1");
    files_.push_back(std::move(file));
    return by_key_[key] = files_.back().get();
}

ShopFile* ShopFiles::addShop(std::string_view text, const std::string& name, const std::string& key) {
    ShopFile* file = add(text, name, key, "shop");
    if (file != nullptr) stack_.push_back(file);
    return file;
}

bool ShopFiles::mayEnter(const JsonCursor& reference) {
    if (stack_.size() > kMaxNesting) {
        reference.wrong("nesting", fmt::format("files that refer to one another at most {} deep", kMaxNesting));
        return false;
    }
    if (++entered_ > kMaxReferences || files_.size() > kMaxFiles) {
        reference.wrong("count", fmt::format("at most {} references to {} files in all", kMaxReferences, kMaxFiles));
        return false;
    }
    return true;
}

ShopFile* ShopFiles::find(const JsonCursor& reference, const std::string& text) {
    Result<ReferencedFile> opened = open_({stack_.back()->context.file, stack_.back()->key}, text);
    if (!opened) {
        for (const Issue& issue : opened.issues())
            reference.report("reference", issue.found, issue.expected, issue.hint);
        return nullptr;
    }
    const ReferencedFile& file = opened.value();
    const auto known = by_key_.find(file.key);
    ShopFile* found = known != by_key_.end() ? known->second : add(file.text, file.name, file.key, "tooling");
    if (found == nullptr)
        reference.wrong("reference", "a file that is JSON", "what is wrong with it is said beside its name");
    return found;
}

ShopFile* ShopFiles::enter(const JsonCursor& reference, std::string_view kind) {
    const std::optional<std::string> text = reference.text(500);
    if (!text || !mayEnter(reference)) return nullptr;
    ShopFile* file = find(reference, *text);
    if (file == nullptr) return nullptr;
    if (std::find(stack_.begin(), stack_.end(), file) != stack_.end()) {
        reference.wrong("cycle", "a file that does not lead back to this one");
        return nullptr;
    }
    const auto& document = file->document;
    if (!document.is_object() || !document.contains("kind") || document["kind"] != nlohmann::json(kind)) {
        reference.wrong("kind", fmt::format("a tooling file of \"kind\": \"{}\"", kind));
        return nullptr;
    }
    stack_.push_back(file);
    return file;
}

void ShopFiles::leave() {
    dropRepeats(stack_.back()->context.issues);
    stack_.pop_back();
}

Issues ShopFiles::takeIssues() {
    Issues all = std::move(parse_issues_);
    for (const auto& file : files_) {
        all.insert(all.end(), file->context.issues.begin(), file->context.issues.end());
        file->context.issues.clear();
    }
    dropRepeats(all);
    return all;
}

}  // namespace tinwright
