#pragma once

#include <cstdint>
#include <vector>

#include "acquisition/frame/frame_source.h"

namespace footing {

/// Keeps everything it is given, with copies of the values as doubles (which hold every count exactly).
class CollectingSink final : public FrameSink {
  public:
    struct Event {
        enum class What { frame, gap } what = What::frame;
        FrameStamp stamp;
        Gap gap;
    };

    void take_frame(const FrameView& frame) override {
        events.push_back({Event::What::frame, frame.stamp, {}});
        stamps.push_back(frame.stamp);
        std::vector<double> row;
        std::visit([&](const auto& span) { row.assign(span.begin(), span.end()); }, frame.values);
        values.push_back(std::move(row));
    }

    void take_gap(const Gap& gap) override {
        events.push_back({Event::What::gap, {}, gap});
        gaps.push_back(gap);
    }

    std::vector<Event> events;  ///< in the order in which they came
    std::vector<FrameStamp> stamps;
    std::vector<std::vector<double>> values;
    std::vector<Gap> gaps;
};

}  // namespace footing
