// Codes that let one tablet in: good once, for five minutes, and for five wrong tries. Kept in memory alone; clock
// and chance are handed in.
#pragma once

#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

namespace fallaway::serve {

inline constexpr int kCodeLetters = 8;
inline constexpr double kCodeSeconds = 300;
inline constexpr int kWrongTries = 5;  // per code, and per peer in one minute
inline constexpr double kPeerSeconds = 60;

class PairingCodes {
public:
    explicit PairingCodes(std::function<std::string()> new_code) : new_code_(std::move(new_code)) {}

    // "7KQ4MX2P". At most four are good at a time: a fifth ends the oldest.
    std::string make(double now_s);

    enum class Outcome { let_in, wrong, too_many };
    struct Answer {
        Outcome outcome;
        int wait_s = 0;  // of too_many
    };
    // As typed: blanks, dashes and lower case do not matter. Who let one in has used it up.
    Answer use(std::string_view typed, const std::string& peer, double now_s);

private:
    struct Code {
        std::string text;
        double until_s = 0;
        int wrong = 0;
    };
    void tidy(double now_s);

    std::function<std::string()> new_code_;
    std::mutex mutex_;
    std::vector<Code> codes_;
    std::map<std::string, std::vector<double>> wrong_of_peer_;  // moments of wrong tries, the latest minute
};

// "7KQ4MX2P" as people read it: "7KQ4-MX2P".
std::string spaced_code(std::string_view code);

}  // namespace fallaway::serve
