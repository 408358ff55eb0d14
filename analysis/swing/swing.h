#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/swing/swing_numbers.h"
#include "analysis/swing/swing_portrait.h"
#include "analysis/swing/swing_stance.h"
#include "analysis/swing/verdict.h"

namespace footing {

enum class EventSource { measured, estimated, coach };

/// An instant of a swing. Seconds from the first frame of the recording, with its standard uncertainty.
struct Event {
    double time_s = 0.0;
    double u_s = 0.0;
    EventSource source = EventSource::estimated;
};

/// The events of a swing (docs/formulas.md says how each is found). One that cannot be found is absent, never
/// guessed.
struct SwingEvents {
    std::optional<Event> address;
    std::optional<Event> takeaway;
    std::optional<Event> turnaround;
    std::optional<Event> top;
    std::optional<Event> impact;
    std::optional<Event> finish;
};

// g++ 12 takes a scoped enumerator for a shadow of footing::unknown (analysis/pressure/load_trace.h); it
// hides nothing.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wshadow"
enum class SwingKind { shot, practice, unknown };
#pragma GCC diagnostic pop

/// What told the kind of a swing.
enum class KindSource { trigger, ripple, coach };

/// How the total load rippled about the strike, between 20 and 60 Hz, as root mean squares over 40 ms.
struct StrikeRipple {
    double peak_n = 0.0;   ///< the most about the impact
    double usual_n = 0.0;  ///< from the address to before the strike
    double most_n = 0.0;   ///< the most of it there
    double began_s = 0.0;  ///< when the 40 ms of peak_n began
    double body_n = 0.0;   ///< between 10 and 20 Hz in these 40 ms: what the body itself does
};

/// Lead share in [0, 1] with its standard uncertainty, and what it is against the target band.
struct ShareValue {
    double value = 0.0;
    double u = 0.0;
    Verdict verdict = Verdict::too_close;
};

struct SwingShares {
    std::optional<ShareValue> address;
    std::optional<ShareValue> turnaround;
    std::optional<ShareValue> top;
    std::optional<ShareValue> impact;
    std::optional<ShareValue> finish;
    std::optional<ShareValue> lowest;
};

/// Takeaway to top, top to impact, and their ratio.
struct Tempo {
    double backswing_s = 0.0;
    double downswing_s = 0.0;
    double ratio = 0.0;
};

/// Largest and smallest vertical load between takeaway and finish, in body weights.
struct VerticalLoad {
    double max_bw = 0.0;
    double min_bw = 0.0;
    double max_time_s = 0.0;  ///< when it was largest
};

/// Of the lead share's speed between takeaway and impact (docs/formulas.md); nearer zero is smoother.
struct Smoothness {
    double sparc = 0.0;  ///< spectral arc length
    double ldlj = 0.0;   ///< log dimensionless jerk
};

/// Centre of pressure at the events, stance frame: x towards the target, y ahead.
struct SwingCop {
    std::optional<PointM> address;
    std::optional<PointM> top;
    std::optional<PointM> impact;
    std::optional<PointM> finish;
};

/// Centre of pressure of one foot at the events, and its standard uncertainties.
struct FootCops {
    SwingCop cop_m;
    SwingCop cop_u_m;
};

/// What share and load each tell of a strike by themselves: the share's return, the peak of the push, its
/// end, and the lowest load after it. Absent where it cannot be seen.
using StrikeWitnesses = std::array<std::optional<double>, 4>;

struct Swing {
    std::size_t index = 0;  ///< 1-based, in order of time
    SwingKind kind = SwingKind::unknown;
    std::optional<KindSource> kind_source;  ///< absent where the kind is unknown
    double from_s = 0.0;                    ///< what to show: a little before the address …
    double to_s = 0.0;                      ///< … to a little after the finish
    SwingEvents events;
    /// What was found where the coach marked something else; empty where nothing is marked.
    SwingEvents found_events;
    std::optional<SwingKind> found_kind;  ///< present where the coach said what kind it is
    SwingShares lead_share;
    std::optional<Tempo> tempo;
    std::optional<VerticalLoad> vertical;
    std::optional<Smoothness> smoothness;
    SwingCop cop_m;
    SwingCop cop_u_m;  ///< standard uncertainties of x and y
    FootCops lead;     ///< of the lead foot by itself; absent where the feet cannot be told apart
    FootCops trail;
    std::optional<SwingStance> stance;  ///< mats only
    std::optional<SwingFeet> feet;      ///< mats only
    std::optional<StrikeRipple> strike_ripple;
    /// How much later the strike was than each witness tells it, s; where trigger or ripple tell of one.
    std::optional<StrikeWitnesses> strike_after_witnesses_s;
    /// Where it is sure to be a swing: what others of this golfer are likened to.
    std::optional<SwingPortrait> portrait;
    SwingNumbers numbers;
};

[[nodiscard]] std::string source_name(EventSource source);  ///< measured, estimated, coach
[[nodiscard]] std::string kind_name(SwingKind kind);        ///< shot, practice, unknown
[[nodiscard]] std::string source_name(KindSource source);   ///< trigger, ripple, coach

/// The six events by name, in the order of a swing; for lists, tables and figures.
struct NamedEvent {
    const char* name;
    std::optional<Event> SwingEvents::*member;
};
inline constexpr std::array<NamedEvent, 6> named_events{{{"address", &SwingEvents::address},
                                                         {"takeaway", &SwingEvents::takeaway},
                                                         {"turnaround", &SwingEvents::turnaround},
                                                         {"top", &SwingEvents::top},
                                                         {"impact", &SwingEvents::impact},
                                                         {"finish", &SwingEvents::finish}}};

struct NamedShare {
    const char* name;
    std::optional<ShareValue> SwingShares::*member;
};
inline constexpr std::array<NamedShare, 6> named_shares{{{"address", &SwingShares::address},
                                                         {"turnaround", &SwingShares::turnaround},
                                                         {"top", &SwingShares::top},
                                                         {"impact", &SwingShares::impact},
                                                         {"finish", &SwingShares::finish},
                                                         {"lowest", &SwingShares::lowest}}};

struct NamedCop {
    const char* name;
    std::optional<PointM> SwingCop::*member;
};
inline constexpr std::array<NamedCop, 4> named_cops{{{"address", &SwingCop::address},
                                                     {"top", &SwingCop::top},
                                                     {"impact", &SwingCop::impact},
                                                     {"finish", &SwingCop::finish}}};

}  // namespace footing
