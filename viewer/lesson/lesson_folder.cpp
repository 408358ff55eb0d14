#include "viewer/lesson/lesson_folder.h"

#include <glib.h>

#include <string>

#include "acquisition/record/file_steps.h"
#include "viewer/lesson/local_zone.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

Result<std::filesystem::path> new_lesson_file(const Clock& clock) {
    const std::filesystem::path folder = std::filesystem::path(g_get_user_data_dir()) / "footing" / "lessons";
    std::error_code failed;
    std::filesystem::create_directories(folder, failed);
    if (failed) {
        return Problem{ProblemKind::disk_failed, folder.string(), "cannot be made: " + failed.message(),
                       "say where the lesson shall go with --out FILE.h5"};
    }
    const std::string stamp = file_stamp(clock.utc_ns(), local_zone());
    std::filesystem::path file = folder / (stamp + ".h5");
    for (int again = 2; is_there(file) || is_there(file.string() + ".journal"); ++again)
        file = folder / (stamp + "-" + std::to_string(again) + ".h5");
    return file;
}

}  // namespace footing
