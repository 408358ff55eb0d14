#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>
#include <vector>

#include "analysis/report/lesson_json.h"
#include "analysis/report/number_words.h"
#include "analysis/report/pdf_report.h"
#include "analysis/report/plain_words.h"
#include "tests/report/pdf_tools.h"
#include "tests/support/child_process.h"
#include "tests/support/lesson_sample.h"

using namespace footing;
using namespace footing::test;

namespace {

std::vector<LessonResult> odd_lessons() {
    std::vector<LessonResult> lessons{sample::lesson(),
                                      sample::lesson(Hand::left),
                                      sample::lesson_with_loss(),
                                      sample::lesson_without_swings(),
                                      sample::lesson_of_unknowns(),
                                      LessonResult{}};
    for (const std::string& name : sample::hostile_names()) lessons.push_back(sample::hostile_lesson(name));
    return lessons;
}

void write_pdf(const LessonResult& lesson, const std::string& path, PaperSize size = PaperSize::a4) {
    const Result<std::string> bytes = pdf_report(lesson, size);
    REQUIRE(bytes.ok());
    test::write_file(path, bytes.value());
}

}  // namespace

TEST_CASE("the same lesson gives the same bytes of PDF") {
    const auto once = pdf_report(sample::lesson());
    const auto twice = pdf_report(sample::lesson());
    REQUIRE(once.ok());
    REQUIRE(twice.ok());
    CHECK(once.value() == twice.value());
    CHECK(once.value().find("20260514102044+02'00") != std::string::npos);
}

TEST_CASE("what is told of a swing stands in one row above its picture where there is room for it") {
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    const test::ScratchFolder folder;
    LessonResult lesson = sample::lesson();
    for (Swing& swing : lesson.swings) swing.kind_source = KindSource::trigger;
    for (const PaperSize size : {PaperSize::a4, PaperSize::letter}) {
        write_pdf(lesson, folder / "report.pdf", size);
        std::istringstream text(run_program({pdftotext, "-layout", folder / "report.pdf", "-"}).out);
        std::size_t rows = 0;
        for (std::string line; std::getline(text, line);) {
            if (line.find("backswing") == std::string::npos || line.find("downswing") == std::string::npos)
                continue;
            if (line.find("CoP at address") == std::string::npos) continue;
            CAPTURE(line);
            CHECK(line.find("impact") != std::string::npos);
            CHECK((line.find("shot") != std::string::npos || line.find("practice") != std::string::npos));
            ++rows;
        }
        CHECK(rows == lesson.swings.size());
    }
}

TEST_CASE("on either paper nothing runs into the foot of the page") {
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    const test::ScratchFolder folder;
    for (const PaperSize size : {PaperSize::a4, PaperSize::letter}) {
        write_pdf(sample::lesson(), folder / "report.pdf", size);
        const std::vector<PageWord> words = words_of(folder / "report.pdf");
        std::map<int, double> foot;  // of each page, from its number on
        for (const PageWord& word : words) {
            if (word.text == "page") foot[word.page] = word.top;
        }
        REQUIRE(foot.size() > 3);
        for (const PageWord& word : words) {
            CAPTURE(word.page);
            CAPTURE(word.text);
            const bool in_foot = std::abs(word.top - foot[word.page]) < 2.0;
            CHECK((in_foot || word.bottom <= foot[word.page]));
        }
    }
}

TEST_CASE("every PDF is sound and carries its fonts") {
    if (!have(qpdf) || !have(pdffonts)) {
        MESSAGE("skipped: qpdf or pdffonts is not here");
        return;
    }
    const test::ScratchFolder folder;
    for (const LessonResult& lesson : odd_lessons()) {
        const std::string path = folder / "report.pdf";
        write_pdf(lesson, path);
        const auto check = test::run_program({qpdf, "--check", path});
        CAPTURE(check.err);
        CHECK(check.exit_code == 0);
        CHECK(embedded_fonts(path) >= 1);
    }
}

