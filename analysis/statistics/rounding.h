#pragma once

#include <string>

namespace footing {

/// Numbers as people read them: everything that is shown is rounded here, so that a page, a table, a card and
/// a picture cannot show one number in two ways.

/// With so many decimals, always with "."; half goes away from nought, also where a binary fraction hides
/// that it is half (64.5 yards held in metres). A true minus sign; "0" has none.
[[nodiscard]] std::string rounded(double value, int decimals);

/// The chance of a finding: "p = 0.030"; one that three decimals cannot show is "p < 0.001", never nought.
[[nodiscard]] std::string chance_words(double p);

/// Decimals that a number bears whose expanded uncertainty, or half an interval's width, is this: one while
/// it is below one unit, else none (JCGM 100:2008, 7.2.6: of an uncertainty one or two digits, and of the
/// value no digit beyond them).
[[nodiscard]] int decimals_borne(double expanded);

/// A value with its expanded uncertainty, both to the same decimal.
struct ValueWords {
    std::string value;
    std::string expanded;  ///< never nought: at least one of the last decimal
};
[[nodiscard]] ValueWords rounded_to_uncertainty(double value, double expanded, int most_decimals = 1);

}  // namespace footing
