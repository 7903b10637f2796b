// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace tinwright::program_test {

/// What a run of the program gave back.
struct Outcome {
    int code = -1;  ///< exit code; 128 + number when a signal ended it
    std::string out;
    std::string err;
};

/// Runs the program that was built, with these arguments, standard input closed, no terminal. Stopped after a minute.
[[nodiscard]] Outcome runProgram(const std::vector<std::string>& arguments);

/// A folder of its own for one test, gone after it.
class ScratchFolder {
public:
    ScratchFolder();
    ~ScratchFolder();
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    [[nodiscard]] std::string file(const std::string& name) const { return (path_ / name).string(); }
    [[nodiscard]] std::string with(const std::string& name, const std::string& bytes) const;
    [[nodiscard]] std::size_t entries() const;

private:
    std::filesystem::path path_;
};

/// A file of tests/program/data, or of the project.
[[nodiscard]] std::string dataFile(const std::string& name);
[[nodiscard]] std::string projectFile(const std::string& name);
[[nodiscard]] std::string contents(const std::string& path);

[[nodiscard]] bool has(const std::string& text, const std::string& part);
/// Characters of the longest line (UTF-8).
[[nodiscard]] std::size_t longestLine(const std::string& text);

}  // namespace tinwright::program_test