TEST_CASE("the PDF says the figures of the JSON") {
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    const test::ScratchFolder folder;
    const LessonResult lesson = sample::lesson();
    write_pdf(lesson, folder / "report.pdf");
    const std::string text = text_of(folder / "report.pdf");
    const auto json = nlohmann::json::parse(lesson_json(lesson));
    for (const auto& swing : json["swings"]) {
        for (const char* name : {"address", "turnaround", "top", "impact", "finish"}) {
            const auto& share = swing["lead_share"][name];
            const std::string words = share_words({share["value"], share["u"], Verdict::inside});
            CAPTURE(words);
            CHECK(text.find(words) != std::string::npos);
        }
        CHECK(text.find(ratio_words(swing["tempo"]["ratio"])) != std::string::npos);
    }
    CHECK(text.find("Sample Student") != std::string::npos);
    CHECK(text.find("serial number 4711") != std::string::npos);
    CHECK(text.find("22400 frames, none lost or damaged") != std::string::npos);
    const auto head = headline(lesson);
    REQUIRE(head);
    CHECK(text.find(std::to_string(head->inside) + " of " + std::to_string(head->counted)) !=
          std::string::npos);
    CHECK(text.find("trip hazards") != std::string::npos);
    CHECK(text.find("not a medical device") != std::string::npos);
}

TEST_CASE("A4, titled, and as many pages as it says") {
    if (!have(pdfinfo) || !have(pdftotext)) {
        MESSAGE("skipped: pdfinfo and pdftotext are not here");
        return;
    }
    const test::ScratchFolder folder;
    write_pdf(sample::lesson(), folder / "report.pdf");
    const std::string info = test::run_program({pdfinfo, folder / "report.pdf"}).out;
    CHECK(info.find("Lesson report: Sample Student") != std::string::npos);
    std::smatch pages;
    REQUIRE(std::regex_search(info, pages, std::regex("Pages: +([0-9]+)\n")));
    const std::string last = pages[1];
    CHECK(std::stoi(last) > 1);
    const std::string text = text_of(folder / "report.pdf");
    for (const std::string& page : {std::string("1"), last}) {
        CAPTURE(page);
        CHECK(text.find("page " + page + " of " + last + "\n") != std::string::npos);
    }
    // ISO 216: A4 is 210 mm x 297 mm, 595.28 x 841.89 points.
    CHECK(std::regex_search(info, std::regex("Page size: +595[.0-9]* x 842[.0-9]* pts|Page size:.*A4")));
}

TEST_CASE("no word of a page lies outside its margins") {
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    const test::ScratchFolder folder;
    std::vector<LessonResult> lessons = odd_lessons();
    lessons.push_back(sample::lesson_on_mat());
    for (Swing& swing : lessons.back().swings) {
        swing.stance = SwingStance{FeetTold::areas, 0.37, 0.21, 0.34};
        swing.feet = SwingFeet{};
        swing.feet->left.toes = {0.48, 0.51, 0.47, 0.4};
        swing.feet->right.toes = {0.51, 0.49, 0.52, 0.6};
    }
    // 64 px of 1/96 inch on either side of 210 mm, in points; half a point for the rounding of a glyph's box.
    constexpr double left = 48.0 - 0.5;
    constexpr double right = 595.28 - 48.0 + 0.5;
    for (const LessonResult& lesson : lessons) {
        write_pdf(lesson, folder / "report.pdf");
        const std::vector<PageWord> words = words_of(folder / "report.pdf");
        for (const PageWord& word : words) {
            CAPTURE(word.text);
            CHECK(word.left >= left);
            CHECK(word.right <= right);
        }
        CHECK(words.size() > 50);
    }
}

TEST_CASE("a long table goes on over pages with its head again, and no row is lost") {
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    std::vector<sample::SwingPlan> plans;
    for (int i = 0; i < 10; ++i) {
        for (const sample::SwingPlan& plan : sample::eight_swings()) plans.push_back(plan);
    }
    const test::ScratchFolder folder;
    write_pdf(sample::lesson_of(plans), folder / "report.pdf");
    const std::string text = text_of(folder / "report.pdf");
    const std::string table = text.substr(text.find("The swings in numbers"));
    std::size_t heads = 0;
    for (std::size_t at = table.find("turnaround, %"); at != std::string::npos;
         at = table.find("turnaround, %", at + 1)) {
        ++heads;
    }
    CHECK(heads >= 2);
    for (int swing = 1; swing <= 80; ++swing) {
        CAPTURE(swing);
        CHECK(std::regex_search(table, std::regex("\n *" + std::to_string(swing) + " +(shot|practice) ")));
    }
}
