// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include <tinwright/io/json/json_cursor.h>
#include <tinwright/io/shop/shop_io.h>

namespace tinwright {

/// One document of a shop, with the issues found in it so far. Stays where it is until reading ends, since cursors
/// point into it.
struct ShopFile {
    ShopFile() noexcept(false) {}  // the JSON value may throw, whatever its constructor says
    ShopFile(const ShopFile&) = delete;
    ShopFile& operator=(const ShopFile&) = delete;
    std::string key;
    nlohmann::json document;
    ReadContext context;
    [[nodiscard]] JsonCursor cursor() { return JsonCursor(document, "", context); }
};

/// The documents of a shop: each is opened and parsed once.
class ShopFiles {
public:
    explicit ShopFiles(const OpenReference& open) : open_(open) {}

    /// The shop file itself; nullptr when it is not JSON.
    [[nodiscard]] ShopFile* addShop(std::string_view text, const std::string& name, const std::string& key);

    /// The tooling file of `kind` ("brake" or "bars") that the text at `reference` names, entered: leave() it when
    /// it has been read. Reports at the reference and gives nullptr when there is none, when it is of another kind,
    /// when it is being read already (it leads back to itself) or when there are too many.
    [[nodiscard]] ShopFile* enter(const JsonCursor& reference, std::string_view kind);
    void leave();

    /// Everything found, file by file in the order they were opened, nothing twice.
    [[nodiscard]] Issues takeIssues();

private:
    ShopFile* add(std::string_view text, std::string name, const std::string& key, const std::string& format);
    ShopFile* find(const JsonCursor& reference, const std::string& text);
    bool mayEnter(const JsonCursor& reference);

    const OpenReference& open_;
    std::vector<std::unique_ptr<ShopFile>> files_;
    std::map<std::string, ShopFile*> by_key_;  // nullptr: could not be parsed
    std::vector<ShopFile*> stack_;
    Issues parse_issues_;
    std::size_t entered_ = 0;
};

/// The key of a file on disk: two paths to one file have the same.
[[nodiscard]] std::string keyOnDisk(const std::string& path);

/// References on disk, as ShopReadOptions says.
[[nodiscard]] OpenReference openOnDisk(const std::string& shop_path, const ShopReadOptions& options);

}  // namespace tinwright
