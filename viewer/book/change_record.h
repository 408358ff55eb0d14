#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"

struct sqlite3;
struct sqlite3_session;

namespace footing {

/// The table that changes are kept in; changes to itself are none.
inline constexpr const char* change_log_table = "change_log";

/// How many rows of a table came back, were changed back or went again.
struct UndoneRows {
    std::string table;
    std::size_t returned = 0;
    std::size_t changed = 0;
    std::size_t removed = 0;
    std::vector<std::int64_t> ids;  ///< of all of them, where the table's first column is a number
};

struct UndoneChange {
    std::string made_at;  ///< when the change was made: UTC, 2026-11-25 10:20:44
    std::string changes;  ///< the change itself, to be made again
    std::vector<UndoneRows> rows;
};

/// Watches a connection for as long as it lives, and tells what was changed in all tables but the log, in the
/// form of SQLite's session extension.
class ChangeRecord {
  public:
    explicit ChangeRecord(sqlite3* connection);

    /// What was changed since it began: empty bytes when nothing was, nothing when it could not be recorded.
    [[nodiscard]] std::optional<std::string> changes() const;

  private:
    struct End {
        void operator()(sqlite3_session* session) const;
    };
    std::unique_ptr<sqlite3_session, End> session_;
};

/// What taking these changes back would do; empty when the bytes are no changes.
[[nodiscard]] std::vector<UndoneRows> rows_to_undo(std::string changes);

/// Takes changes back, all of them or none, within a transaction of the caller; nothing when a row is no
/// longer as they left it or the bytes are no changes.
[[nodiscard]] std::optional<std::vector<UndoneRows>> take_back(sqlite3* connection, std::string changes);

/// Makes changes that were taken back again, under the same terms.
[[nodiscard]] std::optional<std::vector<UndoneRows>> make_again(sqlite3* connection, std::string changes);

}  // namespace footing
