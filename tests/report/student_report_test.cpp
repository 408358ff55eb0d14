// What the student takes home: what page one, the evidence and the card say.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "analysis/report/canvas.h"
#include "analysis/report/figure_kit.h"
#include "analysis/report/laid_swings.h"
#include "analysis/report/lesson_json.h"
#include "analysis/report/lessons_measured.h"
#include "analysis/report/number_words.h"
#include "analysis/report/student_figures.h"
#include "analysis/report/student_html.h"
#include "analysis/report/student_words.h"
#include "analysis/report/swing_picture.h"
#include "analysis/report/text_safety.h"
#include "tests/report/figure_shapes.h"
#include "tests/report/student_papers.h"

using namespace footing;
using namespace footing::test;

TEST_CASE("the numbers of the report are those of the lesson's JSON and of the chart") {
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    const ScratchFolder folder;
    const StudentReport report = sample::student();
    write_file(folder / "r.pdf", pdf_of(report));
    const std::string text = text_of(folder / "r.pdf");
    const std::string html = student_html(report);
    const auto json = nlohmann::json::parse(lesson_json(*report.measured));
    double sum = 0.0;
    double shots = 0.0;
    for (const auto& swing : json["swings"]) {
        for (const char* name : {"address", "turnaround", "top", "impact", "finish"}) {
            const auto& share = swing["lead_share"][name];
            const ShareValue value{share["value"], share["u"], Verdict::inside};
            CHECK(has(text, share_numbers(value)));
            CHECK(has(html, share_words(value)));
        }
        CHECK(has(text, ratio_words(swing["tempo"]["ratio"])));
        CHECK(has(html, ratio_words(swing["tempo"]["ratio"])));
        if (swing["kind"] != "shot") continue;
        sum += swing["lead_share"]["address"]["value"].get<double>();
        shots += 1.0;
    }
    CHECK(set_up_thing(report).number == share_short(sum / shots));
    CHECK(has(text, share_short(sum / shots)));
    for (const DistanceCell& cell : report.chart.cells) {
        CHECK(has(text, known_words(cell, report.unit)));
        CHECK(has(html, known_words(cell, report.unit)));
    }
    for (const SetAsideShot& shot : shots_with_reason(report)) {
        CHECK(has(text, shot.carry));
        CHECK(has(html, escaped(shot.why)));
    }
    CHECK(shots_with_reason(report).size() >= 4);
    CHECK(has(text, "wind"));
}

TEST_CASE("the newest lessons are laid beside each other, and what is left out is said") {
    const StudentReport report = sample::student_of_many_recordings();
    REQUIRE(report.laid.size() == most_laid);
    const std::string html = student_html(report);
    CHECK(has(html, "Swing over swing"));
    CHECK(has(html, "newest 6 of 7 lessons"));
    CHECK(has(html, "every other one is drawn swing by swing in a report of its own"));
    for (const LaidSwings& laid : report.laid) {
        const Figure figure = laid_figure(laid, 352.0, 280.0);
        CHECK(has(html, escaped(laid_title(report, laid))));
        // The mean runs through the mean's own points.
        const auto lines = shapes::all<FigureLine>(figure);
        const auto mean = std::ranges::max_element(lines, {}, &FigureLine::width);
        CHECK(mean->points.size() == laid.set.axis.time_s.size());
        for (const FigureText& text : shapes::all<FigureText>(figure)) {
            CAPTURE(text.text);
            CHECK(text.at.x <= figure.width);
        }
    }
    CHECK_FALSE(has(student_html(sample::student()), "Swing over swing"));
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    const ScratchFolder folder;
    write_file(folder / "r.pdf", pdf_of(report));
    const std::string text = text_of(folder / "r.pdf");
    CHECK(has(text, "Swing over swing"));
    CHECK(has(text, laid_title(report, report.laid.front())));
    CHECK(has(text, laid_title(report, report.laid.back())));
}

