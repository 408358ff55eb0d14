#include "viewer/book/wedge_called.h"

#include "viewer/book/club_name.h"

namespace footing {

Result<std::optional<std::int64_t>> wedge_called(Book& book, std::int64_t student, const std::string& name) {
    if (name.empty()) return std::optional<std::int64_t>();
    const auto wedges = book.wedges(student);
    if (!wedges) return wedges.problem();
    if (const Wedge* known = find_club(wedges.value(), name)) return std::optional(known->id);
    Wedge wedge;
    wedge.student = student;
    wedge.name = name;
    const auto added = book.add_wedge(wedge);
    if (!added) return added.problem();
    return std::optional(added.value());
}

}  // namespace footing
