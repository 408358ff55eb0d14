#include "acquisition/frame/ground_words.h"

namespace footing {

const char* ground_words(FrameKind kind) {
    return kind == FrameKind::grid ? "mat" : "plates";
}

}  // namespace footing
