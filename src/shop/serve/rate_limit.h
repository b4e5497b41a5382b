// How many requests one sender may make: a bucket for each that fills again with time. The clock is handed in.
#pragma once

#include <cstddef>
#include <map>
#include <mutex>
#include <string>

namespace fallaway::serve {

class RateLimit {
public:
    // `burst` at once, `per_second` in the long run.
    RateLimit(double burst, double per_second) : burst_(burst), per_second_(per_second) {}

    // 0: go on. Otherwise whole seconds until the next try makes sense; a refused try costs nothing.
    // `now_s`: seconds of a clock that never goes back.
    int take(const std::string& who, double now_s);

private:
    struct Bucket {
        double left = 0;
        double at_s = 0;
    };
    static constexpr std::size_t kMostKept = 4096;  // those that are full again are forgotten above

    void forget_full(double now_s);

    const double burst_;
    const double per_second_;
    std::mutex mutex_;
    std::map<std::string, Bucket> buckets_;
};

}  // namespace fallaway::serve
