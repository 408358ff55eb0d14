// A distance device's table against the swings of a recorded lesson; tables invented.
#include "viewer/lesson/import_shots.h"

#include <fmt/format.h>

#include <string>
#include <vector>

#include "tests/book/book_sample.h"

using namespace footing;
using namespace footing::test;

namespace {

enum class Plates { with_clock, without_clock };

/// A lesson on 2026-05-14 whose recording began at 10:00:00 UTC, with swings at these seconds.
class RecordedLesson {
  public:
    explicit RecordedLesson(const std::vector<double>& strikes_s, Plates plates = Plates::with_clock) {
        student_ = need(book_.add_student(called("Robin"), Namesakes::refused));
        wedge_ = add_wedge(book_, student_, "54", 54.0);
        lesson_ = add(strikes_s, plates, "2026-05-14");
    }

    std::int64_t add(const std::vector<double>& strikes_s, Plates plates, const std::string& date) {
        Lesson lesson;
        lesson.student = student_;
        lesson.date = date;
        lesson.recording_uuid = "u-" + date;
        std::int64_t id = 0;
        need(book_.in_transaction([&]() -> Outcome {
            if (plates == Plates::with_clock) {
                const std::int64_t start_s = *day_of_date(date) * 86400 + 10 * 3600;
                need(book_.put_recording({lesson.recording_uuid, "/a.h5", start_s * 1'000'000'000, "UTC",
                                          600.0, Hand::right, "clean", ""}));
            }
            id = need(book_.add_lesson(lesson));
            std::vector<BookSwing> found;
            for (const double strike_s : strikes_s) {
                BookSwing swing;
                swing.from_s = strike_s - 2.0;
                swing.to_s = strike_s + 2.0;
                swing.strike_s = strike_s;
                found.push_back(swing);
            }
            return book_.put_found_swings(id, found);
        }));
        return id;
    }

    ShotImport request() const {
        ShotImport request;
        request.place = "t.csv";
        request.lesson = lesson_;
        request.one_club = "54";
        request.length = SwingLength::half;
        request.shape.header = "Date,Carry";
        request.shape.carry_column = "Carry";
        request.shape.date_column = "Date";
        request.shape.carry_unit = "m";
        return request;
    }

    Result<ShotImportReport> take(const std::string& table, const ShotImport& how) {
        return import_shots(book_, table, how);
    }

    /// Carries of the swings of a lesson, 0 where there is none.
    std::vector<double> carries(std::int64_t lesson = 1) {
        std::vector<double> all;
        for (const BookSwing& swing : need(book_.swings(lesson)))
            all.push_back(swing.shot ? swing.shot->carry_m.value_or(0.0) : 0.0);
        return all;
    }

    Book& book() { return book_; }

  private:
    ScratchFolder scratch_;
    Book book_ = new_book(scratch_ / "a.book");
    std::int64_t student_ = 0;
    std::int64_t wedge_ = 0;
    std::int64_t lesson_ = 0;
};

/// A row at this second of the lesson, by a clock that is ahead by 94 s.
std::string row_at(int second, double carry_m) {
    const int at = second + 94;
    return fmt::format("2026-05-14 10:{:02}:{:02},{}\n", at / 60, at % 60, carry_m);
}

using Carries = std::vector<double>;

}  // namespace

TEST_CASE("a row that found no swing finds none the second time either") {
    RecordedLesson lesson({100, 131, 155, 198, 240});
    // The ball at 170 s belongs to no swing.
    const std::string table = "Date,Carry\n" + row_at(100, 50) + row_at(131, 51) + row_at(170, 99) +
                              row_at(198, 52) + row_at(240, 53);
    const ShotImportReport first = need(lesson.take(table, lesson.request()));
    CHECK(first.taken == 4);
    CHECK(first.matched_by == MatchedBy::time);
    CHECK(*first.clock_offset_s == doctest::Approx(94.0));
    const Carries carries{50, 51, 0, 52, 53};
    CHECK(lesson.carries() == carries);
    const ShotImportReport second = need(lesson.take(table, lesson.request()));
    CHECK(second.taken == 0);
    CHECK(second.known_already == 4);
    REQUIRE(second.not_matched.size() == 1);
    CHECK(second.not_matched[0] == "line 4: no swing at this time");
    CHECK(lesson.carries() == carries);
    // A longer table of the same device: one row alone would say nothing about its clock.
    const ShotImportReport third = need(lesson.take(table + row_at(155, 54), lesson.request()));
    CHECK(third.taken == 1);
    CHECK(lesson.carries() == Carries{50, 51, 54, 52, 53});
    // Another reading of a ball that the book has.
    const ShotImportReport fourth = need(lesson.take(table + row_at(131, 60), lesson.request()));
    CHECK(fourth.taken == 0);
    CHECK(std::find(fourth.not_matched.begin(), fourth.not_matched.end(),
                    "line 7: swing 2 at this time has a carry already (51.0 m)") != fourth.not_matched.end());
}

