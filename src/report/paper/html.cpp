// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/html.h"

#include <fmt/format.h>

#include "paper/drawing.h"
#include "words/text_width.h"

namespace tinwright::report {
namespace {

// Ten points are capitals of 2.5 mm on paper. No card is cut by the end of a page; wide drawings scroll on a phone.
constexpr const char* kStyle =
    "@page{margin:10mm}"
    "*{box-sizing:border-box}"
    "body{font:10.5pt/1.35 Helvetica,Arial,'Liberation Sans','DejaVu "
    "Sans',sans-serif;color:#000;background:#fff;margin:0 auto;"
    "max-width:190mm;padding:4mm 0;overflow-wrap:anywhere;-webkit-text-size-adjust:100%}"
    "h1{font-size:17pt;margin:0 0 1mm}h2{font-size:14pt;margin:6mm 0 2mm;border-bottom:.5mm solid #000}"
    "h3{font-size:12.5pt;margin:0 0 1mm}p{margin:1mm 0}ul,ol{margin:1mm 0;padding-left:6mm}"
    "table{overflow-wrap:break-word;border-collapse:collapse;margin:1.5mm 0;width:100%}th,td{border:.2mm solid "
    "#000;padding:.6mm 1.4mm;text-align:left;"
    "vertical-align:top}th{font-weight:bold}.facts th{width:24mm}.room td{height:8mm}"
    ".card,.keep{break-inside:avoid;page-break-inside:avoid}.card{border:.5mm solid #000;padding:2mm;margin:0 0 4mm}"
    ".pics{display:flex;flex-wrap:wrap;gap:1mm 2mm;justify-content:space-between;align-items:flex-start}"
    ".wide,.scroll{overflow-x:auto}svg{display:block;max-width:100%;height:auto}.wide svg{max-width:none}"
    ".tick{display:inline-block;width:4mm;height:4mm;border:.35mm solid #000;vertical-align:-.6mm;margin-right:2mm}"
    ".big{font-size:13pt;font-weight:bold}.first{background:#eee;padding:1mm 2mm;margin:1mm 0;border-left:1.2mm solid "
    "#000;"
    "display:flex;flex-wrap:wrap;gap:1mm "
    "4mm;align-items:center;print-color-adjust:exact;-webkit-print-color-adjust:exact}"
    ".warn{border-left:1.2mm solid #d55e00;padding-left:2mm}.no{border:.8mm solid #000;padding:1mm 2mm}"
    ".way{flex:1 1 80mm}.beside{flex:1 1 80mm;min-width:80mm}"
    "@media screen{body{padding:4mm;max-width:200mm}}@media screen and "
    "(max-width:600px){.card{padding:1mm;border-width:.3mm}body{padding:2mm}}"
    "@media print{body{padding:0;max-width:none}table{width:calc(100% - "
    ".6mm)}.wide,.scroll{overflow:visible}h2,h3{break-after:avoid}tr{break-inside:avoid}td,th{overflow-wrap:anywhere}."
    "whole td,.whole th{overflow-wrap:break-word}.facts th{overflow-wrap:normal}}";

}  // namespace

std::string wrap(std::string_view tag, std::string_view markup, std::string_view name) {
    return name.empty() ? fmt::format("<{0}>{1}</{0}>\n", tag, markup)
                        : fmt::format("<{0} class=\"{2}\">{1}</{0}>\n", tag, markup, name);
}

std::string element(std::string_view tag, std::string_view text, std::string_view name) {
    return wrap(tag, xmlText(text), name);
}

std::string list(const std::vector<std::string>& sentences, std::string_view tag) {
    std::string items;
    for (const std::string& sentence : sentences) items += element("li", sentence);
    return items.empty() ? items : wrap(tag, items);
}

std::string row(std::string_view heading, const std::vector<std::string>& cells) {
    std::string markup = element("th", heading);
    for (const std::string& cell : cells) markup += element("td", cell);
    return wrap("tr", markup);
}

std::string tickBox() { return "<span class=\"tick\"></span>"; }

std::string unwrapped(std::string_view text) {
    std::string line;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\n';
        if (!blank) line += c;
        if (blank && !line.empty() && line.back() != ' ') line += ' ';
    }
    while (!line.empty() && line.back() == ' ') line.pop_back();
    return line;
}

std::string pageHead(std::string_view title) {
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
        "<meta name=\"viewport\" content=\"width=device-width, "
        "initial-scale=1\"/>\n<title>{}</title>\n<style>{}{}</style>\n</head>\n",
        xmlText(title), kStyle, drawingStyle());
}

}  // namespace tinwright::report
