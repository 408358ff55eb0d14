#pragma once

#include <string>
#include <vector>

namespace footing {

/// One column of loads of a file that somebody else made, looked over: can they be those of a person? Wrong
/// units and signs are what such files get wrong most, and shares alone would not show it. What lasts for
/// 2 % of the lines or more counts; a spike does not.
///
/// Limits: nobody of 25 kg or more, a child of eight, means that nobody stood there; more than 300 kg bear on
/// no plate for long, since 130 kg swing with at most twice their weight and for a tenth of a second only
/// (both common practice, no source).
class LoadSurvey {
  public:
    void add(double load_n) { loads_n_.push_back(static_cast<float>(load_n)); }

    /// Whether whoever stands there pulls the plate up: the sign is wrong, or the zero was taken under load.
    [[nodiscard]] bool hangs() const;
    /// What speaks against loads of one person in newtons, in words, with the units in which they would be;
    /// "" when nothing does.
    [[nodiscard]] std::string doubt() const;

  private:
    [[nodiscard]] double reached_n(double part) const;

    std::vector<float> loads_n_;  // an hour at 1 kHz: 14 MB
};

}  // namespace footing
