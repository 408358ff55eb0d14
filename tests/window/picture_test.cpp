#include "viewer/window/picture.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

using namespace footing;

namespace {

std::filesystem::path scratch(const std::string& name) {
    const auto folder = std::filesystem::temp_directory_path() / "footing_picture_test";
    std::filesystem::create_directories(folder);
    return folder / name;
}

}  // namespace

TEST_CASE("a picture comes back from its PNG as it was") {
    Picture picture{{7, 5}, {}};
    for (int i = 0; i < 7 * 5 * 3; ++i) picture.rgb.push_back(static_cast<std::uint8_t>(i * 37));
    const auto path = scratch("there_and_back.png");
    REQUIRE(write_png(picture, path.string()).ok());
    const auto back = read_png(path.string());
    REQUIRE(back.ok());
    CHECK(back.value().size == picture.size);
    CHECK(back.value().rgb == picture.rgb);
    std::filesystem::remove(path);
}

TEST_CASE("a picture that cannot be written says where and what to do, and leaves nothing behind") {
    const Picture picture{{1, 1}, {1, 2, 3}};
    const auto path = scratch("no_such_folder") / "x.png";
    const Outcome written = write_png(picture, path.string());
    REQUIRE_FALSE(written.ok());
    CHECK(written.problem().kind == ProblemKind::disk_failed);
    CHECK(written.problem().place == path.string());
    CHECK_FALSE(written.problem().remedy.empty());
    const auto folder = scratch("a_folder.png");
    std::filesystem::create_directories(folder);
    CHECK_FALSE(write_png(picture, folder.string()).ok());
    CHECK_FALSE(std::filesystem::exists(folder.string() + ".tmp"));
}

TEST_CASE("what is no PNG is refused") {
    const auto path = scratch("text.png");
    std::ofstream(path) << "not a picture";
    CHECK_FALSE(read_png(path.string()).ok());
    CHECK_FALSE(read_png(scratch("absent.png").string()).ok());
}

TEST_CASE("a picture leaves a neighbour of its name alone") {
    const auto path = scratch("mine.png");
    const std::string neighbour = path.string() + ".tmp";
    std::ofstream(neighbour) << "somebody's";
    REQUIRE(write_png({{1, 1}, {1, 2, 3}}, path.string()).ok());
    CHECK(std::filesystem::file_size(neighbour) == 10);
    std::filesystem::remove(neighbour);
    std::filesystem::remove(path);
}
