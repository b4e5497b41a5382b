#include "shop/serve/pairing.h"

#include <algorithm>
#include <cmath>

#include "shop/net/certificate.h"

namespace fallaway::serve {
namespace {

constexpr std::size_t kMostCodes = 4;
constexpr std::size_t kMostPeers = 1024;

std::string tidied(std::string_view typed) {
    std::string out;
    for (const char c : typed) {
        if (c == '-' || c == ' ') continue;
        out += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    return out;
}

}  // namespace

std::string spaced_code(std::string_view code) {
    return std::string(code.substr(0, kCodeLetters / 2)) + "-" + std::string(code.substr(kCodeLetters / 2));
}

void PairingCodes::tidy(double now_s) {
    std::erase_if(codes_, [&](const Code& code) { return code.until_s <= now_s || code.wrong >= kWrongTries; });
    for (auto& [peer, moments] : wrong_of_peer_) {
        std::erase_if(moments, [&](double then_s) { return now_s - then_s >= kPeerSeconds; });
    }
    std::erase_if(wrong_of_peer_, [](const auto& item) { return item.second.empty(); });
}

std::string PairingCodes::make(double now_s) {
    const std::lock_guard lock(mutex_);
    tidy(now_s);
    if (codes_.size() >= kMostCodes) codes_.erase(codes_.begin());
    codes_.push_back({new_code_(), now_s + kCodeSeconds, 0});
    return codes_.back().text;
}

PairingCodes::Answer PairingCodes::use(std::string_view typed, const std::string& peer, double now_s) {
    const std::lock_guard lock(mutex_);
    tidy(now_s);
    const auto tries = wrong_of_peer_.find(peer);
    const std::size_t most = kWrongTries;
    if (tries != wrong_of_peer_.end() && tries->second.size() >= most) {
        return {Outcome::too_many, std::max(1, int(std::ceil(tries->second.front() + kPeerSeconds - now_s)))};
    }
    if (wrong_of_peer_.size() >= kMostPeers) return {Outcome::too_many, int(kPeerSeconds)};
    const std::string wanted = tidied(typed);
    // Every code is compared, whichever fits: the time taken tells nothing.
    std::size_t found = codes_.size();
    for (std::size_t i = 0; i < codes_.size(); ++i) {
        if (net::equal_in_constant_time(codes_[i].text, wanted)) found = i;
    }
    if (found < codes_.size()) {
        codes_.erase(codes_.begin() + std::ptrdiff_t(found));
        return {Outcome::let_in};
    }
    for (Code& code : codes_) ++code.wrong;
    wrong_of_peer_[peer].push_back(now_s);
    return {Outcome::wrong};
}

}  // namespace fallaway::serve
