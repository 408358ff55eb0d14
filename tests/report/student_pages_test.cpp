// The student's report on paper: its bytes, fonts, margins and breaks, and that its pictures keep within
// their frame.
#include <doctest/doctest.h>

#include <fmt/format.h>

#include <cmath>
#include <map>

#include "analysis/progress/change_words.h"
#include "analysis/report/figure_kit.h"
#include "analysis/report/student_figures.h"
#include "tests/report/figure_shapes.h"
#include "tests/report/student_papers.h"

using namespace footing;
using namespace footing::test;

TEST_CASE("the same report gives the same bytes, and says title, language and paper") {
    const std::string once = pdf_of(sample::student());
    CHECK(once == pdf_of(sample::student()));
    CHECK(has(once, "/Lang (en)"));
    CHECK(has(once, "/DisplayDocTitle true"));
    if (!have(pdfinfo)) {
        MESSAGE("skipped: pdfinfo is not here");
        return;
    }
    const ScratchFolder folder;
    write_file(folder / "a4.pdf", once);
    write_file(folder / "letter.pdf", pdf_of(sample::student(), PaperSize::letter));
    const std::string a4 = run_program({pdfinfo, folder / "a4.pdf"}).out;
    CHECK(has(a4, "Report for Sample Student"));
    CHECK(has(a4, "(A4)"));
    CHECK(has(run_program({pdfinfo, folder / "letter.pdf"}).out, "612 x 792 pts (letter)"));
}

TEST_CASE("every student's PDF is sound, carries its fonts, keeps its margins and wastes no page") {
    if (!have(qpdf) || !have(pdffonts) || !have(pdftotext)) {
        MESSAGE("skipped: qpdf, pdffonts or pdftotext is not here");
        return;
    }
    const ScratchFolder folder;
    const std::string path = folder / "report.pdf";
    for (const StudentReport& report : students()) {
        for (const PaperSize size : {PaperSize::a4, PaperSize::letter}) {
            write_file(path, pdf_of(report, size));
            const auto check = run_program({qpdf, "--check", path});
            CAPTURE(check.err);
            CHECK(check.exit_code == 0);
            CHECK(embedded_fonts(path) >= 1);
            // 48 px of 1/96 inch on every side, in points; a point or two for what a glyph's box has beside
            // its ink.
            const Paper paper = sheet_of(size, 48.0);
            std::map<int, int> words_of_page;
            for (const PageWord& word : words_of(path)) {
                CAPTURE(word.text);
                CAPTURE(word.page);
                CHECK(word.left >= 36.0 - 1.0);
                CHECK(word.right <= 0.75 * paper.width - 36.0 + 1.0);
                CHECK(word.top >= 36.0 - 2.0);
                CHECK(word.bottom <= 0.75 * paper.height - 36.0 + 12.0);
                ++words_of_page[word.page];
            }
            const int pages = words_of_page.rbegin()->first;
            CHECK(has(text_of(path), fmt::format("page 1 of {}\n", pages)));
            CHECK(has(text_of(path), fmt::format("page {0} of {0}\n", pages)));
            // No page with a line or two of the one before it.
            for (const auto& [page, words] : words_of_page) {
                CAPTURE(page);
                CHECK(words > 40);
            }
        }
    }
}

TEST_CASE("page one holds three things, what to practise and the card, on either paper") {
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    const ScratchFolder folder;
    for (const PaperSize size : {PaperSize::a4, PaperSize::letter}) {
        write_file(folder / "r.pdf", pdf_of(sample::student(Hand::left), size));
        std::string first;
        for (const PageWord& word : words_of(folder / "r.pdf")) {
            if (word.page == 1) first += word.text + " ";
        }
        for (const char* part : {"Your set-up weight", "Your rhythm", "Your distances", "What to practise",
                                 "For your bag", "carry in yards", "your right foot", "left-handed"})
            CHECK_MESSAGE(has(first, part), part);
    }
}

