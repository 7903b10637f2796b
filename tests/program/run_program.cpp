// SPDX-License-Identifier: GPL-3.0-or-later
#include "run_program.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace tinwright::program_test {
namespace {

namespace fs = std::filesystem;

void redirect(int descriptor, const std::string& path, int flags) {
    const int file = ::open(path.c_str(), flags, 0600);
    if (file < 0 || ::dup2(file, descriptor) < 0) ::_exit(126);
}

[[noreturn]] void becomeProgram(const std::vector<std::string>& arguments, const std::string& out,
                                const std::string& err) {
    redirect(STDIN_FILENO, "/dev/null", O_RDONLY);
    redirect(STDOUT_FILENO, out, O_WRONLY | O_CREAT | O_TRUNC);
    redirect(STDERR_FILENO, err, O_WRONLY | O_CREAT | O_TRUNC);
    ::alarm(60);
    std::vector<char*> argv;
    std::string program = TINWRIGHT_PROGRAM;
    argv.push_back(program.data());
    std::vector<std::string> own(arguments);
    for (std::string& argument : own) argv.push_back(argument.data());
    argv.push_back(nullptr);
    ::execv(program.c_str(), argv.data());
    ::_exit(127);
}

}  // namespace

Outcome runProgram(const std::vector<std::string>& arguments) {
    const ScratchFolder scratch;
    const std::string out = scratch.file("out");
    const std::string err = scratch.file("err");
    const pid_t child = ::fork();
    if (child < 0) throw std::runtime_error("no process for the program");
    if (child == 0) becomeProgram(arguments, out, err);
    int status = 0;
    if (::waitpid(child, &status, 0) != child) throw std::runtime_error("the program was lost");
    const int code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    return {code, contents(out), contents(err)};
}

ScratchFolder::ScratchFolder() {
    std::string name = (fs::temp_directory_path() / "tinwright-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no scratch folder");
    path_ = name;
}

ScratchFolder::~ScratchFolder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
}

std::string ScratchFolder::with(const std::string& name, const std::string& bytes) const {
    std::ofstream(file(name), std::ios::binary) << bytes;
    return file(name);
}

std::size_t ScratchFolder::entries() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(path_), fs::directory_iterator()));
}

std::string projectFile(const std::string& name) { return TINWRIGHT_SOURCE_DIR "/" + name; }
std::string dataFile(const std::string& name) { return projectFile("tests/program/data/" + name); }

std::string contents(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::size_t longestLine(const std::string& text) {
    std::size_t longest = 0;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        const auto is_character = [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; };
        longest = std::max(longest, static_cast<std::size_t>(std::count_if(line.begin(), line.end(), is_character)));
    }
    return longest;
}

}  // namespace tinwright::program_test
