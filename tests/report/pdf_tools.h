#pragma once

#include <regex>
#include <string>
#include <vector>

#include "tests/support/child_process.h"

/// Poppler's and qpdf's programs, for looks into a PDF from outside.
namespace footing::test {

inline constexpr const char* qpdf = "/usr/bin/qpdf";
inline constexpr const char* pdffonts = "/usr/bin/pdffonts";
inline constexpr const char* pdftotext = "/usr/bin/pdftotext";
inline constexpr const char* pdfinfo = "/usr/bin/pdfinfo";

inline bool have(const char* program) {
    const int code = run_program({program, "--version"}).exit_code;
    return code != 126 && code != 127;
}

/// The text of a PDF, with plain spaces for those that do not break.
inline std::string text_of(const std::string& path) {
    std::string text = run_program({pdftotext, "-layout", path, "-"}).out;
    const std::string no_break = "\xC2\xA0";
    for (std::size_t at = text.find(no_break); at != std::string::npos; at = text.find(no_break)) {
        text.replace(at, no_break.size(), " ");
    }
    return text;
}

/// How many fonts a PDF has; -1 where one of them is not embedded and cut down to what is used.
inline int embedded_fonts(const std::string& path) {
    const std::string fonts = run_program({pdffonts, path}).out;
    const std::regex row("(yes|no) +(yes|no) +(yes|no) +[0-9]+ +[0-9]+");
    int rows = 0;
    for (auto it = std::sregex_iterator(fonts.begin(), fonts.end(), row); it != std::sregex_iterator();
         ++it, ++rows) {
        if ((*it)[1] != "yes" || (*it)[2] != "yes") return -1;
    }
    return rows;
}

/// A word on a page, points from the top left.
struct PageWord {
    int page = 0;
    double left = 0.0;
    double top = 0.0;
    double right = 0.0;
    double bottom = 0.0;
    std::string text;
};

inline std::vector<PageWord> words_of(const std::string& path) {
    const std::string boxes = run_program({pdftotext, "-bbox", path, "-"}).out;
    const std::regex line(
        "<page |<word xMin=\"([-.0-9]+)\" yMin=\"([-.0-9]+)\" xMax=\"([-.0-9]+)\" "
        "yMax=\"([-.0-9]+)\">([^<]*)<");
    std::vector<PageWord> words;
    int page = 0;
    for (auto it = std::sregex_iterator(boxes.begin(), boxes.end(), line); it != std::sregex_iterator();
         ++it) {
        if (!(*it)[1].matched) {
            ++page;
            continue;
        }
        words.push_back({page, std::stod((*it)[1]), std::stod((*it)[2]), std::stod((*it)[3]),
                         std::stod((*it)[4]), (*it)[5].str()});
    }
    return words;
}

}  // namespace footing::test
