#include "shop/cli/progress.h"

#include <unistd.h>

#include <atomic>
#include <chrono>
#include <cstdio>
#include <memory>

#include "shop/net/server.h"

namespace fallaway::cli {
namespace {

using Clock = std::chrono::steady_clock;
constexpr auto kSilentFor = std::chrono::seconds(1);
constexpr auto kBetween = std::chrono::milliseconds(500);

struct Meter {
    std::string what;
    bool silent;
    bool terminal = ::isatty(STDERR_FILENO) != 0;
    bool shown = false;
    Clock::time_point next = Clock::now() + kSilentFor;
    std::atomic<bool> stopped = false;

    ~Meter() {
        if (shown && terminal) std::fputc('\n', stderr);
    }
    void show(double fraction) {
        if (silent || Clock::now() < next) return;
        next = Clock::now() + kBetween;
        shown = true;
        std::fprintf(stderr, terminal ? "\r%s: %d %%" : "%s: %d %%\n", what.c_str(),
                     static_cast<int>(fraction * 100));
        std::fflush(stderr);
    }
};

}  // namespace

std::function<bool(double)> progress(std::string what, bool silent) {
    auto meter = std::make_shared<Meter>();
    meter->what = std::move(what);
    meter->silent = silent;
    net::on_stop_signal([weak = std::weak_ptr(meter)] {
        if (const auto there = weak.lock()) there->stopped = true;
    });
    return [meter](double fraction) {
        meter->show(fraction);
        return !meter->stopped;
    };
}

}  // namespace fallaway::cli
