// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/wrap.h"

#include <algorithm>
#include <vector>

#include <tinwright/report/data/columns.h>

namespace tinwright::report {
namespace {

constexpr std::size_t kLabelColumns = 14;

bool isContinuation(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

/// Length of the UTF-8 sequence that starts at `text[0]`, 0 when it is none.
std::size_t sequenceLength(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text[0]);
    std::size_t length = 0;
    if (lead < 0x80U) {
        length = 1;
    } else if (lead >= 0xC2U && lead < 0xE0U) {
        length = 2;
    } else if (lead >= 0xE0U && lead < 0xF0U) {
        length = 3;
    } else if (lead >= 0xF0U && lead < 0xF5U) {
        length = 4;
    }
    if (length == 0 || length > text.size()) return 0;
    return std::all_of(text.begin() + 1, text.begin() + static_cast<std::ptrdiff_t>(length), isContinuation) ? length
                                                                                                             : 0;
}

bool isControl(std::string_view sequence) {
    const auto first = static_cast<unsigned char>(sequence[0]);
    const bool is_c1 = sequence.size() == 2 && first == 0xC2U && static_cast<unsigned char>(sequence[1]) < 0xA0U;
    return is_c1 || (sequence.size() == 1 && (first < 0x20U || first == 0x7FU));
}

/// Bytes taken by the first `count` characters.
std::size_t bytesOf(std::string_view text, std::size_t count) {
    std::size_t byte = 0;
    while (byte < text.size() && (count > 0 || isContinuation(text[byte]))) {
        if (!isContinuation(text[byte])) --count;
        ++byte;
    }
    return byte;
}

std::vector<std::string_view> wordsOf(std::string_view text) {
    std::vector<std::string_view> words;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        if (end > 0) words.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

}  // namespace

std::string printable(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::size_t length = sequenceLength(text);
        const std::string_view sequence = text.substr(0, std::max<std::size_t>(length, 1));
        if (length == 0 || isControl(sequence)) {
            out += '?';
        } else {
            out += sequence;
        }
        text.remove_prefix(sequence.size());
    }
    return out;
}

std::size_t columns(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return !isContinuation(c); }));
}

std::string wrapped(std::string_view first, std::string_view rest, std::string_view text, std::size_t width) {
    const std::string safe = printable(text);
    std::string out;
    std::string line(first);
    bool fresh = true;
    const auto breakLine = [&] {
        out += line + "\n";
        line = rest;
        fresh = true;
    };
    for (std::string_view word : wordsOf(safe)) {
        if (!fresh && columns(line) + 1 + columns(word) > width) breakLine();
        if (!fresh) line += ' ';
        while (columns(line) + columns(word) > width) {
            const std::size_t cut = bytesOf(word, width - columns(line));
            line += word.substr(0, cut);
            word.remove_prefix(cut);
            breakLine();
        }
        line += word;
        fresh = word.empty();
    }
    while (!line.empty() && line.back() == ' ') line.pop_back();
    return out + line + "\n";
}

std::string labelled(std::string_view label, std::string_view text) {
    std::string first = "  " + std::string(label);
    first.resize(std::max(first.size() + 1, kLabelColumns), ' ');
    return wrapped(first, std::string(kLabelColumns, ' '), text, kReportColumns);
}

std::string bullet(std::string_view text) { return wrapped("  - ", "    ", text, kReportColumns); }

std::string heading(std::string_view text, char rule) {
    const std::string lines = wrapped("", "", text, kReportColumns);
    return lines + std::string(std::min(columns(lines) - 1, kReportColumns), rule) + "\n";
}

}  // namespace tinwright::report
