// SPDX-License-Identifier: GPL-3.0-or-later
#include "files/output_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <string_view>

namespace tinwright::app {
namespace {

namespace fs = std::filesystem;

Issue failed(const std::string& path, int error) {
    return {"output.write", path, "", std::strerror(error), "a place that can be written to", ""};
}

/// 0, or the errno of what went wrong.
int writeAll(int descriptor, std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(descriptor, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return errno;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return 0;
}

/// The permissions of the file it replaces, or those of any new file.
mode_t modeFor(const fs::path& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) == 0) return status.st_mode & 07777U;
    const mode_t mask = ::umask(0);
    ::umask(mask);
    return 0666U & ~mask;
}

int writeDirectly(const fs::path& path, const std::string& text) {
    const int descriptor = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
    if (descriptor < 0) return errno;
    const int error = writeAll(descriptor, text);
    return ::close(descriptor) != 0 && error == 0 ? errno : error;
}

int writeThenRename(const fs::path& path, const std::string& text) {
    std::string temporary = path.string() + ".part-XXXXXX";
    const int descriptor = ::mkstemp(temporary.data());
    if (descriptor < 0) return errno;
    int error = writeAll(descriptor, text);
    if (error == 0 && ::fchmod(descriptor, modeFor(path)) != 0) error = errno;
    if (::close(descriptor) != 0 && error == 0) error = errno;
    if (error == 0 && std::rename(temporary.c_str(), path.c_str()) != 0) error = errno;
    if (error != 0) ::unlink(temporary.c_str());
    return error;
}

bool isInput(const fs::path& path, const std::vector<std::string>& inputs) {
    std::error_code none;
    return std::any_of(inputs.begin(), inputs.end(),
                       [&](const std::string& input) { return fs::equivalent(path, input, none); });
}

}  // namespace

Issues refuseInput(const std::string& path, const std::vector<std::string>& inputs) {
    if (!isInput(path, inputs)) return {};
    return {{"output.input", path, "", "a file that was read", "a file of its own for the output", ""}};
}

Issues writeFile(const std::string& path, const std::string& text, const std::vector<std::string>& inputs) {
    if (Issues refused = refuseInput(path, inputs); !refused.empty()) return refused;
    // A link keeps pointing where it did: the file behind it is replaced.
    std::error_code error;
    fs::path target = fs::canonical(path, error);
    if (error) target = path;
    const fs::file_status status = fs::status(target, error);
    if (fs::is_directory(status)) return {failed(path, EISDIR)};
    const bool plain = !fs::exists(status) || fs::is_regular_file(status);
    const int code = plain ? writeThenRename(target, text) : writeDirectly(target, text);
    return code == 0 ? Issues{} : Issues{failed(path, code)};
}

Issues writeStandardOutput(const std::string& text) {
    const int code = writeAll(STDOUT_FILENO, text);
    return code == 0 ? Issues{} : Issues{failed("standard output", code)};
}

Issues writeAnswer(const std::optional<std::string>& json_path, const std::vector<std::string>& inputs,
                   const std::function<std::string()>& json, const std::function<std::string()>& text) {
    if (json_path && *json_path == "-") return writeStandardOutput(json());
    if (json_path) {
        Issues issues = writeFile(*json_path, json(), inputs);
        if (!issues.empty()) return issues;
    }
    return writeStandardOutput(text());
}

}  // namespace tinwright::app
