#include "viewer/command_line/interruption.h"

#include <csignal>

namespace footing {

namespace {

std::atomic<bool> end_asked{false};
static_assert(std::atomic<bool>::is_always_lock_free, "set from a signal handler");

void note_end_asked(int) {
    end_asked = true;
}

}  // namespace

void heed_interruption() {
    end_asked = false;
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) std::signal(signal, note_end_asked);
    std::signal(SIGPIPE, SIG_IGN);
}

const std::atomic<bool>& interruption() {
    return end_asked;
}

}  // namespace footing
