#pragma once

#include <doctest/doctest.h>

#include <chrono>
#include <functional>
#include <thread>

namespace footing::test {

/// Waits for what must come; a test that waits for something that never comes fails after half a minute.
inline void wait_until(const std::function<bool()>& held) {
    using namespace std::chrono_literals;
    const auto give_up = std::chrono::steady_clock::now() + 30s;
    while (!held()) {
        REQUIRE(std::chrono::steady_clock::now() < give_up);
        std::this_thread::sleep_for(10ms);
    }
}

}  // namespace footing::test
