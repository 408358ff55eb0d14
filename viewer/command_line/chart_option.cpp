#include "viewer/command_line/chart_option.h"

#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/distance_option.h"
#include "viewer/command_line/written_words.h"

namespace footing {

namespace {

Result<DistanceOptions> limits_of(const ChartOptions& options, DistanceUnit unit) {
    DistanceOptions limits = usual_limits(unit);
    if (!options.known_within.empty()) {
        const auto within = parse_distance(options.known_within, unit, "--known-within");
        if (!within) return within.problem();
        if (within.value() < 0.1) {
            return Problem{ProblemKind::command_line, "--known-within", "nothing is known that well",
                           "write at least 0.1 m"};
        }
        limits.known_within_m = within.value();
    }
    if (!options.widest_gap.empty()) {
        const auto gap = parse_distance(options.widest_gap, unit, "--gap");
        if (!gap) return gap.problem();
        limits.widest_gap_m = gap.value();
    }
    limits.oldest_days = options.oldest_days;
    limits.outlier_alpha = options.outlier_percent / 100.0;
    limits.today = day_of_date(date_of_today()).value_or(0);
    return limits;
}

}  // namespace

void add_chart_options(Arguments& verb, ChartOptions& options) {
    verb.add_option("--student", options.student, "name, or #number")->required();
    verb.add_option(
        "--known-within", options.known_within,
        "a number is known when its 95 % interval is so narrow either way; else 3 yards (or metres)");
    verb.add_option("--gap", options.widest_gap,
                    "the widest gap between neighbours that you accept; else 15 yards (or metres)");
    verb.add_option("--max-age", options.oldest_days, "days after which a number is called old")
        ->check(number_between(1.0, 100000.0))
        ->capture_default_str();
    verb.add_option(
            "--outliers", options.outlier_percent,
            "how often, in per cent, a sound set may lose a shot to Grubbs' test; 0 turns the test off")
        ->check(number_between(0.0, 50.0))
        ->capture_default_str();
    verb.add_option("--units", options.unit, "yd or m, else as the student plays")
        ->check(one_of({"yd", "m"}));
}

Result<ChartRequest> chart_request(Book& book, const ChartOptions& options) {
    const auto student = book.student(options.student);
    if (!student) return student.problem();
    ChartRequest request{student.value(), student.value().unit, {}};
    if (!options.unit.empty())
        request.unit = options.unit == "m" ? DistanceUnit::metres : DistanceUnit::yards;
    const auto limits = limits_of(options, request.unit);
    if (!limits) return limits.problem();
    request.limits = limits.value();
    return request;
}

}  // namespace footing
