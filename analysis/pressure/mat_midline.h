#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace footing {

/// The line between the two feet on a mat. It starts at the mat's centre and follows the feet: the column
/// loads are averaged over some frames; the split that separates them best into two groups (Otsu 1979, IEEE
/// Trans. Syst. Man Cybern. 9:62) is moved to the middle of the valley between the groups. It stays where it
/// is while the load does not show two feet: one foot lifted, feet together, nobody there. Deterministic: the
/// same frames give the same line.
class MatMidline {
  public:
    MatMidline() = default;
    MatMidline(std::size_t columns, double pitch_m);

    /// Takes the column loads of one frame in newtons (shape [columns]) and their sum.
    void follow(std::span<const double> column_n, double total_n);

    /// Columns before this one belong to the left foot.
    [[nodiscard]] std::size_t first_right_column() const { return first_right_; }

  private:
    void find_valley();

    std::vector<double> profile_n_;
    double pitch_m_ = 0.0;
    std::size_t first_right_ = 0;
    std::size_t frames_ = 0;
};

}  // namespace footing
