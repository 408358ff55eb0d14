// What the student takes home: page one, the evidence, and that neither a printer, a reader nor a hostile
// name breaks it.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <arpa/inet.h>
#include <fcntl.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>

#include "analysis/report/canvas.h"
#include "analysis/report/figure_kit.h"
#include "analysis/report/laid_swings.h"
#include "analysis/report/lesson_json.h"
#include "analysis/report/number_words.h"
#include "analysis/report/other_lessons.h"
#include "analysis/report/student_figures.h"
#include "analysis/report/student_html.h"
#include "analysis/report/student_pdf.h"
#include "analysis/report/student_words.h"
#include "analysis/report/swing_picture.h"
#include "analysis/report/text_safety.h"
#include "tests/report/figure_shapes.h"
#include "tests/report/pdf_tools.h"
#include "tests/support/student_sample.h"

using namespace footing;
using namespace footing::test;

namespace {

constexpr const char* python = "/usr/bin/python3";
constexpr const char* chromium = "/usr/bin/chromium";

std::string pdf_of(const StudentReport& report, PaperSize size = PaperSize::a4) {
    const auto bytes = student_pdf(report, size);
    REQUIRE(bytes.ok());
    return bytes.value();
}

std::vector<StudentReport> students() {
    std::vector<StudentReport> all{sample::student(),
                                   sample::student(Hand::left, DistanceUnit::metres),
                                   sample::student(Hand::right, DistanceUnit::yards, 12),
                                   sample::student_of_many_recordings(),
                                   sample::unmeasured_student(),
                                   sample::new_student(),
                                   StudentReport{}};
    // Sixty shots a lesson: the words beside a picture are wider.
    all.push_back(sample::student(Hand::right, DistanceUnit::yards, 12));
    const std::vector<ReportedSwing> few = all.back().swings;
    for (int i = 0; i < 9; ++i) all.back().swings.insert(all.back().swings.end(), few.begin(), few.end());
    all.push_back(sample::student());
    all.back().measured = sample::lesson_of_unknowns();
    all.push_back(sample::student());
    all.back().card_kind = CardKind::numbers;
    return all;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// A socket that listens and counts who called.
class Ear {
  public:
    Ear() : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_NONBLOCK, 0)) {
        sockaddr_in at{};
        at.sin_family = AF_INET;
        at.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        REQUIRE(::bind(socket_, reinterpret_cast<sockaddr*>(&at), sizeof at) == 0);
        REQUIRE(::listen(socket_, 16) == 0);
        socklen_t size = sizeof at;
        ::getsockname(socket_, reinterpret_cast<sockaddr*>(&at), &size);
        port_ = ntohs(at.sin_port);
    }
    Ear(const Ear&) = delete;
    Ear& operator=(const Ear&) = delete;
    ~Ear() { ::close(socket_); }
    [[nodiscard]] std::string url() const { return fmt::format("http://127.0.0.1:{}/x", port_); }
    [[nodiscard]] int calls() const {
        int count = 0;
        for (int one = ::accept(socket_, nullptr, nullptr); one >= 0;
             one = ::accept(socket_, nullptr, nullptr)) {
            ::close(one);
            ++count;
        }
        return count;
    }

  private:
    int socket_;
    int port_ = 0;
};

}  // namespace

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
    const auto rows = other_lessons(report);
    REQUIRE(rows.size() == 3);
    CHECK(rows[0] == std::vector<std::string>{"1 to 2", "2026-04-10 to 2026-04-11", "without plates"});
    CHECK(rows[1] == std::vector<std::string>{"3", "2026-04-12", "two plates; 100 frames, 0 lost (0.00 %)"});
    CHECK(rows[2] == std::vector<std::string>{"4 to 6", "2026-04-13 to 2026-04-15", "without plates"});
    CHECK(other_lessons(sample::student()).empty());
    CHECK(other_lessons(StudentReport{}).empty());
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
    CHECK(card_figure(sample::new_student()).shapes.empty());
    CHECK(has(student_html(sample::new_student()), "No distance is known yet"));
    CHECK(has(practice_sentences(sample::new_student()).front(), "ask your coach"));
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

TEST_CASE("200 hostile names: no script, no element, no attribute of theirs; every page of paper whole") {
    const std::vector<std::string> names = sample::two_hundred_hostile_names("http://127.0.0.1:9/x");
    REQUIRE(names.size() == 200);
    const ScratchFolder folder;
    std::vector<std::string> check{
        python, "-c",
        "import sys,xml.etree.ElementTree as E\n"
        "for path in sys.argv[1:]:\n"
        "    root=E.parse(path).getroot()\n"
        "    tags={e.tag for e in root.iter()}\n"
        "    assert not tags & {'script','img','iframe','link','base','object','video','form',"
        "'input','a','math'}, tags\n"
        "    assert [e.tag for e in root.iter()].count('h1')==1\n"
        "    assert [e.tag for e in root.iter()].count('style')==1\n"
        "    for e in root.iter():\n"
        "        assert not any(k.lower().startswith('on') or k.lower() in ('src','href') for k "
        "in e.attrib), e.attrib\n"
        "        if e.tag=='svg': assert e.get('role')=='img' and e.find('title').text and "
        "e.find('desc').text\n"
        "        if e.tag=='th': assert e.get('scope')\n"};
    std::size_t number = 0;
    for (const StudentReport& report : sample::hostile_students(names)) {
        const std::string path = folder / fmt::format("{}.html", number++);
        write_file(path, student_html(report));
        check.push_back(path);
        write_file(folder / "r.pdf", pdf_of(report));
        if (!have(qpdf)) continue;
        const auto sound = run_program({qpdf, "--check", folder / "r.pdf"});
        CAPTURE(sound.err);
        CHECK(sound.exit_code == 0);
    }
    const auto parsed = run_program(check);
    if (parsed.exit_code == 127) {
        MESSAGE("skipped: python3 is not here");
        return;
    }
    CAPTURE(parsed.err);
    CHECK(parsed.exit_code == 0);
}

TEST_CASE("a browser runs no script of a hostile name and sends no request for it") {
    if (!std::filesystem::exists(chromium)) {
        MESSAGE("skipped: chromium is not here");
        return;
    }
    const Ear ear;
    const std::vector<std::string> names = sample::two_hundred_hostile_names(ear.url());
    StudentReport report = sample::unmeasured_student();
    report.name = names[1];
    report.lessons.clear();
    for (std::size_t i = 0; i < names.size(); i += 2)
        report.lessons.push_back(
            {static_cast<std::int64_t>(i), names[i], names[i], names[i], {}, names[i + 1]});
    report.advice.clear();
    for (const std::string& name : names) report.advice.push_back({PracticeRule::number_old, name});
    const ScratchFolder folder;
    write_file(folder / "r.html", student_html(report));
    const auto shown =
        run_program({chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                     "--user-data-dir=" + (folder / "profile"), "--virtual-time-budget=2000", "--dump-dom",
                     "file://" + (folder / "r.html")});
    if (shown.exit_code != 0 || !has(shown.out, "<h1")) {
        MESSAGE("skipped: chromium does not start here");
        return;
    }
    CHECK(has(shown.out, "What to practise"));
    CHECK_FALSE(has(shown.out, "<title>owned"));
    CHECK_FALSE(has(shown.out, "<script"));
    CHECK_FALSE(has(shown.out, "<iframe"));
    CHECK_FALSE(has(shown.out, "<img"));
    CHECK(ear.calls() == 0);
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
