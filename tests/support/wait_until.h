#pragma once

#include <doctest/doctest.h>

#include <chrono>
#include <functional>
#include <source_location>
#include <string>
#include <thread>

namespace footing::test {

/// For a slow computer; nothing is timed to pass or fail.
inline constexpr std::chrono::seconds patience{60};

/// Waits for what must come, and tells whether it came before patience ran out.
inline bool becomes(const std::function<bool()>& holds,
                    std::chrono::milliseconds look_period = std::chrono::milliseconds{5}) {
    const auto give_up = std::chrono::steady_clock::now() + patience;
    while (!holds()) {
        if (std::chrono::steady_clock::now() >= give_up) return false;
        std::this_thread::sleep_for(look_period);
    }
    return true;
}

/// Waits for what must come; a test that waits for something that never comes fails.
inline void wait_until(const std::function<bool()>& holds,
                       const std::source_location& where = std::source_location::current()) {
    const std::string asked_at = std::string(where.file_name()) + ":" + std::to_string(where.line());
    INFO("waited at ", asked_at);
    REQUIRE(becomes(holds));
}

}  // namespace footing::test
