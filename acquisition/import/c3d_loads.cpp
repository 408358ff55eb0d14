#include "acquisition/import/c3d_loads.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include "acquisition/import/c3d_format.h"

namespace footing {

namespace {

constexpr std::size_t samples_at_once = 4096;
constexpr double most_force_n = 1e5;
// A plate that bears less than this all the time says nothing of the sign it uses.
constexpr double least_telling_n = 20.0;
// A baseline heavier or livelier than this was taken while somebody stood there.
constexpr double most_baseline_n = 50.0;
constexpr double most_baseline_sd_n = 10.0;

}  // namespace

C3dLoads::C3dLoads(const C3dFile& file, C3dStance stance)
    : file_(&file),
      stance_(std::move(stance)),
      baseline_(stance_.plates.size()),
      sign_(stance_.plates.size(), 1.0) {
    layout_.kind = FrameKind::components;
    for (const C3dFootPlate& foot : stance_.plates) {
        layout_.plates.push_back(foot.place);
        channels_.insert(channels_.end(), foot.plate.channels.begin(), foot.plate.channels.end());
    }
}

Result<C3dLoads> C3dLoads::open(const C3dFile& file, const C3dImportOptions& options) {
    const auto entries = read_c3d_plates(file);
    if (!entries) return entries.problem();
    auto stance = choose_c3d_stance(entries.value(), options, file.place());
    if (!stance) return stance.problem();
    C3dLoads loads(file, std::move(stance).value());
    if (options.baseline == C3dImportOptions::Baseline::subtracted) {
        if (Outcome done = loads.learn_baseline(); !done) return done.problem();
    }
    if (Outcome done = loads.learn_signs(); !done) return done.problem();
    return loads;
}

Result<std::vector<C3dWrench>> C3dLoads::read_wrenches(std::uint64_t first, std::size_t count) const {
    const auto values = file_->read(first, count, channels_);
    if (!values) return values.problem();
    std::span<const double> rest(values.value());
    std::vector<C3dWrench> wrenches;
    wrenches.reserve(rest.size() / channels_.size() * stance_.plates.size());
    while (!rest.empty()) {
        for (std::size_t i = 0; i < stance_.plates.size(); ++i) {
            const C3dPlate& plate = stance_.plates[i].plate;
            C3dWrench wrench = plate.wrench(rest.first(plate.channels.size()));
            rest = rest.subspan(plate.channels.size());
            wrench.force_n = wrench.force_n - baseline_[i].force_n;
            wrench.moment_n_m = wrench.moment_n_m - baseline_[i].moment_n_m;
            // Written so that what is not a number fails too.
            if (!(length(wrench.force_n) <= most_force_n && length(wrench.moment_n_m) <= most_force_n)) {
                const std::uint64_t sample = first + wrenches.size() / stance_.plates.size();
                return Problem{ProblemKind::bad_input,
                               file_->place() + ", analog frame " + std::to_string(sample + 1) +
                                   ", force plate " + std::to_string(stance_.plates[i].number),
                               "the load is no number, or more than any plate bears",
                               "check ANALOG:SCALE and OFFSET, or export the file again"};
            }
            wrenches.push_back(wrench);
        }
    }
    return wrenches;
}

Outcome C3dLoads::learn_baseline() {
    const std::vector<double> range = file_->parameters().counts("FORCE_PLATFORM", "ZERO");
    const double first = range.size() >= 2 ? range[0] : 0.0;
    const double last = range.size() >= 2 ? range[1] : 0.0;
    const auto per_frame = static_cast<double>(file_->samples_per_point_frame());
    if (!(first >= 1.0 && last >= first && last * per_frame <= static_cast<double>(file_->sample_count()))) {
        return Problem{ProblemKind::bad_input, file_->place(),
                       "does not name frames without load (FORCE_PLATFORM:ZERO)",
                       "import it without --zero-baseline"};
    }
    const auto from = static_cast<std::uint64_t>(first - 1.0) * file_->samples_per_point_frame();
    const std::uint64_t to = static_cast<std::uint64_t>(last) * file_->samples_per_point_frame();
    const std::size_t plates = stance_.plates.size();
    std::vector<C3dWrench> sum(plates);
    std::vector<double> squares(plates);
    for (std::uint64_t at = from; at < to; at += samples_at_once) {
        const auto wrenches =
            read_wrenches(at, static_cast<std::size_t>(std::min<std::uint64_t>(samples_at_once, to - at)));
        if (!wrenches) return wrenches.problem();
        for (std::size_t i = 0; i < wrenches.value().size(); ++i) {
            const C3dWrench& wrench = wrenches.value()[i];
            sum[i % plates].force_n = sum[i % plates].force_n + wrench.force_n;
            sum[i % plates].moment_n_m = sum[i % plates].moment_n_m + wrench.moment_n_m;
            squares[i % plates] += wrench.force_n[2] * wrench.force_n[2];
        }
    }
    const double count = static_cast<double>(to - from);
    for (std::size_t i = 0; i < plates; ++i) {
        const C3dWrench mean{(1.0 / count) * sum[i].force_n, (1.0 / count) * sum[i].moment_n_m};
        const double variance = squares[i] / count - mean.force_n[2] * mean.force_n[2];
        if (std::abs(mean.force_n[2]) > most_baseline_n ||
            variance > most_baseline_sd_n * most_baseline_sd_n) {
            return Problem{ProblemKind::bad_input,
                           file_->place() + ", force plate " + std::to_string(stance_.plates[i].number),
                           "bears load in the frames that are to be its zero",
                           "import it without --zero-baseline"};
        }
        baseline_[i] = mean;
    }
    return Done{};
}

Outcome C3dLoads::learn_signs() {
    // A person pushes far harder than any plate can pull, so the squares tell which way down is.
    const std::size_t plates = stance_.plates.size();
    std::vector<double> balance(plates, 0.0);
    std::vector<double> most_n(plates, 0.0);
    for (std::uint64_t first = 0; first < file_->sample_count(); first += samples_at_once) {
        const auto wrenches = read_wrenches(first, samples_at_once);
        if (!wrenches) return wrenches.problem();
        for (std::size_t i = 0; i < wrenches.value().size(); ++i) {
            const C3dFootPlate& foot = stance_.plates[i % plates];
            const double up_n = dot(wrenches.value()[i].force_n, foot.up);
            balance[i % plates] += up_n * std::abs(up_n);
            most_n[i % plates] = std::max(most_n[i % plates], std::abs(up_n));
        }
    }
    double all = 0.0;
    for (const double one : balance) all += one;
    bool any_turned = false;
    for (std::size_t i = 0; i < plates; ++i) {
        const double telling = most_n[i] >= least_telling_n ? balance[i] : all;
        sign_[i] = telling < 0.0 ? -1.0 : 1.0;
        any_turned = any_turned || telling < 0.0;
        if (most_n[i] < least_telling_n) {
            stance_.remarks.push_back("force plate " + std::to_string(stance_.plates[i].number) +
                                      " never bears load");
        }
    }
    if (any_turned) {
        stance_.remarks.push_back("the file gives the feet's forces on the plates; they were turned round");
    }
    return Done{};
}

Result<std::vector<double>> C3dLoads::read(std::uint64_t first, std::size_t count) const {
    const auto wrenches = read_wrenches(first, count);
    if (!wrenches) return wrenches.problem();
    std::vector<double> values;
    values.reserve(wrenches.value().size() * components_per_plate);
    for (std::size_t i = 0; i < wrenches.value().size(); ++i) {
        const C3dFootPlate& foot = stance_.plates[i % stance_.plates.size()];
        const double sign = sign_[i % stance_.plates.size()];
        const C3dVector force_n = sign * foot.seen(wrenches.value()[i].force_n);
        const C3dVector moment_n_m = sign * foot.seen(wrenches.value()[i].moment_n_m);
        values.insert(values.end(), force_n.begin(), force_n.end());
        values.insert(values.end(), moment_n_m.begin(), moment_n_m.end());
    }
    return values;
}

}  // namespace footing
