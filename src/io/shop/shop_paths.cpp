// SPDX-License-Identifier: GPL-3.0-or-later
// Where the references of a shop file may lead. A shop file that came by mail must not make the program read what lies
// elsewhere on the disk, so the resolved target (links followed) has to lie in the shop file's folder or in a known
// tooling folder.
#include <tinwright/io/json/json_reading.h>

#include <algorithm>

#include "shop/shop_files.h"

namespace tinwright {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view kToolingPrefix = "tooling:";

Issue refuse(const std::string& found, std::string expected, std::string hint = {}) {
    return Issue{"", "", "", found, std::move(expected), std::move(hint)};
}

bool liesIn(const fs::path& target, const fs::path& folder) {
    return std::mismatch(folder.begin(), folder.end(), target.begin(), target.end()).first == folder.end();
}

// Absolute, links followed; empty when that cannot be told.
fs::path resolved(const fs::path& path) {
    std::error_code error;
    fs::path real = fs::weakly_canonical(fs::absolute(path, error), error);
    return error ? fs::path{} : real;
}

class DiskReferences {
public:
    DiskReferences(const std::string& shop_path, const ShopReadOptions& options) {
        folders_.push_back(resolved(fs::path(shop_path)).parent_path());
        for (const fs::path& folder : options.tooling_directories) {
            if (const fs::path real = resolved(folder); !real.empty()) tooling_.push_back(real);
        }
        folders_.insert(folders_.end(), tooling_.begin(), tooling_.end());
    }

    Result<ReferencedFile> operator()(const ReferringFile& from, const std::string& reference) const {
        if (reference.compare(0, kToolingPrefix.size(), kToolingPrefix) == 0) {
            return fromTooling(reference, reference.substr(kToolingPrefix.size()));
        }
        const fs::path relative(reference);
        if (relative.is_absolute()) return refuse(quoted(reference), "a path relative to the file it stands in");
        const std::string name = (fs::path(from.name).parent_path() / relative).lexically_normal().string();
        return read(fs::path(from.key).parent_path() / relative, name, reference);
    }

private:
    static std::string quoted(const std::string& text) { return "text \"" + text + "\""; }

    Result<ReferencedFile> fromTooling(const std::string& reference, const std::string& name) const {
        if (fs::path(name).has_parent_path() || name.empty()) {
            return refuse(quoted(reference), "\"tooling:\" and the bare name of a file in the tooling folder");
        }
        std::error_code error;
        for (const fs::path& folder : tooling_) {
            if (fs::exists(folder / name, error)) return read(folder / name, reference, reference);
        }
        return refuse(quoted(reference), "the name of a file in a tooling folder that this program knows");
    }

    Result<ReferencedFile> read(const fs::path& path, std::string name, const std::string& reference) const {
        const fs::path target = resolved(path);
        const bool allowed = std::any_of(folders_.begin(), folders_.end(), [&](const fs::path& folder) {
            return !folder.empty() && liesIn(target, folder);
        });
        if (target.empty() || !allowed) {
            return refuse(quoted(reference),
                          "a file in the shop file's folder or in a tooling folder that this program knows",
                          "\"tooling:NAME.json\" names generic tooling");
        }
        std::error_code error;
        if (!fs::is_regular_file(target, error)) return refuse(quoted(reference), "the path of a file that is there");
        Result<std::string> text = readTextFile(target.string());
        if (!text) return Issues(text.issues());
        return ReferencedFile{std::move(name), target.string(), std::move(text).value()};
    }

    std::vector<fs::path> tooling_;
    std::vector<fs::path> folders_;
};

}  // namespace

OpenReference openOnDisk(const std::string& shop_path, const ShopReadOptions& options) {
    return DiskReferences(shop_path, options);
}

std::string keyOnDisk(const std::string& path) { return resolved(path).string(); }

std::vector<fs::path> knownToolingDirectories() {
    std::vector<fs::path> folders;
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    const fs::path beside_program =
        error ? fs::path{} : (program.parent_path() / TINWRIGHT_TOOLING_FROM_PROGRAM).lexically_normal();
    for (const fs::path& folder :
         {beside_program, fs::path(TINWRIGHT_SOURCE_TOOLING), fs::path(TINWRIGHT_INSTALLED_TOOLING)}) {
        const bool known = std::find(folders.begin(), folders.end(), folder) != folders.end();
        if (!known && fs::is_directory(folder, error)) folders.push_back(folder);
    }
    return folders;
}

}  // namespace tinwright
