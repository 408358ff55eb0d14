#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "viewer/book/book_records.h"
#include "viewer/lesson/live_view.h"
#include "viewer/lesson/swing_label.h"

namespace footing {

/// A lesson under way, as far as the book is concerned.
struct LessonInBook {
    std::filesystem::path book;  ///< the file
    std::int64_t lesson = 0;     ///< its number, once it is in the book
    std::int64_t student = 0;
    Hand hand = Hand::right;
    std::vector<std::int64_t> new_wedges;  ///< that the book has only because of what was said in this lesson
};

/// What the book has of it now.
struct KeptLesson {
    std::int64_t lesson = 0;
    std::vector<std::int64_t> new_wedges;
};

/// Puts the lesson's swings so far and all that the coach said of them into the book, whole or not at all,
/// and returns the lesson's number; called again after each swing and each word of the coach (so an undo
/// reaches the book too). A wedge that the student has not got in the book is put there, and goes again where
/// the coach only passed it by on the way to another. What the coach called no swing is not listed. Fails as
/// Book does. Blocks; not for the drawing thread.
[[nodiscard]] Result<KeptLesson> keep_in_book(const LessonInBook& kept, const LiveView& live,
                                              const std::vector<SwingLabel>& labels);

/// Once the recording is closed: its facts into the index, and its swings as the analysis of the whole
/// recording found them; what the coach said stays. A lesson in which no swing was caught comes into the book
/// here. Fails as Book and index_entry() do.
[[nodiscard]] Outcome settle_in_book(const LessonInBook& kept, const std::string& recording,
                                     const std::vector<Swing>& found);

/// The name of whose lesson a recording is; empty where the book does not know it.
[[nodiscard]] std::string student_of_recording(const std::filesystem::path& book,
                                               const std::string& recording);

}  // namespace footing
