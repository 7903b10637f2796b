// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/text_width.h"

#include <array>

#include "words/wrap.h"

namespace tinwright::report {
namespace {

// Thousandths of the font size, from ' ' to '~'.
constexpr std::array<int, 95> kAdvance{
    318,  401, 460, 838, 637, 951, 780, 275, 391, 391, 500, 838, 318, 361, 318, 337,  //
    637,  637, 637, 637, 637, 637, 637, 637, 637, 637, 337, 337, 838, 838, 838, 557,  //
    1016, 685, 687, 723, 771, 667, 611, 778, 752, 295, 500, 667, 558, 863, 749, 788,  //
    667,  788, 723, 667, 611, 732, 685, 989, 686, 667, 686, 391, 337, 391, 838, 557,  //
    500,  613, 635, 550, 635, 616, 353, 635, 634, 278, 278, 580, 278, 975, 634, 612,  //
    635,  635, 412, 521, 393, 634, 592, 818, 592, 592, 525, 637, 337, 637, 838};
constexpr int kOther = 1016;  // any other character: as wide as the widest of these

bool startsCharacter(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }

int advance(char byte) {
    if (!startsCharacter(byte)) return 0;
    const auto code = static_cast<unsigned char>(byte);
    return code >= ' ' && code <= '~' ? kAdvance[code - std::size_t{' '}] : kOther;
}

}  // namespace

double textWidth_mm(std::string_view text, double letter_mm) {
    int sum = 0;
    for (const char byte : text) sum += advance(byte);
    return sum * letter_mm / 1000.0;
}

std::string fitted(std::string_view text, double width_mm, double letter_mm) {
    if (textWidth_mm(text, letter_mm) <= width_mm) return std::string(text);
    const double room_mm = width_mm - textWidth_mm("…", letter_mm);
    std::size_t end = 0;
    double used_mm = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (startsCharacter(text[i])) end = i;
        used_mm += advance(text[i]) * letter_mm / 1000.0;
        if (used_mm > room_mm) break;
    }
    return std::string(text.substr(0, end)) + "…";
}

std::string xmlText(std::string_view text) {
    std::string safe;
    for (const char c : printable(text)) {
        switch (c) {
            case '&': safe += "&amp;"; break;
            case '<': safe += "&lt;"; break;
            case '>': safe += "&gt;"; break;
            case '"': safe += "&quot;"; break;
            case '\'': safe += "&#39;"; break;
            default: safe += c;
        }
    }
    return safe;
}

}  // namespace tinwright::report
