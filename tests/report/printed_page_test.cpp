// A page that is printed from a browser: nothing of a table is cut off at the right.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>

#include "analysis/report/html_report.h"
#include "analysis/report/student_html.h"
#include "tests/report/pdf_tools.h"
#include "tests/support/student_sample.h"

using namespace footing;
using namespace footing::test;

TEST_CASE("the table of swings is printed whole on US letter and on A4") {
    constexpr const char* chromium = "/usr/bin/chromium";
    if (!std::filesystem::exists(chromium) || !have(pdftotext)) {
        MESSAGE("skipped: chromium or pdftotext is not here");
        return;
    }
    const ScratchFolder folder;
    LessonResult lesson = sample::lesson();
    for (Swing& swing : lesson.swings) {
        for (const NamedShare& named : named_shares) {
            if (auto& share = swing.lead_share.*named.member) share->u = 0.003;  // decimals: the widest cells
        }
    }
    for (const std::string paper : {"letter", "A4"}) {
        CAPTURE(paper);
        std::string page = html_report(lesson, ReportForm::full);
        page.replace(page.find("<style>"), 7, "<style>@page { size: " + paper + "; }");
        write_file(folder / "r.html", page);
        const auto printed =
            run_program({chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                         "--no-pdf-header-footer", "--user-data-dir=" + (folder / "profile"),
                         "--print-to-pdf=" + (folder / "r.pdf"), "file://" + (folder / "r.html")});
        if (printed.exit_code != 0 || !std::filesystem::exists(folder / "r.pdf")) {
            MESSAGE("skipped: chromium does not start here");
            return;
        }
        // 8.5 inches and 210 mm, in points.
        const double width = paper == "letter" ? 612.0 : 595.3;
        constexpr double margin = 28.8;  // Chromium's own, 0.4 inch
        std::size_t last_columns = 0;
        for (const PageWord& word : words_of(folder / "r.pdf")) {
            CAPTURE(word.text);
            CHECK(word.right < width - margin + 3.0);
            last_columns += word.text == "Tempo" ? 1 : 0;
        }
        CHECK(last_columns >= 1);
    }
}
