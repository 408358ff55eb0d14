#pragma once

#include <sys/mount.h>

#include <filesystem>
#include <string>

#include "tests/support/child_process.h"

namespace footing::test {

/// A disk of `size` ("4m"), in memory; needs the right to mount.
class SmallDisk {
  public:
    explicit SmallDisk(const char* size) {
        mounted_ =
            ::mount("tmpfs", folder_.path().c_str(), "tmpfs", 0, (std::string("size=") + size).c_str()) == 0;
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    ~SmallDisk() {
        if (mounted_) ::umount2(folder_.path().c_str(), MNT_DETACH);
    }
    [[nodiscard]] bool exists() const { return mounted_; }
    /// Takes the disk away; the system refuses while a file on it is open.
    [[nodiscard]] bool can_be_removed() {
        if (::umount2(folder_.path().c_str(), 0) != 0) return false;
        mounted_ = false;
        return true;
    }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }

  private:
    ScratchFolder folder_;
    bool mounted_ = false;
};

}  // namespace footing::test
