// The lesson book at the size of years, and whether what the distance chart states holds on simulated
// students.
#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <random>
#include <string>

#include "analysis/distance/club_choice.h"
#include "tests/support/child_process.h"
#include "viewer/book/student_chart.h"

using namespace footing;

namespace {

template <typename Work>
double milliseconds(Work work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
}

template <typename T>
T need(Result<T> result) {
    if (!result) {
        fmt::print(stderr, "{}\n", sentence(result.problem()));
        std::exit(1);
    }
    return std::move(result).value();
}

/// Students with three wedges and five lessons each; every cell gets its share of the swings.
void fill(Book& book, int students, int swings_each) {
    std::mt19937 random(1);
    std::normal_distribution<double> spread(0.0, 4.0);
    need(book.in_transaction([&]() -> Outcome {
        for (int s = 0; s < students; ++s) {
            std::array<std::int64_t, 5> lessons{};
            for (std::size_t l = 0; l < lessons.size(); ++l) {
                Lesson lesson;
                lesson.student = s + 1;
                lesson.date = fmt::format("2026-0{}-1{}", l + 1, s % 10);
                lessons[l] = need(book.add_lesson(lesson));
            }
            for (int i = 0; i < swings_each; ++i) {
                BookSwing swing;
                swing.lesson = lessons[static_cast<std::size_t>(i) % lessons.size()];
                swing.wedge = 3 * s + i % 3 + 1;
                swing.length = swing_lengths[static_cast<std::size_t>(i / 3 % 3)];
                swing.address_share = 0.75;
                swing.shot = Shot{45.0 + 8.0 * (i % 3) + 12.0 * (i / 3 % 3) + spread(random), {}, {}};
                need(book.add_swing(swing));
            }
        }
        return Done{};
    }));
}

void measure_book(int students, int swings_each) {
    const test::ScratchFolder scratch;
    const std::string path = scratch / "years.book";
    {
        Book book = need(Book::open(path, OpenAs::create_if_absent));
        for (int s = 0; s < students; ++s) {
            Student student;
            student.name = fmt::format("Student {}", s + 1);
            need(book.add_student(student, Namesakes::refused));
            for (const double loft : {52.0, 56.0, 60.0})
                need(book.add_wedge({0, s + 1, fmt::format("{:.0f}", loft), loft, Bag::in}));
        }
        fill(book, students, swings_each);
    }
    fmt::print("{} students, {} swings\n", students, students * swings_each);
    fmt::print("open                      {:8.1f} ms\n",
               milliseconds([&] { need(Book::open(path, OpenAs::existing)); }));
    Book book = need(Book::open(path, OpenAs::existing));
    fmt::print("list of students          {:8.1f} ms\n", milliseconds([&] { need(book.students()); }));
    fmt::print("search in names           {:8.1f} ms\n", milliseconds([&] { need(book.students("nt 17")); }));
    fmt::print("list of all lessons       {:8.1f} ms\n",
               milliseconds([&] { need(book.lessons(std::nullopt)); }));
    fmt::print("swings of a lesson        {:8.1f} ms\n", milliseconds([&] { need(book.swings(3)); }));
    fmt::print("distance chart            {:8.1f} ms\n",
               milliseconds([&] { need(distances_of(book, "student 7", {})); }));
    fmt::print("check of the whole file   {:8.1f} ms\n", milliseconds([&] { need(book.check()); }));
}

/// Students with nine numbers of their own spread; each gets `shots` a cell, then a flag somewhere in reach.
void measure_coverage(int students, int shots) {
    std::mt19937 random(static_cast<unsigned>(shots));
    std::normal_distribution<double> standard(0.0, 1.0);
    std::uniform_real_distribution<double> uniform(0.0, 1.0);
    double means_inside = 0.0;
    double misses_inside = 0.0;
    double stated = 0.0;
    double stated_best = 0.0;
    double happened = 0.0;
    double happened_best = 0.0;
    double cells = 0.0;
    for (int s = 0; s < students; ++s) {
        std::vector<ChartShot> all;
        std::vector<double> mean_m;
        std::vector<double> sd_m;
        for (std::size_t cell = 0; cell < 9; ++cell) {
            mean_m.push_back(35.0 + 7.0 * static_cast<double>(cell) + 2.0 * standard(random));
            sd_m.push_back(mean_m.back() * (0.04 + 0.08 * uniform(random)));
            for (int i = 0; i < shots; ++i) {
                Carry carry;
                carry.carry_m = std::max(1.0, mean_m[cell] + sd_m[cell] * standard(random));
                all.push_back({cell / 3, swing_lengths[cell % 3], carry});
            }
        }
        const DistanceChart chart = make_distance_chart(
            {{"52", 52.0, Bag::in}, {"56", 56.0, Bag::in}, {"60", 60.0, Bag::in}}, all, {});
        const double flag_m = 35.0 + 56.0 * uniform(random);
        const ClubChoice choice = choose_club(chart, flag_m, 5.0);
        for (const ClubOption& option : choice.options) {
            const double true_mean_m = mean_m[option.cell];
            const double miss_m = true_mean_m + sd_m[option.cell] * standard(random) - flag_m;
            means_inside += std::abs(*chart.cells[option.cell].mean_m - true_mean_m) <=
                            *chart.cells[option.cell].half_width_m;
            misses_inside += miss_m >= *option.miss_low_m && miss_m <= *option.miss_high_m;
            stated += *option.probability_within;
            happened += std::abs(miss_m) <= 5.0;
            if (&option == &choice.options.front()) {
                stated_best += *option.probability_within;
                happened_best += std::abs(miss_m) <= 5.0;
            }
            ++cells;
        }
    }
    fmt::print(
        "{:2} shots a cell: 95 % interval of the mean holds {:.1f} %; 80 % range of the next shot {:.1f} %; "
        "chance of a club stated "
        "{:.1f}, true {:.1f} %; of the club advised stated {:.1f}, true {:.1f} %\n",
        shots, 100 * means_inside / cells, 100 * misses_inside / cells, 100 * stated / cells,
        100 * happened / cells, 100 * stated_best / students, 100 * happened_best / students);
}

}  // namespace

int main(int count, char** words) {
    const bool is_short = count > 1 && std::strcmp(words[1], "short") == 0;
    measure_book(is_short ? 10 : 200, 50);
    for (const int shots : {3, 4, 5, 8, 15, 30}) measure_coverage(is_short ? 50 : 20000, shots);
    return 0;
}
