// The short forms of both reports: nothing of each swing, and no page that is blank.
#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>
#include <string>

#include "analysis/report/pdf_report.h"
#include "analysis/report/student_pdf.h"
#include "tests/report/pdf_tools.h"
#include "tests/support/student_sample.h"

using namespace footing;
using namespace footing::test;

namespace {

/// The sample's swings over and over: a long lesson's.
void make_long(std::vector<Swing>& swings, std::size_t count) {
    const std::vector<Swing> few = swings;
    while (swings.size() < count) {
        swings.push_back(few[swings.size() % few.size()]);
        swings.back().index = swings.size();
    }
}

/// Lines of text on each page.
std::vector<std::size_t> lines_by_page(const std::string& pdf) {
    const ScratchFolder folder;
    write_file(folder / "r.pdf", pdf);
    std::istringstream pages(run_program({pdftotext, "-layout", folder / "r.pdf", "-"}).out);
    std::vector<std::size_t> lines;
    for (std::string page; std::getline(pages, page, '\f');) {
        std::istringstream text(page);
        std::size_t count = 0;
        for (std::string line; std::getline(text, line);)
            count += line.find_first_not_of(' ') == std::string::npos ? 0 : 1;
        lines.push_back(count);
    }
    return lines;
}

}  // namespace

TEST_CASE(
    "the short forms are short, and no page of them is blank, whatever the paper and the number of swings") {
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    for (const PaperSize paper : {PaperSize::a4, PaperSize::letter}) {
        for (const std::size_t swings : {7U, 30U, 60U, 100U}) {
            CAPTURE(swings);
            StudentReport report = sample::student();
            make_long(report.measured->swings, swings);
            report.form = ReportForm::brief;
            for (const auto& pdf :
                 {student_pdf(report, paper), pdf_report(*report.measured, paper, ReportForm::brief)}) {
                REQUIRE(pdf.ok());
                const std::vector<std::size_t> lines = lines_by_page(pdf.value());
                REQUIRE_FALSE(lines.empty());
                CHECK(lines.size() <= 4 + swings / 30);
                CHECK(std::ranges::all_of(lines, [](std::size_t count) { return count > 3; }));
            }
        }
    }
}
