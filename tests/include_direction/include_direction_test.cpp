// SPDX-License-Identifier: GPL-3.0-or-later
// Each floor includes only floors below it. Checked on the text of every header and source, since all headers lie in
// one include folder and a compiler would find any of them.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <regex>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
using Floors = std::vector<std::string>;

/// What a floor may include, besides itself.
const std::map<std::string, Floors>& allowed() {
    static const std::map<std::string, Floors> kAllowed{
        {"base", {}},
        {"geometry", {"base"}},
        {"part", {"base", "geometry"}},
        {"brake", {"base", "geometry", "part"}},
        {"forming", {"base", "geometry", "part", "brake"}},
        {"fold", {"base", "geometry", "part", "brake", "forming"}},
        {"sequence", {"base", "geometry", "part", "brake", "forming", "fold"}},
        {"verify", {"base", "geometry", "part", "brake"}},
        {"io", {"base", "geometry", "part", "brake", "forming"}},
        {"report", {"base", "geometry", "part", "brake", "forming", "fold", "sequence", "verify"}},
        {"app", {"base", "geometry", "part", "brake", "forming", "fold", "sequence", "verify", "io", "report"}}};
    return kAllowed;
}

bool mayInclude(const std::string& floor, const std::string& other) {
    if (floor == other) return true;
    const auto found = allowed().find(floor);
    return found != allowed().end() &&
           std::find(found->second.begin(), found->second.end(), other) != found->second.end();
}

/// What is wrong with one file of a floor, a sentence each.
void checkFile(const fs::path& file, const std::string& floor, std::vector<std::string>& wrong) {
    static const std::regex kInclude(R"(^\s*#\s*include\s*([<"])([^>"]+)[>"])");
    std::ifstream in(file);
    for (std::string line; std::getline(in, line);) {
        std::smatch match;
        if (!std::regex_search(line, match, kInclude)) continue;
        const std::string target = match[2];
        const bool is_ours = target.starts_with("tinwright/");
        if (is_ours) {
            const std::string other = fs::path(target).parent_path().filename().string();
            if (!mayInclude(floor, other))
                wrong.push_back(file.string() + ": floor " + floor + " includes floor " + other);
        } else if (match[1] == "\"" && !fs::exists(file.parent_path() / fs::path(target).filename())) {
            wrong.push_back(file.string() + ": \"" + target + "\" is not in its own folder");
        } else if (match[1] == "\"" && fs::path(target).has_parent_path()) {
            wrong.push_back(file.string() + ": \"" + target + "\" reaches into another folder");
        }
    }
}

struct Checked {
    std::size_t files = 0;
    std::vector<std::string> wrong;
};

Checked checkFloors(const fs::path& floors) {
    Checked checked;
    for (const fs::directory_entry& floor : fs::directory_iterator(floors)) {
        const std::string name = floor.path().filename().string();
        if (!floor.is_directory() || name == "cmake") continue;
        if (!allowed().contains(name)) checked.wrong.push_back(floor.path().string() + ": no such floor");
        for (const fs::directory_entry& file : fs::recursive_directory_iterator(floor)) {
            const fs::path extension = file.path().extension();
            if (extension != ".h" && extension != ".cpp") continue;
            checkFile(file.path(), name, checked.wrong);
            ++checked.files;
        }
    }
    return checked;
}

/// A folder that is gone after the test.
class ScratchFolder {
public:
    ScratchFolder()
        : path_(fs::temp_directory_path() / ("tinwright-floors-" + std::to_string(std::random_device{}()))) {}
    ~ScratchFolder() { fs::remove_all(path_); }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    void write(const std::string& name, const std::string& text) const {
        fs::create_directories((path_ / name).parent_path());
        std::ofstream(path_ / name) << text;
    }
    [[nodiscard]] const fs::path& path() const { return path_; }

private:
    fs::path path_;
};

}  // namespace

TEST_CASE("every floor includes only floors below it") {
    for (const char* folder : {"/src", "/include/tinwright"}) {
        const Checked checked = checkFloors(TINWRIGHT_SOURCE_DIR + std::string(folder));
        CHECK(checked.files > 10);
        std::string all;
        for (const std::string& sentence : checked.wrong) all += sentence + "\n";
        CHECK(all == "");
    }
}

TEST_CASE("the check finds what it is there to find") {
    const ScratchFolder scratch;
    scratch.write("part/a.cpp", "#include <tinwright/part/model/part.h>\n#include <vector>\n");
    CHECK(checkFloors(scratch.path()).wrong.empty());

    SECTION("a floor that looks up") {
        scratch.write("part/b.cpp", "#  include <tinwright/brake/plan/plan.h>\n");
        CHECK(checkFloors(scratch.path()).wrong.size() == 1);
    }
    SECTION("floors side by side") {
        scratch.write("verify/b.h", "#include <tinwright/fold/fold.h>\n");
        CHECK(checkFloors(scratch.path()).wrong.size() == 1);
    }
    SECTION("a private header of another floor") {
        scratch.write("fold/inside.h", "");
        scratch.write("verify/b.cpp", "#include \"../fold/inside.h\"\n");
        CHECK(checkFloors(scratch.path()).wrong.size() == 1);
    }
    SECTION("a floor that the table does not know") {
        scratch.write("attic/b.cpp", "");
        CHECK(checkFloors(scratch.path()).wrong.size() == 1);
    }
}
