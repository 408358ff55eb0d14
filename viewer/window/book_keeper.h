#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <future>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/clock.h"
#include "acquisition/frame/result.h"
#include "viewer/panels/view_action.h"
#include "viewer/panels/view_state.h"
#include "viewer/window/book_presence.h"

namespace footing {

/// What is asked of the book at once.
struct BookQuestion {
    std::uint64_t revision = 0;
    std::optional<std::int64_t> student;
    std::string new_student;  ///< to be added first; empty: nobody
    std::vector<StudentToWrite> to_write;
    std::vector<SwingToWrite> swings_to_write;
    BookUndo undo = BookUndo::none;
    std::string make_again;            ///< the change, where that is asked for
    std::vector<PlatesChoice> plates;  ///< the first to choose from
};

/// Opens the book (a new one where there is none), does to it what is asked for, reads what the screen shows,
/// and looks for serial ports. Problems are part of the answer. Blocks; not for the drawing thread.
[[nodiscard]] BookFacts ask_book(const std::filesystem::path& file, const BookQuestion& question,
                                 std::int64_t today);

/// Takes out of the book what is in the bin; sentences for people of what went and which recordings stay.
[[nodiscard]] Result<std::vector<std::string>> empty_bin(const std::filesystem::path& file,
                                                         const std::vector<BinItem>& bin);

/// Between the lesson book's file and the state of the window: reads on a thread of its own whenever another
/// revision is wanted than is there. Of the drawing thread; never makes it wait but in the destructor.
class BookKeeper {
  public:
    /// `changed` is called on the reading thread when an answer is there.
    BookKeeper(std::filesystem::path file, std::vector<PlatesChoice> plates, const Clock& clock,
               std::function<void()> changed);

    /// Says whether anything changed.
    [[nodiscard]] bool step(ViewState& state);

  private:
    std::filesystem::path file_;
    std::vector<PlatesChoice> plates_;
    std::optional<BookPresence> presence_;  ///< once the book is there
    const Clock& clock_;
    std::function<void()> changed_;
    std::vector<std::string> taken_back_;  ///< changes of the book, newest last; as many as the desk knows of
    std::future<BookFacts> answer_;
};

}  // namespace footing
