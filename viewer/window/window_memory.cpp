#include "viewer/window/window_memory.h"

#include <glib.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <utility>

#include "acquisition/record/safe_file.h"

namespace footing {

namespace {

using Json = nlohmann::json;

constexpr int version = 1;
constexpr int least_side = 400;
constexpr int most_side = 16384;
constexpr std::size_t most_bytes = 1 << 20;
constexpr std::size_t most_recent = 12;

std::string text_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::string text(most_bytes + 1, '\0');
    in.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(std::max<std::streamsize>(in.gcount(), 0)));
    return text.size() > most_bytes ? std::string() : text;
}

std::size_t place_in(const Json& json, const char* name, std::size_t count, std::size_t usual) {
    const auto found = json.find(name);
    if (found == json.end() || !found->is_number_unsigned()) return usual;
    const auto place = found->get<std::size_t>();
    return place < count ? place : usual;
}

Theme theme_named(const std::string& name) {
    for (const Theme theme : {Theme::paper, Theme::slate, Theme::sun}) {
        if (name == window_theme_name(theme)) return theme;
    }
    return Theme::paper;
}

}  // namespace

std::filesystem::path usual_window_memory() {
    return std::filesystem::path(g_get_user_state_dir()) / "footing" / "window.json";
}

WindowMemory read_window_memory(const std::filesystem::path& file) {
    WindowMemory memory;
    const Json json = Json::parse(text_of(file), nullptr, false);
    if (!json.is_object() || json.value("format", Json()) != "footing window") return memory;
    if (json.value("version", Json()) != version) return memory;
    const auto word = [&](const char* name) {
        const auto found = json.find(name);
        return found != json.end() && found->is_string() ? found->get<std::string>() : std::string();
    };
    memory.theme = theme_named(word("theme"));
    memory.text_size = place_in(json, "text_size", text_sizes.size(), usual_text_size);
    memory.speed = place_in(json, "speed", play_speeds.size(), real_time_speed);
    memory.sounds = word("sounds") == "off" ? Sounds::off : Sounds::on;
    memory.looping = word("loop") == "on" ? Looping::on : Looping::off;
    const std::size_t width = place_in(json, "width", most_side, 0);
    const std::size_t height = place_in(json, "height", most_side, 0);
    if (width >= least_side && height >= least_side)
        memory.size = {static_cast<int>(width), static_cast<int>(height)};
    const auto recent = json.find("recent");
    if (recent == json.end() || !recent->is_array()) return memory;
    for (const Json& path : *recent) {
        if (path.is_string() && memory.recent.size() < most_recent)
            memory.recent.push_back(path.get<std::string>());
    }
    return memory;
}

Outcome write_window_memory(const std::filesystem::path& file, const WindowMemory& memory) {
    const Json json{{"format", "footing window"},
                    {"version", version},
                    {"theme", window_theme_name(memory.theme)},
                    {"text_size", memory.text_size},
                    {"sounds", memory.sounds == Sounds::on ? "on" : "off"},
                    {"speed", memory.speed},
                    {"loop", memory.looping == Looping::on ? "on" : "off"},
                    {"width", memory.size.width},
                    {"height", memory.size.height},
                    {"recent", memory.recent}};
    std::error_code ignored;
    std::filesystem::create_directories(file.parent_path(), ignored);  // writing tells if it is not there
    // A path may hold bytes that are no text; they are replaced rather than refused.
    const std::string text = json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
    return write_file_safely(file, text, FileReaders::owner);
}

WindowMemory memory_of(const ViewState& state, PixelSize size) {
    return {state.theme, state.text_size, state.sounds, state.speed, state.looping, size, state.recent};
}

ViewState with_memory(ViewState state, const WindowMemory& memory) {
    state.theme = memory.theme;
    state.text_size = memory.text_size;
    state.sounds = memory.sounds;
    state.speed = memory.speed;
    state.looping = memory.looping;
    state.recent = memory.recent;
    return state;
}

}  // namespace footing
