#include "viewer/command_line/window_option.h"

#include <algorithm>
#include <array>
#include <vector>

#include "viewer/command_line/checks.h"
#include "viewer/command_line/say.h"

namespace footing {

namespace {

const std::vector<std::string> text_size_names{"small", "usual", "large", "larger", "largest"};
static_assert(text_sizes.size() == 5);

}  // namespace

void add_window_options(Arguments& verb, WindowOptions& options) {
    const std::string as_left = "; unless said, as it was left";
    verb.add_option("--theme", options.theme, "colours" + as_left)
        ->check(one_of({"light", "dark", "outdoors"}));
    verb.add_option("--text-size", options.text_size, "of all words, as far as the window has room" + as_left)
        ->check(one_of(text_size_names));
    verb.add_option("--sounds", options.sounds, "on or off" + as_left)->check(one_of({"on", "off"}));
}

WindowMemory as_said(WindowMemory memory, const WindowOptions& options) {
    for (const Theme theme : {Theme::paper, Theme::slate, Theme::sun}) {
        if (options.theme == window_theme_name(theme)) memory.theme = theme;
    }
    if (options.text_size)
        memory.text_size = static_cast<std::size_t>(std::ranges::find(text_size_names, *options.text_size) -
                                                    text_size_names.begin());
    if (options.sounds) memory.sounds = *options.sounds == "off" ? Sounds::off : Sounds::on;
    return memory;
}

std::function<void(const ViewState& end, PixelSize size)> keeping_memory() {
    return [](const ViewState& end, PixelSize size) {
        const Outcome written = write_window_memory(usual_window_memory(), memory_of(end, size));
        if (!written) tell_line("note: how the window was left is not kept: " + sentence(written.problem()));
    };
}

}  // namespace footing
