#include "viewer/lesson/wall_time.h"

#include <glib.h>

#include <memory>

#include "acquisition/frame/units.h"

namespace footing {

namespace {

struct ZoneGone {
    void operator()(GTimeZone* zone) const { g_time_zone_unref(zone); }
};
struct TimeGone {
    void operator()(GDateTime* time) const { g_date_time_unref(time); }
};

std::string formatted(std::int64_t utc_ns, const std::string& zone_name, const char* format,
                      bool* known_zone) {
    std::unique_ptr<GTimeZone, ZoneGone> zone(g_time_zone_new_identifier(zone_name.c_str()));
    if (known_zone) *known_zone = zone != nullptr;
    if (!zone) zone.reset(g_time_zone_new_utc());
    const std::unique_ptr<GDateTime, TimeGone> utc(g_date_time_new_from_unix_utc(utc_ns / ns_per_s));
    if (!utc) return "";
    const std::unique_ptr<GDateTime, TimeGone> local(g_date_time_to_timezone(utc.get(), zone.get()));
    if (!local) return "";
    char* text = g_date_time_format(local.get(), format);
    const std::string copy = text ? text : "";
    g_free(text);
    return copy;
}

}  // namespace

std::string wall_time(std::int64_t utc_ns, const std::string& zone) {
    bool known_zone = false;
    const std::string time = formatted(utc_ns, zone, "%Y-%m-%d %H:%M:%S %z", &known_zone);
    return known_zone && !zone.empty() ? time + " (" + zone + ")" : time;
}

std::string file_stamp(std::int64_t utc_ns, const std::string& zone) {
    return formatted(utc_ns, zone, "%Y-%m-%d_%H%M%S", nullptr);
}

std::string time_of_day(std::int64_t utc_ns, const std::string& zone) {
    return formatted(utc_ns, zone, "%H:%M", nullptr);
}

std::string iso_date(std::int64_t utc_ns) {
    return formatted(utc_ns, "UTC", "%Y-%m-%d", nullptr);
}

}  // namespace footing
