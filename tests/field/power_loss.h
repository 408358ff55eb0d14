#pragma once

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <map>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "tests/record/samples.h"
#include "tests/support/file_operations.h"

namespace footing::test {

/// A disk that keeps for certain only what was synced: bytes by fsync of their file, names by fsync of their
/// folder. When the power goes, each write since then may be there, missing, zeros or scrambled, each on its
/// own; of the names given and taken since then, the first so many hold, as on any file system that journals
/// names.
class PowerLossDisk {
  public:
    /// The disk after these operations.
    explicit PowerLossDisk(std::span<const FileOperation> operations) {
        for (const FileOperation& operation : operations) take(operation);
    }

    enum class Unsynced { lost, up_to_chance };

    /// Puts what the disk holds after the power went into an empty folder, under the last part of each name.
    void leave(const std::filesystem::path& folder, Unsynced fate, samples::Chance& chance) const {
        std::map<std::string, std::size_t> names = lasting_names_;
        const std::size_t kept = fate == Unsynced::lost ? 0 : chance.below(name_changes_.size() + 1);
        for (std::size_t i = 0; i < kept; ++i) change(names, name_changes_[i]);
        for (const auto& [name, file] : names) {
            samples::put_bytes(folder / std::filesystem::path(name).filename(),
                               bytes_of(files_[file], fate, chance));
        }
    }
    [[nodiscard]] bool has_synced_a_name() const { return !lasting_names_.empty(); }

  private:
    struct File {
        std::vector<char> lasting;
        std::vector<FileOperation> since;  ///< writes and truncations not synced yet
    };
    struct NameChange {
        FileOperation operation;
        std::size_t file = 0;  ///< for create
    };

    void take(const FileOperation& operation) {
        switch (operation.kind) {
            case FileOperation::Kind::create:
                file_of_inode_[operation.inode] = files_.size();
                name_changes_.push_back({operation, files_.size()});
                files_.emplace_back();
                break;
            case FileOperation::Kind::write:
            case FileOperation::Kind::truncate:
                files_.at(file_of_inode_.at(operation.inode)).since.push_back(operation);
                break;
            case FileOperation::Kind::sync: {
                File& file = files_.at(file_of_inode_.at(operation.inode));
                for (const FileOperation& write : file.since) apply(file.lasting, write, write.first);
                file.since.clear();
                break;
            }
            case FileOperation::Kind::sync_folder:
                for (const NameChange& one : name_changes_) change(lasting_names_, one);
                name_changes_.clear();
                break;
            case FileOperation::Kind::rename:
            case FileOperation::Kind::link:
            case FileOperation::Kind::unlink:
                name_changes_.push_back({operation, 0});
                break;
        }
    }

    static void change(std::map<std::string, std::size_t>& names, const NameChange& change) {
        const FileOperation& operation = change.operation;
        if (operation.kind == FileOperation::Kind::create) {
            names[operation.first] = change.file;
            return;
        }
        if (!operation.second.empty()) names[operation.second] = names.at(operation.first);
        if (operation.kind != FileOperation::Kind::link) names.erase(operation.first);
    }

    static void apply(std::vector<char>& bytes, const FileOperation& operation, const std::string& data) {
        if (operation.kind == FileOperation::Kind::truncate) {
            bytes.resize(operation.offset);
            return;
        }
        bytes.resize(std::max<std::size_t>(bytes.size(), operation.offset + data.size()), '\0');
        std::copy(data.begin(), data.end(), bytes.begin() + static_cast<std::ptrdiff_t>(operation.offset));
    }

    static std::vector<char> bytes_of(const File& file, Unsynced fate, samples::Chance& chance) {
        std::vector<char> bytes = file.lasting;
        if (fate == Unsynced::lost) return bytes;
        for (const FileOperation& operation : file.since) {
            std::string data = operation.first;
            switch (chance.below(4)) {
                case 0:
                    continue;  // never reached the disk
                case 1:
                    std::fill(data.begin(), data.end(), '\0');
                    break;
                case 2:
                    for (char& byte : data) byte = static_cast<char>(chance.next() >> 56U);
                    break;
                default:
                    break;
            }
            apply(bytes, operation, data);
        }
        return bytes;
    }

    std::vector<File> files_;
    std::map<std::uint64_t, std::size_t> file_of_inode_;
    std::map<std::string, std::size_t> lasting_names_;
    std::vector<NameChange> name_changes_;  ///< since the folder was synced
};

}  // namespace footing::test
