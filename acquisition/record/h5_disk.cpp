#include "acquisition/record/h5_disk.h"

#include <fcntl.h>
#include <hdf5.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <limits>
#include <utility>
#include <vector>

namespace footing::h5 {

namespace {

/// What the library copies into the settings, and gives back when it opens the file.
struct Request {
    int* disk_error;
};

/// Bytes that the disk did not take.
struct Refused {
    haddr_t address;
    std::vector<std::byte> bytes;
};

struct DiskFile : H5FD_t {
    int file = -1;
    int* disk_error = nullptr;
    haddr_t end_of_allocation = 0;
    haddr_t end_of_file = 0;
    std::vector<Refused> refused;  ///< the later over the earlier
};

DiskFile& disk_file(H5FD_t* file) {
    return *static_cast<DiskFile*>(file);
}
const DiskFile& disk_file(const H5FD_t* file) {
    return *static_cast<const DiskFile*>(file);
}

void note_error(const DiskFile& disk, int error) {
    if (*disk.disk_error == 0) *disk.disk_error = error;
}

/// 0, or the error's number.
int write_to_disk(int file, haddr_t address, const std::byte* bytes, std::size_t size) {
    while (size > 0) {
        const ssize_t written = ::pwrite(file, bytes, size, static_cast<off_t>(address));
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return errno;
        if (written == 0) return EIO;
        address += static_cast<haddr_t>(written);
        bytes += written;
        size -= static_cast<std::size_t>(written);
    }
    return 0;
}

/// Zeros behind the file's end. 0, or the error's number.
int read_from_disk(int file, haddr_t address, std::byte* bytes, std::size_t size) {
    while (size > 0) {
        const ssize_t got = ::pread(file, bytes, size, static_cast<off_t>(address));
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return errno;
        if (got == 0) break;
        address += static_cast<haddr_t>(got);
        bytes += got;
        size -= static_cast<std::size_t>(got);
    }
    std::fill_n(bytes, size, std::byte{0});
    return 0;
}

/// Lays over what was read what the disk did not take.
void lay_over(const Refused& refused, haddr_t address, std::byte* bytes, std::size_t size) {
    const haddr_t from = std::max(address, refused.address);
    const haddr_t to = std::min<haddr_t>(address + size, refused.address + refused.bytes.size());
    if (from >= to) return;
    const auto first = refused.bytes.begin() + static_cast<std::ptrdiff_t>(from - refused.address);
    std::copy_n(first, to - from, bytes + (from - address));
}

H5FD_t* open_file(const char* name, unsigned flags, hid_t settings, haddr_t) {
    const auto* request = static_cast<const Request*>(H5Pget_driver_info(settings));
    if (request == nullptr) return nullptr;
    int how = O_RDWR | O_CLOEXEC;
    if ((flags & H5F_ACC_CREAT) != 0) how |= O_CREAT;
    if ((flags & H5F_ACC_EXCL) != 0) how |= O_EXCL;
    if ((flags & H5F_ACC_TRUNC) != 0) how |= O_TRUNC;
    const int file = ::open(name, how, 0666);
    if (file < 0) {
        *request->disk_error = errno;
        return nullptr;
    }
    auto* const disk = new DiskFile{};
    disk->file = file;
    disk->disk_error = request->disk_error;
    return disk;
}

herr_t close_file(H5FD_t* file) {
    DiskFile& disk = disk_file(file);
    if (::close(disk.file) != 0) note_error(disk, errno);
    delete &disk;
    return 0;
}

herr_t say_abilities(const H5FD_t*, unsigned long* abilities) {
    *abilities = H5FD_FEAT_AGGREGATE_METADATA | H5FD_FEAT_ACCUMULATE_METADATA | H5FD_FEAT_DATA_SIEVE |
                 H5FD_FEAT_AGGREGATE_SMALLDATA | H5FD_FEAT_DEFAULT_VFD_COMPATIBLE;
    return 0;
}

haddr_t end_of_allocation(const H5FD_t* file, H5FD_mem_t) {
    return disk_file(file).end_of_allocation;
}
herr_t set_end_of_allocation(H5FD_t* file, H5FD_mem_t, haddr_t address) {
    disk_file(file).end_of_allocation = address;
    return 0;
}
haddr_t end_of_file(const H5FD_t* file, H5FD_mem_t) {
    return disk_file(file).end_of_file;
}

herr_t read_bytes(H5FD_t* file, H5FD_mem_t, hid_t, haddr_t address, std::size_t size, void* buffer) {
    const DiskFile& disk = disk_file(file);
    auto* const bytes = static_cast<std::byte*>(buffer);
    if (const int error = read_from_disk(disk.file, address, bytes, size); error != 0) {
        note_error(disk, error);
        return -1;
    }
    for (const Refused& refused : disk.refused) lay_over(refused, address, bytes, size);
    return 0;
}

herr_t write_bytes(H5FD_t* file, H5FD_mem_t, hid_t, haddr_t address, std::size_t size, const void* buffer) {
    DiskFile& disk = disk_file(file);
    const auto* const bytes = static_cast<const std::byte*>(buffer);
    if (*disk.disk_error == 0) note_error(disk, write_to_disk(disk.file, address, bytes, size));
    if (*disk.disk_error != 0) disk.refused.push_back({address, {bytes, bytes + size}});
    disk.end_of_file = std::max(disk.end_of_file, address + size);
    return 0;
}

herr_t cut_to_allocation(H5FD_t* file, hid_t, hbool_t) {
    DiskFile& disk = disk_file(file);
    if (disk.end_of_file == disk.end_of_allocation) return 0;
    if (*disk.disk_error == 0 && ::ftruncate(disk.file, static_cast<off_t>(disk.end_of_allocation)) != 0) {
        note_error(disk, errno);
    }
    disk.end_of_file = disk.end_of_allocation;
    return 0;
}

hid_t register_driver() {
    static const H5FD_class_t driver = [] {
        H5FD_class_t made{};
        made.name = "footing_disk";
        made.maxaddr = static_cast<haddr_t>(std::numeric_limits<off_t>::max());
        made.fc_degree = H5F_CLOSE_STRONG;
        made.fapl_size = sizeof(Request);
        made.open = open_file;
        made.close = close_file;
        made.query = say_abilities;
        made.get_eoa = end_of_allocation;
        made.set_eoa = set_end_of_allocation;
        made.get_eof = end_of_file;
        made.read = read_bytes;
        made.write = write_bytes;
        made.truncate = cut_to_allocation;
        const H5FD_mem_t one_list[H5FD_MEM_NTYPES] = H5FD_FLMAP_DICHOTOMY;
        std::copy(std::begin(one_list), std::end(one_list), std::begin(made.fl_map));
        return made;
    }();
    return H5FDregister(&driver);
}

}  // namespace

std::int64_t settings_for_new_file(int& disk_error) {
    static const hid_t driver = register_driver();
    const hid_t settings = H5Pcreate(H5P_FILE_ACCESS);
    const Request request{&disk_error};
    if (settings >= 0 && H5Pset_driver(settings, driver, &request) < 0) {
        H5Pclose(settings);
        return H5I_INVALID_HID;
    }
    return settings;
}

}  // namespace footing::h5
