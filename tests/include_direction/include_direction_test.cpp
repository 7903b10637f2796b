// SPDX-License-Identifier: GPL-3.0-or-later
// Each floor includes only floors below it, and each room of a floor only the rooms that the table gives it; no
// circles. Checked on the text of every header and source, since all headers lie in one include folder and a compiler
// would find any of them.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
using Names = std::vector<std::string>;
using Table = std::map<std::string, Names>;

/// What a floor may include, besides itself.
const Table& allowedFloors() {
    static const Table kAllowed{
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

/// The rooms of each floor and what each may include, besides itself. A floor that is not listed is one room.
const std::map<std::string, Table>& allowedRooms() {
    static const std::map<std::string, Table> kAllowed{
        {"part",
         {{"model", {}},
          {"allowance", {"model"}},
          {"recipe", {"allowance"}},
          {"developing", {"model", "recipe"}},
          {"edges", {"allowance", "developing", "model"}},
          {"flat", {"edges", "model"}},
          {"made", {"allowance", "edges", "flat", "model"}}}},
        {"brake", {{"shop", {}}, {"machines", {"shop"}}, {"plan", {"machines", "shop"}}, {"tooling", {"machines"}}}},
        {"forming",
         {{"rules", {}},
          {"checks", {"rules"}},
          {"cutting", {"rules"}},
          {"measures", {"checks", "metal", "rules"}},
          {"metal", {"rules"}},
          {"leaf_checks", {"checks", "measures", "metal", "rules"}},
          {"webs", {"checks", "measures", "metal", "rules"}},
          {"part_checks", {"checks", "measures", "metal", "rules", "webs"}},
          {"press_checks", {"checks", "measures", "metal", "rules", "webs"}}}},
        {"fold",
         {{"kernel", {}},
          {"machine", {"kernel"}},
          {"bodies", {"kernel", "machine"}},
          {"setup", {}},
          {"exits", {"kernel", "machine", "setup"}},
          {"contact", {"bodies", "exits", "kernel", "machine", "setup"}},
          {"stations", {"contact", "setup"}},
          {"hems", {"contact", "exits", "machine", "setup", "stations"}},
          {"tolerances", {"bodies", "contact", "exits", "kernel"}},
          {"gauging", {"contact", "exits", "setup", "tolerances"}},
          {"placing", {"contact", "exits", "hems", "setup", "stations", "tolerances"}},
          {"engine", {"contact", "exits", "gauging", "placing", "setup"}}}},
        {"sequence",
         {{"states", {}},
          {"reach", {"states"}},
          {"search", {"reach", "states"}},
          {"proofs", {"reach", "search", "states"}},
          {"shop", {"states"}},
          {"plan", {"proofs", "search", "shop", "states"}},
          {"remedies", {"plan"}}}},
        {"verify",
         {{"solids", {}},
          {"machine", {"solids"}},
          {"strokes", {"machine", "solids"}},
          {"closing", {"machine", "solids", "strokes"}},
          {"replay", {"closing", "solids", "strokes"}}}},
        {"io",
         {{"entities", {}},
          {"json", {}},
          {"recipe", {"json"}},
          {"dxf", {"entities", "json", "recipe"}},
          {"blank", {"dxf"}},
          {"shop", {"json"}},
          {"start", {"recipe"}}}},
        {"report",
         {{"data", {}},
          {"scene", {}},
          {"words", {"data"}},
          {"gltf", {"data", "scene", "words"}},
          {"kinds", {"data", "words"}},
          {"paper", {"words"}},
          {"drawings", {"kinds", "paper", "scene", "words"}},
          {"fold_drawings", {"data", "drawings", "kinds", "paper", "scene", "words"}},
          {"remedies", {"data", "kinds", "words"}},
          {"sentences", {"data", "kinds", "remedies", "words"}},
          {"document", {"data", "kinds", "remedies", "sentences", "words"}},
          {"sheet", {"data", "document", "drawings", "fold_drawings", "kinds", "paper", "scene", "sentences", "words"}},
          {"text", {"data", "document", "kinds", "remedies", "sentences", "words"}},
          {"json", {"data", "document", "kinds", "remedies", "sentences", "text", "words"}}}},
        {"app",
         {{"console", {}},
          {"options", {"console"}},
          {"files", {"console", "options"}},
          {"work", {"console", "files", "options"}},
          {"commands", {"console", "files", "options", "work"}}}}};
    return kAllowed;
}

bool contains(const Names& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

/// Names that are reached from a name of a table by one or more steps.
Names reached(const Table& table, const std::string& from) {
    Names all;
    Names open{from};
    while (!open.empty()) {
        const auto found = table.find(open.back());
        open.pop_back();
        if (found == table.end()) continue;
        for (const std::string& next : found->second) {
            if (contains(all, next)) continue;
            all.push_back(next);
            open.push_back(next);
        }
    }
    return all;
}

/// Where a file lies: its floor, and its room or "" when it lies in none.
struct Place {
    std::string floor;
    std::string room;
};

/// From a path within the folder of all floors.
Place placeOf(const fs::path& within) {
    std::vector<std::string> parts;
    for (const fs::path& part : within) parts.push_back(part.string());
    return {parts.empty() ? "" : parts.front(), parts.size() > 2 ? parts[1] : ""};
}

/// What is wrong with including from one place what lies in another; empty when nothing is.
std::string wrongWith(const Place& from, const Place& to) {
    if (from.floor != to.floor) {
        const auto found = allowedFloors().find(from.floor);
        if (found != allowedFloors().end() && contains(found->second, to.floor)) return {};
        return "floor " + from.floor + " includes floor " + to.floor;
    }
    if (from.room == to.room) return {};
    const auto floor = allowedRooms().find(from.floor);
    if (floor != allowedRooms().end()) {
        const auto room = floor->second.find(from.room);
        if (room != floor->second.end() && contains(room->second, to.room)) return {};
    }
    return "room " + from.floor + "/" + from.room + " includes room " + to.floor + "/" + to.room;
}

/// What is wrong with one file, a sentence each. `floors`: the folder of all floors.
void checkFile(const fs::path& file, const fs::path& floors, Names& wrong) {
    static const std::regex kInclude(R"(^\s*#\s*include\s*([<"])([^>"]+)[>"])");
    const Place here = placeOf(fs::relative(file, floors));
    std::ifstream in(file);
    for (std::string line; std::getline(in, line);) {
        std::smatch match;
        if (!std::regex_search(line, match, kInclude)) continue;
        const std::string target = match[2];
        if (target.starts_with("tinwright/")) {
            const std::string why = wrongWith(here, placeOf(fs::path(target).lexically_relative("tinwright")));
            if (!why.empty()) wrong.push_back(file.string() + ": " + why);
        } else if (match[1] == "\"") {  // private headers are told from the floor's own folder
            if (!fs::exists(floors / here.floor / target) || target.find("..") != std::string::npos) {
                wrong.push_back(file.string() + ": \"" + target + "\" is not in its own floor");
                continue;
            }
            const std::string why = wrongWith(here, placeOf(fs::path(here.floor) / target));
            if (!why.empty()) wrong.push_back(file.string() + ": " + why);
        }
    }
}

struct Checked {
    std::size_t files = 0;
    Names wrong;
};

/// Rooms are told apart in floors that have some.
void checkPlace(const fs::path& file, const fs::path& floors, Names& wrong) {
    const Place here = placeOf(fs::relative(file, floors));
    const auto floor = allowedRooms().find(here.floor);
    const bool known = floor == allowedRooms().end() ? here.room.empty() : floor->second.contains(here.room);
    if (!known) wrong.push_back(file.string() + ": no such room");
}

Checked checkFloors(const fs::path& floors) {
    Checked checked;
    for (const fs::directory_entry& floor : fs::directory_iterator(floors)) {
        const std::string name = floor.path().filename().string();
        if (!floor.is_directory() || name == "cmake") continue;
        if (!allowedFloors().contains(name)) checked.wrong.push_back(floor.path().string() + ": no such floor");
        for (const fs::directory_entry& file : fs::recursive_directory_iterator(floor)) {
            const fs::path extension = file.path().extension();
            if (extension != ".h" && extension != ".cpp") continue;
            checkPlace(file.path(), floors, checked.wrong);
            checkFile(file.path(), floors, checked.wrong);
            ++checked.files;
        }
    }
    return checked;
}

/// Names of the files of a folder, without their endings.
void addFiles(const fs::path& folder, std::set<std::string>& names) {
    if (!fs::exists(folder)) return;
    for (const fs::directory_entry& file : fs::directory_iterator(folder)) {
        const fs::path extension = file.path().extension();
        if (extension == ".h" || extension == ".cpp") names.insert(file.path().stem().string());
    }
}

/// What is wrong with the note at a room's door; empty when nothing is.
std::string wrongWithNote(const std::string& note, std::set<std::string> files, const Names& seen) {
    std::string rooms;
    for (const std::string& room : seen) rooms += (rooms.empty() ? "" : ", ") + room;
    const std::string line = "\nSees of this floor: " + (rooms.empty() ? "no other room" : rooms) + ".\n";
    std::string wrong = note.find(line) == std::string::npos ? "it does not say" + line : "";
    static const std::regex kRow(R"(\n\| `(\w+)` \|)");
    for (std::sregex_iterator row(note.begin(), note.end(), kRow), end; row != end; ++row) {
        if (files.erase((*row)[1]) == 0) wrong += "there is no " + (*row)[1].str() + "\n";
    }
    for (const std::string& file : files) wrong += "it lacks " + file + "\n";
    return wrong;
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

TEST_CASE("every floor includes only floors below it, every room only those it may see") {
    for (const char* folder : {"/src", "/include/tinwright"}) {
        const Checked checked = checkFloors(TINWRIGHT_SOURCE_DIR + std::string(folder));
        CHECK(checked.files > 10);
        std::string all;
        for (const std::string& sentence : checked.wrong) all += sentence + "\n";
        CHECK(all == "");
    }
}

TEST_CASE("rooms do not include one another in a circle") {
    for (const auto& [floor, rooms] : allowedRooms()) {
        for (const auto& [room, seen] : rooms) {
            INFO(floor << "/" << room);
            CHECK_FALSE(contains(reached(rooms, room), room));
            for (const std::string& other : seen) CHECK(rooms.contains(other));
        }
    }
    CHECK(contains(reached({{"a", {"b"}}, {"b", {"c"}}, {"c", {"a"}}}, "a"), "a"));
}

TEST_CASE("rooms hold no more than a person can look over") {
    std::map<fs::path, std::size_t> files;
    for (const fs::directory_entry& file : fs::recursive_directory_iterator(TINWRIGHT_SOURCE_DIR "/src")) {
        const fs::path extension = file.path().extension();
        if (extension == ".h" || extension == ".cpp") ++files[file.path().parent_path()];
    }
    for (const auto& [room, count] : files) {
        INFO(room);
        CHECK(count <= 30);
    }
}

TEST_CASE("the check finds what it is there to find") {
    const ScratchFolder scratch;
    scratch.write("part/model/part.h", "");
    scratch.write("part/model/a.cpp",
                  "#include <tinwright/part/model/part.h>\n#include <vector>\n#include \"model/part.h\"\n");
    CHECK(checkFloors(scratch.path()).wrong.empty());

    SECTION("a floor that looks up") {
        scratch.write("part/model/b.cpp", "#  include <tinwright/brake/plan/plan.h>\n");
    }
    SECTION("floors side by side") {
        scratch.write("verify/strokes/b.h", "#include <tinwright/fold/engine/fold_engine.h>\n");
    }
    SECTION("a room that looks up") { scratch.write("part/model/b.cpp", "#include <tinwright/part/flat/stretch.h>\n"); }
    SECTION("a private header of another floor") {
        scratch.write("fold/kernel/inside.h", "");
        scratch.write("verify/strokes/b.cpp", "#include \"../fold/kernel/inside.h\"\n");
    }
    SECTION("a private header of a room above") {
        scratch.write("part/flat/inside.h", "");
        scratch.write("part/model/b.cpp", "#include \"flat/inside.h\"\n");
    }
    SECTION("a floor that the table does not know") { scratch.write("attic/b.cpp", ""); }
    SECTION("a room that the table does not know") { scratch.write("part/attic/b.cpp", ""); }
    CHECK(checkFloors(scratch.path()).wrong.size() == 1);
}

TEST_CASE("the note at a room's door tells its files and the rooms that it sees") {
    for (const auto& [floor, rooms] : allowedRooms()) {
        for (const auto& [room, seen] : rooms) {
            const fs::path inside = fs::path(floor) / room;
            const fs::path source = fs::path(TINWRIGHT_SOURCE_DIR) / "src" / inside;
            std::set<std::string> files;
            addFiles(source, files);
            addFiles(fs::path(TINWRIGHT_SOURCE_DIR) / "include/tinwright" / inside, files);
            std::stringstream note;
            note << std::ifstream(source / "NOTES.md").rdbuf();
            INFO(inside);
            CHECK(wrongWithNote(note.str(), files, seen) == "");
        }
    }
    const std::string note = "# a room\n\nSees of this floor: b, c.\n\n| file | what |\n|---|---|\n| `one` | first |\n";
    CHECK(wrongWithNote(note, {"one"}, {"b", "c"}) == "");
    CHECK(wrongWithNote(note, {"one", "two"}, {"b", "c"}) == "it lacks two\n");
    CHECK(wrongWithNote(note, {}, {"b", "c"}) == "there is no one\n");
    CHECK(wrongWithNote(note, {"one"}, {}) == "it does not say\nSees of this floor: no other room.\n");
}
