#pragma once

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/support/minimum_jerk.h"

/// The program at a coach's desk: words for one lesson book. For tests that know FOOTING_PROGRAM.
namespace footing::test {

/// Words for one book.
class BookDesk {
  public:
    ProgramOutput say(std::vector<std::string> words) const {
        words.insert(words.begin(), FOOTING_PROGRAM);
        words.insert(words.end(), {"--book", file()});
        return run_program(words);
    }
    nlohmann::json ask(std::vector<std::string> words) const {
        words.insert(words.end(), {"--json", "-"});
        const ProgramOutput said = say(words);
        REQUIRE_MESSAGE(said.exit_code == 0, said.err);
        return nlohmann::json::parse(said.out);
    }
    void must(const std::vector<std::string>& words) const {
        const ProgramOutput said = say(words);
        REQUIRE_MESSAGE(said.exit_code == 0, said.err);
    }
    [[nodiscard]] std::string file() const { return scratch_ / "my.book"; }
    [[nodiscard]] const ScratchFolder& scratch() const { return scratch_; }

  private:
    ScratchFolder scratch_;
};

/// Two plates at 200 Hz: `strikes_s` are swings of the same make.
inline std::string lesson_csv(const std::vector<double>& strikes_s) {
    std::string csv =
        "time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm,right_cop_x_mm,right_cop_y_mm,trigger\n";
    for (int i = 0; i < static_cast<int>(200 * (strikes_s.back() + 6)); ++i) {
        const double t = i / 200.0;
        double share = 0.75 + 0.001 * std::sin(2 * M_PI * 0.7 * t);
        double total = 700.0;
        int trigger = 0;
        for (const double strike : strikes_s) {
            const double s = t - strike + 5.05;
            share += -0.10 * testing::minimum_jerk((s - 4.0) / 0.75) +
                     0.22 * testing::minimum_jerk((s - 4.7) / 0.45) -
                     0.12 * testing::minimum_jerk((s - 7.5) / 1.5);
            total *= 1.0 + 0.15 * std::exp(-std::pow((s - 4.95) / 0.07, 2)) -
                     0.10 * std::exp(-std::pow((s - 4.65) / 0.08, 2));
            if (std::abs(t - strike) < 0.006) trigger = 1;
        }
        csv += fmt::format("{:.3f},{:.3f},{:.3f},{:.2f},{:.2f},{:.2f},{:.2f},{}\n", t, total * share,
                           total * (1 - share), -200 + std::sin(t), 10 + 2 * std::cos(t), 200 + std::sin(t),
                           12 + std::cos(t), trigger);
    }
    return csv;
}

/// The student Robin, and l.h5: a recording of four swings, right-handed.
inline void take_a_recorded_student(const BookDesk& desk) {
    const ScratchFolder& scratch = desk.scratch();
    write_file(scratch / "l.csv", lesson_csv({8, 31, 49, 78}));
    REQUIRE(run_program(
                {FOOTING_PROGRAM, "import", scratch / "l.csv", "--out", scratch / "l.h5", "--hand", "right"})
                .exit_code == 0);
    desk.must({"students", "add", "Robin"});
}

}  // namespace footing::test
