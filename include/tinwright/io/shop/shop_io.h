// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/brake/machines/shop.h>

/// Reading shop files (format "tinwright-shop/1") and the tooling files ("tinwright-tooling/1") they refer to; every
/// field is described in src/io/SHOP_FORMAT.md. Each file names its own units; the Shop is in mm.
///
///     Result<Shop> shop = readShop("shop.json");
///     if (!shop) for (const Issue& issue : shop.issues()) std::cerr << toText(issue) << '\n';
///
/// All issues of all files come at once. Safe on any bytes: limits on size, depth, number of values (json_reading.h),
/// of files, of references and of how deep they nest; a file that leads back to itself is an issue.
namespace tinwright {

/// Folders of generic tooling that this build of the program knows: that of the installation which the running program
/// belongs to, wherever that was unpacked; the source tree's; and the installed one. Those that exist.
[[nodiscard]] std::vector<std::filesystem::path> knownToolingDirectories();

struct ShopReadOptions {
    /// Besides the shop file's own folder, references may lead into these and nowhere else. "tooling:NAME.json" is
    /// looked up here in this order.
    std::vector<std::filesystem::path> tooling_directories = knownToolingDirectories();
};

/// Reads a shop file and what it refers to. Codes start with "file.", "json.", "shop." or "tooling.".
[[nodiscard]] Result<Shop> readShop(const std::string& path, const ShopReadOptions& options = {});

/// A file that a reference leads to.
struct ReferencedFile {
    std::string name;  ///< for issues
    std::string key;   ///< the same for two references to one file
    std::string text;
};

/// The file a reference stands in.
struct ReferringFile {
    std::string name;
    std::string key;
};

/// Opens what `reference` means in the file `from`, or says why not; file and place of its issues are filled in by the
/// reader.
using OpenReference = std::function<Result<ReferencedFile>(const ReferringFile& from, const std::string& reference)>;

/// The same from memory; `file` names the text in issues and is its key.
[[nodiscard]] Result<Shop> readShopText(std::string_view text, const std::string& file, const OpenReference& open);

}  // namespace tinwright
