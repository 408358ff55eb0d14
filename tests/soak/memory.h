#pragma once

#include <fstream>
#include <string>

#include <sys/types.h>

namespace footing {

/// A line of /proc/PID/status in MB: "VmRSS:" now, "VmHWM:" the most so far. 0 when the process is gone.
inline double memory_mb(const std::string& line, const std::string& process = "self") {
    std::ifstream status("/proc/" + process + "/status");
    for (std::string word; status >> word;) {
        double kilobytes = 0.0;
        if (word == line && status >> kilobytes) return kilobytes / 1024.0;
    }
    return 0.0;
}

}  // namespace footing
