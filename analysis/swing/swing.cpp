#include "analysis/swing/swing.h"

namespace footing {

std::string source_name(EventSource source) {
    switch (source) {
        case EventSource::measured:
            return "measured";
        case EventSource::estimated:
            return "estimated";
        case EventSource::coach:
            return "coach";
    }
    return "estimated";
}

std::string kind_name(SwingKind kind) {
    switch (kind) {
        case SwingKind::shot:
            return "shot";
        case SwingKind::practice:
            return "practice";
        case SwingKind::unknown:
            return "unknown";
    }
    return "unknown";
}

std::string source_name(KindSource source) {
    switch (source) {
        case KindSource::trigger:
            return "trigger";
        case KindSource::ripple:
            return "ripple";
        case KindSource::coach:
            return "coach";
    }
    return "coach";
}

}  // namespace footing