TEST_CASE("rows that tell their time go by it where swings do not, whatever their order in the table") {
    RecordedLesson lesson({100, 131, 155}, Plates::without_clock);
    const ShotImportReport report = need(
        lesson.take("Date,Carry\n" + row_at(155, 53) + row_at(131, 52) + row_at(100, 51), lesson.request()));
    CHECK(report.taken == 3);
    CHECK(report.matched_by == MatchedBy::order_of_times);
    CHECK(lesson.carries() == Carries{51, 52, 53});
    // Without times it is said how they were matched.
    RecordedLesson other({100, 131}, Plates::without_clock);
    ShotImport how = other.request();
    how.shape.date_column = "";
    CHECK(need(other.take("Carry\n51\n52\n", how)).matched_by == MatchedBy::order_of_lines);
    CHECK(other.carries() == Carries{51, 52});
}

TEST_CASE("a row without a date is known in its own lesson only") {
    RecordedLesson lesson({100, 131});
    lesson.add({100, 131}, Plates::with_clock, "2026-05-21");
    ShotImport how = lesson.request();
    how.shape.date_column = "";
    const std::string table = "Carry\n80\n81\n";
    CHECK(need(lesson.take(table, how)).taken == 2);
    CHECK(need(lesson.take(table, how)).known_already == 2);
    // The same numbers a week later are other shots.
    how.lesson = 2;
    const ShotImportReport later = need(lesson.take(table, how));
    CHECK(later.taken == 2);
    CHECK(later.known_already == 0);
    CHECK(lesson.carries(2) == Carries{80, 81});
    CHECK(need(lesson.take(table, how)).known_already == 2);
}

TEST_CASE("a table read otherwise than before is refused, or corrects what was taken") {
    RecordedLesson lesson({100, 131, 155});
    const std::string table = "Date,Carry\n" + row_at(100, 80) + row_at(131, 81) + row_at(155, 82);
    need(lesson.take(table, lesson.request()));
    ShotImport yards = lesson.request();
    yards.shape.carry_unit = "yd";
    const auto refused = lesson.take(table, yards);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problem().kind == ProblemKind::bad_input);
    CHECK(refused.problem().what.find("line 2 was taken as carry 80.0 m and would now be carry 73.2 m") == 0);
    CHECK(refused.problem().remedy.find("--replace") != std::string::npos);
    CHECK(lesson.carries() == Carries{80, 81, 82});
    CHECK(need(lesson.book().shape_of("Date,Carry"))->carry_unit == "m");
    // What the coach typed over stays.
    BookSwing typed = need(lesson.book().swing(1, 2));
    typed.shot->carry_m = 70.0;
    need(lesson.book().in_transaction([&] { return lesson.book().change_swing(typed); }));
    yards.other_reading = OtherReading::replace;
    const ShotImportReport report = need(lesson.take(table, yards));
    CHECK(report.taken == 0);
    CHECK(report.replaced == 2);
    REQUIRE(report.not_matched.size() == 1);
    CHECK(report.not_matched[0].find("line 3: swing 2 of lesson 1 was changed by hand") == 0);
    const Carries now = lesson.carries();
    CHECK(now[0] == doctest::Approx(80 * 0.9144));
    CHECK(now[1] == 70.0);
    CHECK(now[2] == doctest::Approx(82 * 0.9144));
    CHECK(need(lesson.take(table, yards)).replaced == 0);
}

TEST_CASE("a table without one shot that can be read is a problem") {
    RecordedLesson lesson({100});
    for (const char* table : {"Date,Carry\n", "Date,Carry\nyesterday,80\n5/14/26,80\n"}) {
        const auto refused = lesson.take(table, lesson.request());
        REQUIRE_FALSE(refused.ok());
        CHECK(refused.problem().kind == ProblemKind::bad_input);
    }
}
