// Time and memory of the main job: the demo, and a bench file with 5,000 readings. Every figure is told as a ratio
// to a baseline of the same run: reading the same bytes and counting them.
#include <sys/resource.h>

#include <numeric>
#include <string>

#include <benchmark/benchmark.h>

#include "bench/judgement/judge.h"
#include "bench/report/report.h"
#include "shop/files/bench_codec.h"
#include "shop/files/catalogue_codec.h"
#include "shop/files/embedded.h"

namespace {

using namespace fallaway;

// The Heron with its readings repeated at other frets until there are `count`.
std::string large_bench(std::size_t count) {
    auto bench = files::decode_bench(*files::embedded("demo/heron.json"));
    if (!bench) return "";
    bench->readings.erase(bench->readings.begin() + 1, bench->readings.end());
    bench->wants.reset();
    evidence::Reading reading;
    reading.what = "string height";
    for (std::size_t i = 0; bench->readings.size() < count; ++i) {
        reading.at.string = int(i % 6) + 1;
        reading.at.fret = int(i / 6 % 22) + 1;
        reading.by = i / 132 % 2 == 0 ? "Ruta Vell" : "Joon Aster";
        reading.stage = evidence::Stage(i / 264 % 4);
        reading.value = *parse_quantity(i % 2 == 0 ? "1.60 mm" : "1.65 mm", Dimension::length);
        bench->readings.push_back(reading);
    }
    return files::encode_bench(*bench);
}

std::size_t whole_job(const std::string& text) {
    const auto& catalogue = files::built_in_catalogue();
    const auto bench = files::decode_bench(text, catalogue);
    if (!bench) return 0;
    const auto assessment = judgement::assess(*bench, catalogue);
    return report::html_report({*bench, catalogue, assessment, "bench"}).size();
}

void baseline(benchmark::State& state, const std::string& text) {
    for (auto _ : state) benchmark::DoNotOptimize(std::accumulate(text.begin(), text.end(), 0u));
}

void job(benchmark::State& state, const std::string& text) {
    for (auto _ : state) {
        if (whole_job(text) == 0) state.SkipWithError("the bench file was refused");
    }
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    state.counters["peak_MB"] = double(usage.ru_maxrss) / 1024;
    state.counters["bytes"] = double(text.size());
}

}  // namespace

int main(int argc, char** argv) {
    const std::string demo(*files::embedded("demo/heron.json"));
    const std::string large = large_bench(5000);
    benchmark::RegisterBenchmark("baseline/demo_bytes", [&](auto& state) { baseline(state, demo); });
    benchmark::RegisterBenchmark("assess/demo (budget 300 ms, 100 MB)", [&](auto& state) {
        job(state, demo);
    })->Unit(benchmark::kMillisecond);
    benchmark::RegisterBenchmark("baseline/5000_readings_bytes", [&](auto& state) { baseline(state, large); });
    benchmark::RegisterBenchmark("assess/5000_readings (budget 2000 ms)", [&](auto& state) {
        job(state, large);
    })->Unit(benchmark::kMillisecond);
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
