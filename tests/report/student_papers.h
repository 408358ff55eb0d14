#pragma once

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "analysis/report/student_pdf.h"
#include "tests/report/pdf_tools.h"
#include "tests/support/student_sample.h"

/// What tests of the student's report share.
namespace footing::test {

inline std::string pdf_of(const StudentReport& report, PaperSize size = PaperSize::a4) {
    const auto bytes = student_pdf(report, size);
    REQUIRE(bytes.ok());
    return bytes.value();
}

inline bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// Students of every kind that changes how the pages come out.
inline std::vector<StudentReport> students() {
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

}  // namespace footing::test
