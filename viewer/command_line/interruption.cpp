#include "viewer/command_line/interruption.h"

#include <csignal>

namespace footing {

namespace {

std::atomic<bool> end_asked{false};
static_assert(std::atomic<bool>::is_always_lock_free, "set from a signal handler");

WorkWatch watch;  // what the handler needs of it is an atomic flag too

void note_end_asked(int) {
    end_asked = true;
    watch.give_up();
}

}  // namespace

void heed_interruption() {
    end_asked = false;
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) std::signal(signal, note_end_asked);
    std::signal(SIGPIPE, SIG_IGN);
}

WorkWatch& heed_interruption_by_watch() {
    heed_interruption();
    return watch;
}

const std::atomic<bool>& interruption() {
    return end_asked;
}

}  // namespace footing