TEST_CASE("lessons without plates in a row are one row of the table, others have their own") {
    StudentReport report = sample::student(Hand::right, DistanceUnit::yards, 6);
    report.lessons[2].not_measured.clear();
    report.lessons[2].measured_by = {{"Measured by", "two plates"}, {"Loss", "100 frames, 0 lost (0.00 %)"}};
    const auto rows = lessons_measured(report);
    REQUIRE(rows.size() == 4);
    CHECK(rows[0] == std::vector<std::string>{"1 to 2", "2026-04-10 to 2026-04-11", "without plates"});
    CHECK(rows[1] == std::vector<std::string>{"3", "2026-04-12", "two plates; 100 frames, 0 lost (0.00 %)"});
    CHECK(rows[2] == std::vector<std::string>{"4 to 6", "2026-04-13 to 2026-04-15", "without plates"});
    // The newest too, though its swings are drawn and its facts stand in full.
    CHECK(rows[3][0] == "7");
    CHECK(rows[3][1] == "2026-05-14");
    CHECK(has(rows[3][2], "Hz"));
    CHECK_FALSE(has(rows[3][2], "Body"));
    CHECK(lessons_measured(sample::student()).empty());
    CHECK(lessons_measured(StudentReport{}).empty());
}

TEST_CASE("the card says the club that is chosen for each distance, in the student's unit") {
    for (const DistanceUnit unit : {DistanceUnit::yards, DistanceUnit::metres}) {
        const StudentReport report = sample::student(Hand::right, unit);
        const auto texts = shapes::all<FigureText>(card_figure(report));
        std::size_t named = 0;
        for (const ClubChoice& choice : card_of(report)) {
            const ClubChoice asked = choose_club(report.chart, choice.distance_m, 5.0 * metres_per(unit));
            const std::string distance = fmt::format("{:.0f}", choice.distance_m / metres_per(unit));
            const auto at = std::ranges::find(texts, distance, &FigureText::text);
            REQUIRE(at != texts.end());
            if (!asked.advised) continue;
            const std::size_t cell = asked.options[*asked.advised].cell;
            CHECK((at + 1)->text.starts_with(report.chart.wedge_of(cell).name));
            ++named;
        }
        CHECK(named >= 5);
        CHECK(card_of(report).size() <= most_card_rows);
    }
}

TEST_CASE("what is not known is said, not drawn") {
    const StudentReport report = sample::unmeasured_student();
    CHECK(set_up_figure(report, 400, 190).shapes.empty());
    CHECK(rhythm_figure(report, 400, 190).shapes.empty());
    CHECK(set_up_thing(report).number.empty());
    CHECK(has(set_up_thing(report).sentences.front(), "without plates"));
    // A card all the same: four rows of four lines to be filled in by hand.
    const Figure blank = card_figure(sample::new_student());
    const auto lines = shapes::all<FigureLine>(blank);
    CHECK(std::ranges::count_if(lines, [](const FigureLine& line) { return line.ink == Ink::quiet; }) == 16);
    CHECK(has(student_html(sample::new_student()), "For your bag, to fill in: print it"));
    CHECK(has(student_html(sample::student()), "For your bag: print it"));
    CHECK(has(student_html(sample::new_student()), "No distance is known yet"));
    CHECK(has(practice_sentences(sample::new_student()).front(), "ask your coach"));
}

TEST_CASE("a swing as a picture to share names the student only where the lesson does") {
    LessonResult lesson = sample::lesson();
    CHECK(shapes::texts_with(swing_picture(lesson, 2), "Swing 3 · shot").size() == 1);
    lesson.facts.student.clear();
    for (const FigureText& text : shapes::all<FigureText>(swing_picture(lesson, 2)))
        CHECK_FALSE(has(text.text, "Sample"));
    const auto png = png_of(swing_picture(lesson, 2), Theme::print, 2.0);
    REQUIRE(png.ok());
    // PNG, third edition, 11.2.2: width and height are big-endian at bytes 16 and 20; 1080 x 1350.
    CHECK(png.value().substr(16, 8) == std::string("\x00\x00\x04\x38\x00\x00\x05\x46", 8));
}

