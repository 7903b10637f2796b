// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <fstream>
#include <iterator>
#include <map>
#include <string>

#include <tinwright/io/shop/shop_io.h>

namespace tinwright::test {

inline std::string textOf(const Issues& issues) {
    std::string text;
    for (const Issue& issue : issues) text += toText(issue) + "\n";
    return text;
}

/// Files in memory, by name.
inline OpenReference memory(std::map<std::string, std::string> files) {
    return [files = std::move(files)](const ReferringFile&, const std::string& reference) -> Result<ReferencedFile> {
        const auto found = files.find(reference);
        if (found == files.end()) return Issue{"", "", "", "\"" + reference + "\"", "a file that is there", ""};
        return ReferencedFile{reference, reference, found->second};
    };
}

/// A shop from memory whose references lead into the shipped tooling folder.
inline Result<Shop> readWithTooling(const std::string& text) {
    return readShopText(text, "shop.json",
                        [](const ReferringFile&, const std::string& reference) -> Result<ReferencedFile> {
                            const std::string name = reference.substr(reference.find(':') + 1);
                            std::ifstream file(std::string(TINWRIGHT_SOURCE_DIR "/tooling/") + name, std::ios::binary);
                            if (!file)
                                return Issue{"", "", "", "\"" + reference + "\"", "a file of the tooling folder", ""};
                            return ReferencedFile{name, name, std::string(std::istreambuf_iterator<char>(file), {})};
                        });
}

/// True when one of the issues has this code and place.
inline bool has(const Issues& issues, const std::string& code, const std::string& place, const std::string& file = "") {
    for (const Issue& issue : issues) {
        if (issue.code == code && issue.place == place && (file.empty() || issue.file == file)) return true;
    }
    return false;
}

}  // namespace tinwright::test
