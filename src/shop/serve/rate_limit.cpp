#include "shop/serve/rate_limit.h"

#include <algorithm>
#include <cmath>

namespace fallaway::serve {

int RateLimit::take(const std::string& who, double now_s) {
    const std::lock_guard lock(mutex_);
    if (buckets_.size() >= kMostKept) forget_full(now_s);
    // Too many senders to tell apart share one bucket, so that their number buys nobody anything.
    const bool crowd = buckets_.size() >= kMostKept && !buckets_.contains(who);
    const auto [place, fresh] = buckets_.try_emplace(crowd ? std::string() : who, Bucket{burst_, now_s});
    Bucket& bucket = place->second;
    bucket.left = std::min(burst_, bucket.left + (now_s - bucket.at_s) * per_second_);
    bucket.at_s = now_s;
    if (bucket.left >= 1) {
        bucket.left -= 1;
        return 0;
    }
    return std::max(1, static_cast<int>(std::ceil((1 - bucket.left) / per_second_)));
}

void RateLimit::forget_full(double now_s) {
    std::erase_if(buckets_, [&](const auto& item) {
        return item.second.left + (now_s - item.second.at_s) * per_second_ >= burst_;
    });
}

}  // namespace fallaway::serve
