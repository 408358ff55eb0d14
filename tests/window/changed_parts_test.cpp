#include "viewer/window/changed_parts.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "tests/support/window_screens.h"
#include "viewer/window/off_screen.h"

using namespace footing;

namespace {

/// A frame of plain rectangles, as Dear ImGui would hand it over.
class Frame {
  public:
    struct Block {
        float left, top, right, bottom;
        ImU32 colour = IM_COL32(10, 20, 30, 255);
    };
    Frame(std::vector<Block> blocks, PixelSize size) : list_(ImGui::GetDrawListSharedData()), lists_{&list_} {
        list_._ResetForNewFrame();
        list_.PushClipRect({0.0F, 0.0F}, {static_cast<float>(size.width), static_cast<float>(size.height)});
        for (const Block& block : blocks)
            list_.AddRectFilled({block.left, block.top}, {block.right, block.bottom}, block.colour);
        data_.CmdLists = lists_;
        data_.CmdListsCount = 1;
    }
    [[nodiscard]] const ImDrawData& data() const { return data_; }
    [[nodiscard]] ImDrawList& list() { return list_; }

  private:
    ImDrawList list_;
    ImDrawList* lists_[1];
    ImDrawData data_;
};

struct Context {
    ImGuiContext* context = ImGui::CreateContext();
    ~Context() { ImGui::DestroyContext(context); }
};

constexpr PixelSize small{500, 300};

bool covers_px(const PixelBox& box, int x, int y) {
    return x >= box.left && x < box.right && y >= box.top && y < box.bottom;
}

}  // namespace

TEST_CASE("only what moved, appeared or went counts as changed; the first frame changes everything") {
    const Context context;
    ChangedParts changed;
    const Frame::Block still{20, 20, 480, 60};
    const Frame::Block head{100, 200, 110, 210};
    const std::vector<PixelBox> whole{{0, 0, 500, 300}};
    CHECK(changed.compare(Frame({still, head}, small).data(), small) == whole);
    CHECK(changed.compare(Frame({still, head}, small).data(), small).empty());

    Frame::Block moved = head;
    moved.left += 300;
    moved.right += 300;
    const std::vector<PixelBox> parts = changed.compare(Frame({still, moved}, small).data(), small);
    const auto in_parts = [&](int x, int y) {
        return std::ranges::count_if(parts, [&](const PixelBox& box) { return covers_px(box, x, y); });
    };
    CHECK(in_parts(105, 205) == 1);  // where it was
    CHECK(in_parts(405, 205) == 1);  // where it is
    CHECK(in_parts(250, 205) == 0);
    CHECK(in_parts(250, 40) == 0);

    Frame::Block repainted = still;
    repainted.colour = IM_COL32(10, 20, 31, 255);
    CHECK_FALSE(changed.compare(Frame({repainted, moved}, small).data(), small).empty());
    CHECK(changed.compare(Frame({moved, repainted}, small).data(), small)
              .empty());  // apart: the order does not show
    CHECK_FALSE(changed.compare(Frame({moved}, small).data(), small).empty());
    changed.forget();
    CHECK(changed.compare(Frame({moved}, small).data(), small) == whole);
    CHECK(changed.compare(Frame({moved}, {400, 300}).data(), {400, 300}).size() == 1);
}

TEST_CASE("which of two lies on top is a change") {
    const Context context;
    ChangedParts changed;
    const Frame::Block under{50, 50, 90, 90, IM_COL32(255, 0, 0, 255)};
    const Frame::Block over{60, 60, 100, 100, IM_COL32(0, 0, 255, 255)};
    static_cast<void>(changed.compare(Frame({under, over}, small).data(), small));
    CHECK_FALSE(changed.compare(Frame({over, under}, small).data(), small).empty());
}

TEST_CASE(
    "parts lie on the screen, none over another, and every triangle of a changed tile is kept in them") {
    const Context context;
    std::mt19937 random(5);  // NOLINT: the same each time
    const auto anywhere = [&](float most) {
        return std::uniform_real_distribution<float>(-40.0F, most + 40.0F)(random);
    };
    ChangedParts changed;
    std::vector<Frame::Block> blocks(40);
    for (int round = 0; round < 60; ++round) {
        for (std::size_t i = 0; i < blocks.size(); ++i) {
            if (round > 0 && random() % 8 != 0) continue;
            const float left = anywhere(500);
            const float top = anywhere(300);
            blocks[i] = {left, top, left + anywhere(60), top + anywhere(60)};
        }
        Frame frame(blocks, small);
        const std::vector<PixelBox> parts = changed.compare(frame.data(), small);
        std::vector<int> covered(static_cast<std::size_t>(small.width * small.height), 0);
        for (const PixelBox& part : parts) {
            REQUIRE((part.left >= 0 && part.top >= 0 && part.right <= small.width &&
                     part.bottom <= small.height));
            for (int y = part.top; y < part.bottom; ++y) {
                for (int x = part.left; x < part.right; ++x)
                    ++covered[static_cast<std::size_t>(y * small.width + x)];
            }
        }
        CHECK(std::ranges::all_of(covered, [](int times) { return times <= 1; }));
        changed.keep_parts(frame.list(), 0);
        for (const ImDrawCmd& command : frame.list().CmdBuffer) {
            const bool in_a_part = std::ranges::any_of(parts, [&](const PixelBox& part) {
                return command.ClipRect.x >= static_cast<float>(part.left) &&
                       command.ClipRect.z <= static_cast<float>(part.right) &&
                       command.ClipRect.y >= static_cast<float>(part.top) &&
                       command.ClipRect.w <= static_cast<float>(part.bottom);
            });
            CHECK(in_a_part);
        }
    }
}

TEST_CASE("a screen drawn part by part shows, px for px, what it would drawn whole") {
    constexpr PixelSize size{960, 600};
    const ViewState open = sample::open_sample();
    auto by_parts = OffScreen::open(size, open);
    if (!by_parts) {
        MESSAGE("skipped: " << sentence(by_parts.problem()));
        return;
    }
    const auto check_same = [&](const ViewState& state, const std::string& what) {
        CAPTURE(what);
        by_parts.value().draw(state);
        const Picture as_parts = by_parts.value().picture();
        by_parts.value().forget();
        by_parts.value().draw(state);
        const Picture whole = by_parts.value().picture();
        // A level of 255 is what the driver rounds by where a part cuts through a letter that is enlarged.
        CHECK(std::ranges::equal(as_parts.rgb, whole.rgb,
                                 [](int one, int other) { return std::abs(one - other) <= 1; }));
    };
    ViewState playing = carry_out(open, TogglePlaying{});
    for (int frame = 0; frame < 40; ++frame) {
        playing = advance(std::move(playing), 0.05);
        check_same(playing, "head at " + std::to_string(playing.head_s));
    }
    for (const sample::NamedScreen& one : sample::all_screens(sample::Names::usual)) {
        ViewState state = one.state;
        check_same(state, one.name);
        if (state.desk || state.lesson) check_same(carry_out(state, StepTime{0.04}), one.name + ", moved");
        state.theme = Theme::slate;
        check_same(state, one.name + ", dark");
    }
}

TEST_CASE("the same state again draws nothing") {
    const ViewState open = sample::open_sample();
    auto screen_ = OffScreen::open({640, 400}, open);
    if (!screen_) return;
    CHECK(screen_.value().draw(open) == Painted::something);
    screen_.value().draw(open);
    CHECK(screen_.value().draw(open) == Painted::nothing);
    CHECK(screen_.value().draw(carry_out(open, StepTime{0.2})) == Painted::something);
}
