#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "acquisition/frame/result.h"
#include "viewer/book/change_record.h"

struct sqlite3;

namespace footing {

/// What a cell of a table can hold; monostate is "not known" (NULL).
using Cell = std::variant<std::monostate, std::int64_t, double, std::string>;

/// One row of an answer, by column.
class Row {
  public:
    explicit Row(std::vector<Cell> cells) : cells_(std::move(cells)) {}
    [[nodiscard]] const std::vector<Cell>& cells() const { return cells_; }
    [[nodiscard]] std::int64_t integer(std::size_t column) const;
    [[nodiscard]] std::optional<std::int64_t> maybe_integer(std::size_t column) const;
    [[nodiscard]] std::optional<double> maybe_real(std::size_t column) const;
    [[nodiscard]] double real(std::size_t column) const { return maybe_real(column).value_or(0.0); }
    [[nodiscard]] std::string text(std::size_t column) const;  ///< empty when not known

  private:
    std::vector<Cell> cells_;
};

[[nodiscard]] Cell cell_of(const std::optional<double>& value);
[[nodiscard]] Cell cell_of(const std::optional<std::int64_t>& value);

/// `to_read`: nothing is going to be changed, so that a file or folder that may not be written to will do.
enum class OpenAs { to_read, existing, create_if_absent };

/// One connection to one SQLite file: foreign keys, every commit on the disk before it returns, five seconds
/// of patience with another program that writes. SQLite's errors are translated here, and only here. One
/// thread.
class Database {
  public:
    /// Fails with bad_input: a folder, no file, an empty one, no database; disk_failed: it may not be opened,
    /// or not be written to. A new file is readable by its owner only.
    [[nodiscard]] static Result<Database> open(const std::filesystem::path& path, OpenAs how);
    /// One that lives in memory, to try things with.
    [[nodiscard]] static Result<Database> in_memory();

    /// Whether the file or its folder may not be written to.
    [[nodiscard]] bool is_read_only() const { return access_ == Access::reading; }

    /// From here on readers and a writer do not wait for each other (write-ahead log). Not before it is known
    /// that the file is ours: it changes the file.
    [[nodiscard]] Outcome keep_write_ahead_log();

    /// From here on every transaction leaves in the change log what takes it back.
    void keep_change_log() { changes_ = Changes::logged; }
    using LookAtRows = std::function<void(const std::vector<UndoneRows>&)>;
    /// Takes the newest transaction of the log back. `look` sees the rows before, while those that will go
    /// are still there, and after. Fails with command_line: the log is empty; bad_input: the rows are no
    /// longer as it left them.
    [[nodiscard]] Result<UndoneChange> take_back_newest(const LookAtRows& look);
    /// Makes a change that was taken back again, as a change of its own that can be taken back too. Fails
    /// with bad_input: the rows are no longer as they were when it was taken back.
    [[nodiscard]] Result<std::vector<UndoneRows>> make_again(const std::string& changes);
    /// The same of what was taken back last, whichever program did. Fails with command_line too: nothing was
    /// taken back since the newest change.
    [[nodiscard]] Result<UndoneChange> make_newest_again();

    /// One statement without an answer. Values take the places of its question marks.
    [[nodiscard]] Outcome run(std::string_view sql, const std::vector<Cell>& values = {});
    /// Several statements, separated by semicolons.
    [[nodiscard]] Outcome run_script(const std::string& sql);
    [[nodiscard]] Result<std::vector<Row>> rows(std::string_view sql, const std::vector<Cell>& values = {});
    /// The first column of the first row as a whole number; 0 when there is no row.
    [[nodiscard]] Result<std::int64_t> number(std::string_view sql, const std::vector<Cell>& values = {});
    [[nodiscard]] std::vector<std::string> columns_of(std::string_view sql);

    [[nodiscard]] std::int64_t last_id() const;

    /// Runs `work` in a transaction that no other writer can enter: all of it is kept, or nothing. Within
    /// another transaction it is a part of that, which must end when this fails.
    [[nodiscard]] Outcome in_transaction(const std::function<Outcome()>& work);

    /// The same for good: nothing of it, nor of what came before, can be taken back, or read in the change
    /// log.
    [[nodiscard]] Outcome in_transaction_for_good(const std::function<Outcome()>& work);

    /// A copy of the whole file as it is now, while others may go on writing, into a file that is absent or
    /// empty.
    [[nodiscard]] Outcome copy_to(const std::filesystem::path& path);

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    struct Close {
        void operator()(sqlite3* connection) const;
    };
    enum class Access { reading, writing };
    /// `made_again`: logged, and what else was taken back can still be made again.
    enum class Changes { not_logged, logged, made_again };
    /// `alone`: without the memory that programs share beside the file, and so no other can open it
    /// meanwhile.
    enum class Sharing { with_others, alone };
    Database(std::unique_ptr<sqlite3, Close> connection, std::filesystem::path path, Access access)
        : connection_(std::move(connection)), path_(std::move(path)), access_(access) {}
    [[nodiscard]] static Result<Database> connect(const std::string& name, const std::filesystem::path& path,
                                                  Access access, Sharing sharing);
    [[nodiscard]] static Result<Database> connect_on_full_disk(const std::filesystem::path& path);
    [[nodiscard]] Problem problem() const;
    [[nodiscard]] Outcome log_changes(const ChangeRecord& record);
    [[nodiscard]] Outcome each_row(std::string_view sql, const std::vector<Cell>& values,
                                   const std::function<void(Row)>& take);

    std::unique_ptr<sqlite3, Close> connection_;
    std::filesystem::path path_;
    Access access_;
    Changes changes_ = Changes::not_logged;
};

}  // namespace footing