TEST_CASE("the pictures stay within their frame, whatever the paper") {
    for (const StudentReport& report : students()) {
        for (const double width : {344.0, 420.0, 698.0}) {
            for (const Figure& figure :
                 {set_up_figure(report, width, 190.0), rhythm_figure(report, width, 190.0),
                  wedges_figure(report, width, 190.0), distance_chart_figure(report, width),
                  lessons_figure(report, width), card_figure(report)}) {
                CAPTURE(figure.title);
                for (const FigureText& text : shapes::all<FigureText>(figure)) {
                    const double wide = text_width(text.text, text.size, text.weight);
                    const double left = text.align == Align::left     ? text.at.x
                                        : text.align == Align::middle ? text.at.x - 0.5 * wide
                                                                      : text.at.x - wide;
                    CAPTURE(text.text);
                    CHECK(left >= -8.0);
                    CHECK(left + wide <= figure.width + 1.0);
                    CHECK(text.at.y <= figure.height + 1.0);
                }
                for (const FigureMark& mark : shapes::all<FigureMark>(figure)) {
                    CHECK(mark.at.x >= 0.0);
                    CHECK(mark.at.x <= figure.width);
                    CHECK(mark.at.y <= figure.height);
                }
            }
        }
    }
}

TEST_CASE("on the picture of the set-up no mark hides another, however alike the swings are") {
    for (const std::size_t swings : {2, 6, 40}) {
        StudentReport report;
        report.lessons.resize(1);
        for (std::size_t i = 0; i < swings; ++i) {
            ReportedSwing shot;
            shot.kind = SwingKind::shot;
            const double share = 0.705 + 0.0022 * static_cast<double>((7 * i) % 41);
            shot.address = ShareValue{share, 0.003, Verdict::inside};
            report.swings.push_back(shot);
        }
        constexpr double height = 190.0;
        std::vector<FigurePoint> marks;
        for (const FigureMark& mark : shapes::all<FigureMark>(set_up_figure(report, 344.0, height))) {
            const bool is_key = mark.at.y >= height - 26.0;
            if (mark.ink == Ink::ink && !is_key) marks.push_back(mark.at);  // not its halo
        }
        REQUIRE(marks.size() == swings);
        for (std::size_t i = 0; i < marks.size(); ++i) {
            for (std::size_t j = 0; j < i; ++j) {
                CAPTURE(i);
                CAPTURE(j);
                const bool many = swings >= 40;  // drawn smaller
                const bool beside = std::abs(marks[i].x - marks[j].x) >= (many ? 6.9 : 10.0);
                const bool below = std::abs(marks[i].y - marks[j].y) >= (many ? 5.0 : 10.0);
                CHECK((beside || below));
            }
        }
    }
}

TEST_CASE("a character that no font has is set as a plain box, and the report says so") {
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    StudentReport report = sample::unmeasured_student();
    report.name = "Robin \xF3\xB0\x80\x80";  // U+F0000, for private use: no font has it
    const ScratchFolder folder;
    write_file(folder / "r.pdf", pdf_of(report));
    const std::string text = text_of(folder / "r.pdf");
    CHECK(has(text, "Robin □"));
    CHECK(has(text, "is printed as □"));
    write_file(folder / "r.pdf", pdf_of(sample::unmeasured_student()));
    CHECK_FALSE(has(text_of(folder / "r.pdf"), "is printed as □"));
}

TEST_CASE("page one has room for all six things that a lesson may ask to change, on either paper") {
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    std::vector<RuledSwing> swings;
    for (int i = 0; i < 42; ++i) {
        RuledSwing swing;
        swing.kind = SwingKind::shot;
        swing.address = swing.impact = swing.finish = ShareValue{0.55, 0.01, Verdict::below};
        swing.lowest = ShareValue{0.42, 0.01, Verdict::below};
        swing.tempo_ratio = i % 2 == 0 ? 1.8 : 3.4;
        swing.came_to_rest = i % 3 == 0;
        swings.push_back(swing);
    }
    StudentReport report = sample::student(Hand::right, DistanceUnit::yards, 6);
    report.advice = advice_for_student(lesson_findings(swings, usual_certainty), report.hand,
                                       " of the lesson of 2026-05-14");
    REQUIRE(report.advice.size() == 6);
    const ScratchFolder folder;
    for (const PaperSize size : {PaperSize::a4, PaperSize::letter}) {
        write_file(folder / "r.pdf", pdf_of(report, size));
        std::string first;
        for (const PageWord& word : words_of(folder / "r.pdf")) {
            if (word.page == 1) first += word.text + " ";
        }
        for (const char* part : {"What to practise", "Set-up:", "Impact:", "On the way:", "Rhythm:",
                                 "Finish: it", "finish tall on it.", "For your bag"})
            CHECK_MESSAGE(has(first, part), part);
    }
}
