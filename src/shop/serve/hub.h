// The live lines: who has a visit open hears of every entry at once, and of what it changes in judgement as soon
// as the sums are done. One thread judges, visit after visit; whoever writes never waits for it.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include "shop/app/shop.h"
#include "shop/net/server.h"

namespace fallaway::serve {

class Hub {
public:
    explicit Hub(app::Shop& shop);
    ~Hub();  // after the last live session is gone

    // For Shop::on_change. Sends the entries from the thread that wrote them, and leaves the judging to ours.
    void changed(const std::string& visit);

    // A new line, to a visit or ("") to the list of visits. `since`: the latest seq that the page knows.
    std::unique_ptr<net::LiveSession> join(files::api::DeviceName device, std::string visit, std::int64_t since,
                                           std::shared_ptr<net::LiveLink> link);

    // Ends every line of a device that was taken out.
    void close_device(std::string_view device);

private:
    struct Line {
        files::api::DeviceName device;
        std::shared_ptr<net::LiveLink> link;
        std::int64_t seq = 0;                               // all entries up to here were sent
        std::shared_ptr<const files::api::VisitView> told;  // judgement as last sent
    };
    // All lines to one visit. The mutex keeps messages of a line in order; nothing is computed under it but which
    // entries were missed.
    struct Room {
        std::mutex mutex;
        std::vector<std::shared_ptr<Line>> lines;
    };
    class Session;

    std::shared_ptr<Room> room_of(const std::string& visit) const;  // null when nobody is there
    void leave(const std::string& visit, const std::shared_ptr<Line>& line);
    void mark(const std::string& visit, bool changed);
    void sweep();                                             // mutex_ held
    void send_entries(Room& room, const std::string& visit);  // room.mutex held
    static void send_here(Room& room);                        // room.mutex held
    void judge(const std::string& visit);
    void tell_list();
    void work();

    app::Shop& shop_;
    mutable std::mutex mutex_;  // of what follows; never waited for while a room's is held
    std::condition_variable wake_;
    std::map<std::string, std::shared_ptr<Room>> rooms_;
    std::deque<std::string> to_judge_;     // each visit once
    std::map<std::string, bool> waiting_;  // those in `to_judge_`: did one change, or did only somebody join?
    bool list_changed_ = false;
    std::chrono::steady_clock::time_point list_told_;
    bool stopping_ = false;
    std::thread thread_;  // last: it uses all of the above
};

}  // namespace fallaway::serve
