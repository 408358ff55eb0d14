#include "acquisition/record/h5_writer.h"

#include <hdf5.h>

#include <algorithm>
#include <cerrno>
#include <utility>

#include "acquisition/record/file_steps.h"
#include "acquisition/record/h5_disk.h"

namespace footing::h5 {

namespace {

/// Closes what it holds with the function that fits.
class Handle {
  public:
    Handle(hid_t id, herr_t (*close)(hid_t)) : id_(id), close_(close) {}
    Handle(const Handle&) = delete;
    Handle& operator=(const Handle&) = delete;
    ~Handle() {
        if (id_ >= 0) close_(id_);
    }
    [[nodiscard]] hid_t id() const { return id_; }
    [[nodiscard]] bool ok() const { return id_ >= 0; }

  private:
    hid_t id_;
    herr_t (*close_)(hid_t);
};

/// The library prints its errors unless told not to, anew in each thread; ours are values.
void be_quiet() {
    H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
}

hid_t stored_type(recording::ElementType type) {
    switch (type) {
        case recording::ElementType::uint16:
            return H5T_STD_U16LE;
        case recording::ElementType::uint32:
            return H5T_STD_U32LE;
        case recording::ElementType::uint64:
            return H5T_STD_U64LE;
        case recording::ElementType::int32:
            return H5T_STD_I32LE;
        case recording::ElementType::int64:
            return H5T_STD_I64LE;
        case recording::ElementType::float64:
            return H5T_IEEE_F64LE;
        case recording::ElementType::text:
            break;
    }
    return H5I_INVALID_HID;
}

hid_t text_type(std::size_t bytes) {
    const hid_t type = H5Tcopy(H5T_C_S1);
    H5Tset_size(type, std::max<std::size_t>(bytes, 1));
    H5Tset_strpad(type, H5T_STR_NULLPAD);
    H5Tset_cset(type, H5T_CSET_UTF8);
    return type;
}

hid_t space_of(const std::vector<std::uint64_t>& shape) {
    if (shape.empty()) return H5Screate(H5S_SCALAR);
    const std::vector<hsize_t> dimensions(shape.begin(), shape.end());
    return H5Screate_simple(static_cast<int>(shape.size()), dimensions.data(), nullptr);
}

}  // namespace

FileWriter::FileWriter(const std::filesystem::path& path, std::filesystem::path known_as)
    : known_as_(std::move(known_as)) {
    be_quiet();
    const Handle access(settings_for_new_file(disk_error_), H5Pclose);
    H5Pset_libver_bounds(access.id(), H5F_LIBVER_EARLIEST, H5F_LIBVER_V18);
    file_ = H5Fcreate(path.c_str(), H5F_ACC_EXCL, H5P_DEFAULT, access.id());
    if (file_ < 0) fail("be created");
}

FileWriter::~FileWriter() {
    close();
}

void FileWriter::make_group(std::string_view path) {
    if (!usable()) return;
    const Handle group(H5Gcreate2(file_, std::string(path).c_str(), H5P_DEFAULT, H5P_DEFAULT, H5P_DEFAULT),
                       H5Gclose);
    if (!group.ok()) fail("be written");
}

void FileWriter::put_attribute(std::string_view object, std::string_view name, std::string_view text) {
    const Handle type(text_type(text.size()), H5Tclose);
    std::string value(text);
    value.resize(std::max<std::size_t>(value.size(), 1), '\0');
    put_number(object, name, type.id(), value.data());
}

void FileWriter::put_attribute(std::string_view object, std::string_view name, std::uint32_t number) {
    put_number(object, name, H5T_STD_U32LE, &number);
}

void FileWriter::put_attribute(std::string_view object, std::string_view name, std::uint64_t number) {
    put_number(object, name, H5T_STD_U64LE, &number);
}

void FileWriter::put_attribute(std::string_view object, std::string_view name, double number) {
    put_number(object, name, H5T_IEEE_F64LE, &number);
}

void FileWriter::put_number(std::string_view object, std::string_view name, std::int64_t type,
                            const void* number) {
    if (!usable()) return;
    const Handle opened(H5Oopen(file_, std::string(object).c_str(), H5P_DEFAULT), H5Oclose);
    put_on(opened.id(), name, type, number);
}

void FileWriter::put_on(std::int64_t object, std::string_view name, std::int64_t type, const void* value) {
    const Handle space(H5Screate(H5S_SCALAR), H5Sclose);
    const Handle attribute(
        H5Acreate2(object, std::string(name).c_str(), type, space.id(), H5P_DEFAULT, H5P_DEFAULT), H5Aclose);
    if (!attribute.ok() || H5Awrite(attribute.id(), type, value) < 0) fail("be written");
}

void FileWriter::put_unit(std::int64_t dataset, std::string_view unit) {
    const Handle type(text_type(unit.size()), H5Tclose);
    put_on(dataset, recording::unit::attribute, type.id(), std::string(unit).c_str());
}

void FileWriter::put_bytes(const recording::DatasetFormat& format, const std::vector<std::uint64_t>& shape,
                           std::span<const std::byte> bytes) {
    if (!usable()) return;
    const hid_t type = stored_type(format.type);
    const Handle space(space_of(shape), H5Sclose);
    const Handle dataset(H5Dcreate2(file_, std::string(format.path).c_str(), type, space.id(), H5P_DEFAULT,
                                    H5P_DEFAULT, H5P_DEFAULT),
                         H5Dclose);
    if (!dataset.ok() ||
        (!bytes.empty() && H5Dwrite(dataset.id(), type, H5S_ALL, H5S_ALL, H5P_DEFAULT, bytes.data()) < 0)) {
        fail("be written");
        return;
    }
    put_unit(dataset.id(), format.unit);
}

void FileWriter::put_texts(const recording::DatasetFormat& format, const std::vector<std::uint64_t>& shape,
                           std::span<const std::string> texts) {
    if (!usable()) return;
    std::size_t longest = 1;
    for (const std::string& text : texts) longest = std::max(longest, text.size());
    std::string packed;
    for (const std::string& text : texts) packed += text + std::string(longest - text.size(), '\0');
    const Handle type(text_type(longest), H5Tclose);
    const Handle space(space_of(shape), H5Sclose);
    const Handle dataset(H5Dcreate2(file_, std::string(format.path).c_str(), type.id(), space.id(),
                                    H5P_DEFAULT, H5P_DEFAULT, H5P_DEFAULT),
                         H5Dclose);
    if (!dataset.ok() || (!packed.empty() && H5Dwrite(dataset.id(), type.id(), H5S_ALL, H5S_ALL, H5P_DEFAULT,
                                                      packed.data()) < 0)) {
        fail("be written");
        return;
    }
    put_unit(dataset.id(), format.unit);
}

GrowingDataset FileWriter::make_growing(const recording::DatasetFormat& format,
                                        const std::vector<std::uint64_t>& frame_shape,
                                        std::uint64_t chunk_frames) {
    if (!usable()) return {};
    std::vector<hsize_t> now{0};
    std::vector<hsize_t> most{H5S_UNLIMITED};
    std::vector<hsize_t> chunk{chunk_frames};
    for (const std::uint64_t dimension : frame_shape) {
        now.push_back(dimension);
        most.push_back(dimension);
        chunk.push_back(dimension);
    }
    const int rank = static_cast<int>(now.size());
    const Handle space(H5Screate_simple(rank, now.data(), most.data()), H5Sclose);
    const Handle creation(H5Pcreate(H5P_DATASET_CREATE), H5Pclose);
    H5Pset_chunk(creation.id(), rank, chunk.data());
    H5Pset_fill_time(creation.id(), H5D_FILL_TIME_NEVER);
    H5Pset_shuffle(creation.id());
    H5Pset_deflate(creation.id(), 1);
    const hid_t dataset = H5Dcreate2(file_, std::string(format.path).c_str(), stored_type(format.type),
                                     space.id(), H5P_DEFAULT, creation.id(), H5P_DEFAULT);
    if (dataset < 0) {
        fail("be written");
        return {};
    }
    growing_.push_back(dataset);
    put_unit(dataset, format.unit);
    return {dataset, now.size(), chunk_frames};
}

void FileWriter::put_chunk(const GrowingDataset& dataset, std::uint64_t first_frame,
                           std::uint64_t frames_then, std::span<const std::byte> compressed) {
    if (!usable()) return;
    be_quiet();
    const Handle space(H5Dget_space(dataset.handle), H5Sclose);
    std::vector<hsize_t> shape(dataset.rank);
    H5Sget_simple_extent_dims(space.id(), shape.data(), nullptr);
    shape[0] = frames_then;
    std::vector<hsize_t> origin(dataset.rank, 0);
    origin[0] = first_frame;
    if (H5Dset_extent(dataset.handle, shape.data()) < 0 ||
        H5Dwrite_chunk(dataset.handle, H5P_DEFAULT, 0, origin.data(), compressed.size(), compressed.data()) <
            0) {
        fail("be written");
    }
}

void FileWriter::close() {
    if (file_ < 0) return;
    be_quiet();
    bool closed = true;
    for (const std::int64_t dataset : growing_) closed = H5Dclose(dataset) >= 0 && closed;
    growing_.clear();
    closed = H5Fclose(std::exchange(file_, -1)) >= 0 && closed;
    if (!closed) fail("be written out");
}

Outcome FileWriter::outcome() const {
    if (outcome_.ok() && disk_error_ != 0) return disk_problem(known_as_, "be written", disk_error_);
    return outcome_;
}

void FileWriter::fail(std::string_view what) {
    if (!outcome_.ok()) return;
    outcome_ = disk_problem(known_as_, std::string(what), disk_error_ != 0 ? disk_error_ : EIO);
}

}  // namespace footing::h5
