#include "viewer/window/book_presence.h"

#include <fcntl.h>
#include <unistd.h>

namespace footing {

namespace {

struct flock whole_file(short kind) {
    struct flock lock {};
    lock.l_type = kind;
    lock.l_whence = SEEK_SET;
    return lock;
}

}  // namespace

// Locks of the open file, not of the process (F_OFD_SETLK): two windows of one process hear of each other
// too. Each holds a shared lock; whoever could not have it alone is not alone.

BookPresence::BookPresence(const std::filesystem::path& book)
    : file_(::open(presence_file(book).c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600)) {
    struct flock lock = whole_file(F_RDLCK);
    if (file_ >= 0) static_cast<void>(::fcntl(file_, F_OFD_SETLK, &lock));
}

BookPresence::~BookPresence() {
    if (file_ >= 0) ::close(file_);
}

bool BookPresence::others_are_there() const {
    struct flock lock = whole_file(F_WRLCK);
    return file_ >= 0 && ::fcntl(file_, F_OFD_GETLK, &lock) == 0 && lock.l_type != F_UNLCK;
}

std::filesystem::path presence_file(const std::filesystem::path& book) {
    return book.string() + ".open";
}

}  // namespace footing
