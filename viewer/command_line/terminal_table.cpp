#include "viewer/command_line/terminal_table.h"

#include <sys/ioctl.h>
#include <unistd.h>

namespace footing {

std::size_t terminal_columns() {
    winsize size{};
    if (::isatty(STDOUT_FILENO) != 1 || ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
        return TableRoom::no_limit;
    return size.ws_col;
}

std::string terminal_table(const std::vector<TableColumn>& columns,
                           const std::vector<std::vector<std::string>>& rows) {
    return text_table(columns, rows, {0, terminal_columns()});
}

}  // namespace footing
