#include "analysis/report/csv_metadata.h"

#include <array>
#include <nlohmann/json.hpp>
#include <string_view>

#include "analysis/report/csv_report.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

/// A unit by what a column's name ends in; the longer endings first.
struct Ending {
    std::string_view end;
    const char* unit;
    const char* words;
};
constexpr std::array<Ending, 14> endings{{{"_rms_per_s3", "1/s3", "of the lead share's third derivative"},
                                          {"_noise_per_s3", "1/s3", "of the lead share's third derivative"},
                                          {"_per_s", "1/s", "lead share per second"},
                                          {"_time_u_s", "s", "standard uncertainty"},
                                          {"_u_s", "s", "standard uncertainty"},
                                          {"_time_s", "s", "from the first frame of the recording"},
                                          {"_s", "s", "duration"},
                                          {"_u_m", "m", "standard uncertainty"},
                                          {"_x_m", "m", "towards the target, from the middle of the plates"},
                                          {"_y_m", "m", "ahead, to the toes"},
                                          {"_m", "m", "length"},
                                          {"_bw", "body weight", "vertical load over body weight"},
                                          {"_percent", "%", "part of a hundred"},
                                          {"_rad", "rad", "angle"}}};

void add_unit(nlohmann::ordered_json& column, const std::string& name) {
    for (const Ending& ending : endings) {
        if (!name.ends_with(ending.end)) continue;
        column["schema:unitText"] = ending.unit;
        column["dc:description"] = ending.words;
        return;
    }
    if (name.ends_with("_deg")) {
        column["schema:unitText"] = "deg";
        column["dc:description"] = "angle";
        return;
    }
    column["schema:unitText"] = "1";
    column["dc:description"] = name == "swing"        ? "number of the swing, from 1 on"
                               : name.ends_with("_u") ? "standard uncertainty, as a fraction"
                               : name.find("share") != std::string::npos ? "fraction, 0 to 1"
                                                                         : "a number without a unit";
}

/// What a column of words holds.
const char* words_of(const std::string& name) {
    struct Told {
        std::string_view end;
        const char* words;
    };
    constexpr std::array<Told, 12> all{
        {{"momentum_verdict",
          "closed: the load adds up to one body weight over the swing; open: it does not"},
         {"_verdict",
          "against the band: inside, below, above, or too_close where the uncertainty allows no decision"},
         {"kind_source", "what told the kind: trigger, ripple (of the strike) or coach"},
         {"_source", "how the event was found: measured, estimated from the load, or coach"},
         {"kind", "shot, practice or unknown"},
         {"finish_held_end", "left: the hold was seen to end; not_seen: it lasted as long as was looked"},
         {"calibration", "state of the calibration"},
         {"started_zone", "offset from UTC and zone of the local time in the column started"},
         {"started", "when the recording began, local time"},
         {"hand", "right or left: how the golfer plays"},
         {"student", "name at the head of the report"},
         {"file", "the recording"}}};
    for (const Told& told : all) {
        if (name.ends_with(told.end)) return told.words;
    }
    return "words";
}

nlohmann::ordered_json datatype_of(CsvHolds holds) {
    switch (holds) {
        case CsvHolds::number:
            return {{"base", "number"}, {"format", {{"decimalChar", "."}}}};
        case CsvHolds::moment:
            return {{"base", "datetime"}, {"format", "yyyy-MM-dd HH:mm:ss"}};
        case CsvHolds::text:
            break;
    }
    return "string";
}

}  // namespace

std::string csv_metadata(const LessonResult& lesson, const std::string& csv_name) {
    nlohmann::ordered_json columns = nlohmann::ordered_json::array();
    for (const CsvColumn& column : csv_columns(lesson)) {
        nlohmann::ordered_json one{{"name", column.name}, {"titles", column.name}};
        one["datatype"] = datatype_of(column.holds);
        if (column.holds == CsvHolds::number) {
            add_unit(one, column.name);
        } else {
            one["dc:description"] = words_of(column.name);
        }
        columns.push_back(std::move(one));
    }
    const nlohmann::ordered_json table{
        {"@context", {"http://www.w3.org/ns/csvw", {{"@language", "en"}}}},
        {"url", clean_text(csv_name)},
        {"dialect", {{"delimiter", ","}, {"encoding", "utf-8"}, {"header", true}}},
        {"dc:title", "Swings of a lesson"},
        {"dc:description", "A row a swing; an empty field is a number that is not known"},
        {"tableSchema", {{"columns", columns}}}};
    return table.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace footing
