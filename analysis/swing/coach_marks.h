#pragma once

#include <array>
#include <optional>
#include <vector>

#include "analysis/swing/swing.h"

namespace footing {

enum class MarkedAs { swing, not_a_swing };

/// What the coach says of one swing. Times are seconds from the first frame.
struct CoachMark {
    /// The impact of the swing when it was marked. It says which swing is meant, whatever number later
    /// versions give it.
    double near_s = 0.0;
    std::array<std::optional<double>, named_events.size()> event_s;  ///< in the order of named_events
    std::optional<SwingKind> kind;
    MarkedAs marked_as = MarkedAs::swing;

    /// Nothing is said any more.
    [[nodiscard]] bool empty() const;
};

/// Whether a trigger that stayed silent tells of a practice swing. Only the coach knows that of a trigger.
enum class TriggerTrust { may_miss, never_misses };

/// All marks of a recording, kept apart from what was found (docs/formulas.md, F26).
struct CoachMarks {
    std::vector<CoachMark> swings;
    TriggerTrust trigger = TriggerTrust::may_miss;

    /// Nothing is said at all.
    [[nodiscard]] bool empty() const;
};

/// Marks nearer to each other than this are of one swing.
inline constexpr double same_swing_s = 1.0;

/// Two marked events that do not follow each other as in a swing, places in named_events; `later` must come
/// after `earlier`.
struct OutOfOrder {
    std::size_t earlier = 0;
    std::size_t later = 0;
};
/// The first such pair, one instant for two events included; nothing where all is in order.
[[nodiscard]] std::optional<OutOfOrder> out_of_order(const CoachMark& mark);

/// The mark whose swing has its impact within a second of `impact_s`, the nearest one; or none.
[[nodiscard]] const CoachMark* mark_near(const CoachMarks& marks, double impact_s);

/// The marked events, with the uncertainty of a mark: 10 ms (common practice, no source: a hand on a screen);
/// a marked address is the middle of a window of half a second.
[[nodiscard]] SwingEvents marked_events(const CoachMark& mark);

/// Which of `events` the coach's marks contradict: events must follow each other in the order of
/// named_events. A found event that is on the wrong side of a marked one is taken out.
void drop_contradicted(SwingEvents& events);

}  // namespace footing
