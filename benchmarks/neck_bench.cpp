// Time of the fit of a neck and of what is asked of it. The baseline of the same run is SciPy's least squares on
// the same 60 readings (neck_baseline.py, told to standard output before the table), where python3-scipy is
// installed.
#include <cmath>
#include <cstdio>
#include <vector>

#include <benchmark/benchmark.h>

#include "science/neck/clearances.h"
#include "science/neck/next_reading.h"
#include "science/neck/suspects.h"
#include "science/numeric/random.h"

namespace {

using namespace fallaway;
using neck::Kind;
using neck::Reading;

neck::Layout six_strings() {
    neck::Layout layout;
    for (int i = 0; i < 6; ++i) {
        const double share = 1 - 2 * i / 5.0;
        layout.strings.push_back({17.5e-3 * share, 26.2e-3 * share, 0.6477, 0, 2e-3});
    }
    layout.board = {0.3048, 0.3048, 0.466};
    layout.frets = 22;
    layout.crown_height = 1.1e-3;
    return layout;
}

// Sixty numbers: heights over 1, 12, 17 and 22, two reliefs, nut gaps, eight by straightedge, twenty by rocker.
std::vector<Reading> sixty_places(const neck::Layout& layout) {
    const neck::Tools tools;
    std::vector<Reading> all;
    for (int s = 0; s < 6; ++s) {
        for (const int fret : {1, 12, 17, 22}) {
            all.push_back(neck::with_number({Kind::open_height, s, fret}, 0, tools.height));
        }
        all.push_back(neck::with_number({Kind::nut_gap, s, 1, 2}, 0, tools.nut_gap));
    }
    for (const int s : {0, 5})
        all.push_back(neck::with_number({Kind::gap, s, 8, 1, layout.frets}, 0, tools.relief));
    for (const int fret : {3, 5, 7, 9, 12, 15, 17, 19}) {
        all.push_back(neck::with_number({Kind::gap, neck::kCentre, fret, 1, layout.frets}, 0, tools.straightedge));
    }
    for (int fret = 2; fret <= 21; ++fret) {
        all.push_back(neck::with_number({Kind::rock, neck::kCentre, fret}, 0, tools.rocker));
    }
    return all;
}

struct Job {
    neck::Layout layout = six_strings();
    neck::NeckModel model{layout, {}};
    std::vector<Reading> numbers = sixty_places(layout);
    std::vector<Reading> words = numbers;  // with six more by word
    std::vector<Reading> slipped;          // with one of them off by half a millimetre

    Job() {
        numeric::Random random(81);
        numeric::Gaussian truth = model.prior();
        for (std::size_t i = 0; i < truth.size(); ++i) {
            truth.mean[i] += std::sqrt(truth.covariance[i * truth.size() + i]) * random.normal();
        }
        for (Reading& r : numbers) {
            r.low = r.high = numeric::mean_of(truth, neck::form_of(model, r)) + r.sd * random.normal();
        }
        words = slipped = numbers;
        for (int s = 0; s < 6; ++s) {
            const bool loose = numeric::mean_of(truth, model.over_wire(s, neck::kWirePlace)) > neck::kWireDeadZone;
            words.push_back(neck::wire_word(s, loose ? neck::Wire::loose : neck::Wire::right));
        }
        slipped[40].low = slipped[40].high += 0.5e-3;
    }
};

// Debian's own python3 goes first: that is the one python3-scipy belongs to.
void tell_baseline(const Job& job) {
    const auto& prior = job.model.prior();
    const std::size_t n = prior.size();
    const char* command = "PATH=/usr/bin:\"$PATH\" python3 -B " FALLAWAY_SOURCE_DIR "/benchmarks/neck_baseline.py";
    std::FILE* to = popen(command, "w");
    if (to == nullptr) return;
    std::fprintf(to, "%zu %zu\n", job.numbers.size() + n, n);
    const auto sd = [&](std::size_t i) { return std::sqrt(prior.covariance[i * n + i]); };
    for (const Reading& r : job.numbers) {
        const auto o = neck::observation_of(job.model, r);
        for (std::size_t i = 0; i < n; ++i) std::fprintf(to, "%.17g ", o.form.weights[i] * sd(i) / o.u);
        std::fprintf(to, "%.17g\n", (o.low - numeric::mean_of(prior, o.form)) / o.u);
    }
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) std::fprintf(to, "%d ", int(i == j));
        std::fprintf(to, "0\n");
    }
    const auto ours = neck::fit(job.model, job.numbers);
    for (std::size_t i = 0; i < n; ++i) std::fprintf(to, "%.17g ", (ours->state.mean[i] - prior.mean[i]) / sd(i));
    pclose(to);
}

template <class Work>
void add(const char* name, const Work& work, benchmark::TimeUnit unit = benchmark::kMicrosecond) {
    benchmark::RegisterBenchmark(name, [work](benchmark::State& state) {
        for (auto _ : state) benchmark::DoNotOptimize(work());
    })->Unit(unit);
}

}  // namespace

int main(int argc, char** argv) {
    const Job job;
    tell_baseline(job);
    add("fit/60_numbers (budget 2000 us)", [&] { return neck::fit(job.model, job.numbers); });
    add("fit/60_numbers_6_words", [&] { return neck::fit(job.model, job.words); });
    add("fit/60_numbers_and_clearances",
        [&] { return neck::clearances(job.model, neck::fit(job.model, job.numbers)->state); });
    add(
        "fit/1000_fits",
        [&] {
            double sum = 0;
            for (int i = 0; i < 1000; ++i) sum += neck::fit(job.model, job.numbers)->state.mean[0];
            return sum;
        },
        benchmark::kMillisecond);
    add("model", [&] { return neck::NeckModel(job.layout, {}); });
    add("examine/one_blunder", [&] { return neck::examine(job.model, job.slipped); });
    const auto fitted = neck::fit(job.model, job.numbers);
    add("next_readings/5_after_60", [&] { return neck::next_readings(job.model, fitted->state, job.numbers, 5); });
    add("next_readings/20_from_none", [&] { return neck::next_readings(job.model, job.model.prior(), {}, 20); });
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
