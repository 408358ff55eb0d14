#pragma once

#include <chrono>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "acquisition/frame/clock.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/frame/result.h"

namespace footing {

class Arguments;

/// How long a verb that goes step by step waits for frames before it looks at the person again.
inline constexpr std::chrono::milliseconds poll_period{50};

/// Where live frames come from, as the words of the command line.
struct LiveLineOptions {
    std::string udp;
    std::string serial;
    std::string layout;
    double wait_s = 10.0;
};

/// Adds --udp, --serial, --layout and --wait. The caller says how many of the lines must be given.
Arguments* add_live_line(Arguments& verb, LiveLineOptions& options);

/// Not opened yet; `tell` takes what the coach should know while it opens (standard error unless said). Fails
/// with command_line or bad_input. The clock outlives the source.
[[nodiscard]] Result<std::unique_ptr<FrameSource>> make_live_source(
    const LiveLineOptions& options, const Clock& clock, std::function<void(const std::string&)> tell = {});

/// The same for several devices, each on a line of its own.
struct LiveLinesOptions {
    std::vector<std::string> udp;
    std::vector<std::string> serial;
    std::vector<std::string> layouts;  ///< none, or one for each line: those of --udp first
    double wait_s = 10.0;
};

enum class LinesAre { needed, optional };

/// Adds --udp, --serial, --layout and --wait; each line may be given again.
void add_live_lines(Arguments& verb, LiveLinesOptions& options, LinesAre lines = LinesAre::needed);

/// Whether there are as many lines and layouts as there may be, none twice; else command_line.
[[nodiscard]] Outcome check_live_lines(const LiveLinesOptions& options);

/// One source a line, those of --udp first. As make_live_source; fails with command_line besides when there
/// are more lines than can be joined, or not as many layouts as lines.
[[nodiscard]] Result<std::vector<std::unique_ptr<FrameSource>>> make_live_sources(
    const LiveLinesOptions& options, const Clock& clock, const std::function<void(const std::string&)>& tell);

/// What was typed since the last look: for programs that watch frames and a keyboard at once. After the end
/// of standard input there is nothing more to come.
class EnterKey {
  public:
    /// True when Enter was pressed since the last call. Never waits.
    [[nodiscard]] bool pressed();

  private:
    bool over_ = false;
};

}  // namespace footing
