#include "viewer/lesson/local_zone.h"

#include <glib.h>

namespace footing {

std::string local_zone() {
    GTimeZone* zone = g_time_zone_new_local();
    const char* name = g_time_zone_get_identifier(zone);
    std::string text = name != nullptr ? name : "";
    g_time_zone_unref(zone);
    // A zone given only as a path or an offset is no IANA name.
    if (text.empty() || text.front() == '/' || text.front() == ':') text = "UTC";
    return text;
}

}  // namespace footing