TEST_CASE(
    "how shots match their practice swings is told from so many of a lesson as in progress, with their "
    "number") {
    StudentReport report = sample::student();
    const auto match_in = [&](std::size_t count) {
        std::size_t left = count;
        for (ReportedSwing& swing : report.swings) {
            swing.rhythm_percent.reset();
            if (swing.kind == SwingKind::shot && left > 0) swing.rhythm_percent = 80.0, --left;
        }
        return rhythm_thing(report).sentences.back();
    };
    CHECK(has(match_in(3), "3 of 6 shots followed practice swings and matched them to 80 % on average."));
    CHECK_FALSE(has(match_in(2), "80 %"));
    // Six shots of which two a lesson have a match: in no lesson enough.
    report = sample::student(Hand::right, DistanceUnit::yards, 2);
    std::vector<std::size_t> of_lesson(3, 0);
    for (ReportedSwing& swing : report.swings) {
        if (swing.kind == SwingKind::shot && ++of_lesson[swing.lesson] <= 2) swing.rhythm_percent = 80.0;
    }
    CHECK_FALSE(has(rhythm_thing(report).sentences.back(), "80 %"));
}

TEST_CASE("what the marks beside numbers mean stands before the first of them") {
    for (const ReportForm form : {ReportForm::full, ReportForm::brief}) {
        StudentReport report = sample::student();
        report.form = form;
        const std::string html = student_html(report);
        const std::size_t meant = html.find("What the marks mean");
        REQUIRE(meant != std::string::npos);
        CHECK(meant < html.find("aria-label=\"below\""));  // of the table, where there is one
        CHECK(meant < html.find("<title>All swings of the lesson"));
        CHECK(has(html, "At the finish a mark above the band is no fault"));
    }
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    const ScratchFolder folder;
    write_file(folder / "r.pdf", pdf_of(sample::student()));
    const std::string text = text_of(folder / "r.pdf");
    const std::size_t table = text.find("The swings in numbers");
    REQUIRE(table != std::string::npos);
    CHECK(text.find("above the band", table) < text.find("turnaround, %", table));
}

TEST_CASE("a student whose set-ups were never surely outside the band is not told that they varied") {
    StudentReport report = sample::student();
    std::size_t shot = 0;
    for (ReportedSwing& swing : report.swings) {
        if (swing.kind == SwingKind::shot && swing.address)
            swing.address->verdict = ++shot % 2 == 0 ? Verdict::inside : Verdict::too_close;
    }
    CHECK(has(set_up_thing(report).sentences.back(), "None was surely outside."));
    CHECK_FALSE(has(set_up_thing(report).sentences.back(), "varied"));
}

TEST_CASE("the picture of progress says what its bars are, and the facts of a recording whose they are") {
    const auto words_of = [](std::size_t lessons_before) {
        return progress_picture_words(sample::student(Hand::right, DistanceUnit::yards, lessons_before));
    };
    CHECK(has(words_of(2), "From 6 lessons on"));
    CHECK_FALSE(has(words_of(2), "bars"));
    CHECK(has(words_of(6), "The bars are the means"));
    CHECK_FALSE(has(words_of(6), "Tinted"));
    CHECK(has(words_of(12), "Tinted is where"));
    CHECK_FALSE(has(words_of(12), "bars"));
    const StudentReport report = sample::student(Hand::right, DistanceUnit::yards, 6);
    const std::string html = student_html(report);
    CHECK(html.find("<h3>The recording of 2026-05-14</h3>") < html.find("<dl class=\"facts\">"));
    CHECK(has(html, escaped(progress_picture_words(report))));
    if (!have(pdftotext)) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    const ScratchFolder folder;
    write_file(folder / "r.pdf", pdf_of(report));
    const std::string text = text_of(folder / "r.pdf");
    CHECK(text.find("The recording of 2026-05-14") < text.find("Body weight"));
    CHECK(text.find("How each lesson was measured") < text.find("without plates"));
}
