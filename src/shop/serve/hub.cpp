#include "shop/serve/hub.h"

#include <algorithm>
#include <cstdio>
#include <exception>

#include "shop/files/json_text.h"

namespace fallaway::serve {
namespace {

constexpr auto kListPause = std::chrono::milliseconds(250);  // between two "the list changed"
constexpr int kTakenOut = 1008;                              // RFC 6455, section 7.4.1: policy
constexpr std::string_view kListChanged = R"({"type":"visits"})";
constexpr std::string_view kPong = R"({"type":"pong"})";

}  // namespace

class Hub::Session final : public net::LiveSession {
public:
    Session(Hub& hub, std::string visit, std::shared_ptr<Line> line)
        : hub_(hub), visit_(std::move(visit)), line_(std::move(line)) {}
    ~Session() override { hub_.leave(visit_, line_); }

    void received(std::string text) override {
        const auto message = files::read_json(text);
        const files::Json* type = message ? message->find("type") : nullptr;
        if (type != nullptr && type->kind == files::Json::Kind::text && type->text == "ping") {
            line_->link->send(std::string(kPong));
        } else {
            line_->link->close(kTakenOut, "expected {\"type\": \"ping\"}");
        }
    }

private:
    Hub& hub_;
    std::string visit_;
    std::shared_ptr<Line> line_;
};

Hub::Hub(app::Shop& shop) : shop_(shop), thread_([this] { work(); }) {}

Hub::~Hub() {
    {
        const std::lock_guard lock(mutex_);
        stopping_ = true;
    }
    wake_.notify_all();
    thread_.join();
}

std::shared_ptr<Hub::Room> Hub::room_of(const std::string& visit) const {
    const std::lock_guard lock(mutex_);
    const auto found = rooms_.find(visit);
    return found == rooms_.end() ? nullptr : found->second;
}

void Hub::mark(const std::string& visit, bool changed) {
    {
        const std::lock_guard lock(mutex_);
        list_changed_ = list_changed_ || changed;
        if (!visit.empty()) {
            const auto [place, fresh] = waiting_.try_emplace(visit, changed);
            if (fresh) to_judge_.push_back(visit);
            place->second = place->second || changed;
        }
    }
    wake_.notify_one();
}

void Hub::changed(const std::string& visit) {
    if (const auto room = visit.empty() ? nullptr : room_of(visit)) {
        const std::lock_guard lock(room->mutex);
        send_entries(*room, visit);
    }
    mark(visit, true);
}

std::unique_ptr<net::LiveSession> Hub::join(files::api::DeviceName device, std::string visit, std::int64_t since,
                                            std::shared_ptr<net::LiveLink> link) {
    auto line = std::make_shared<Line>();
    line->device = std::move(device);
    line->link = std::move(link);
    line->seq = since;
    std::shared_ptr<Room> room;
    {
        const std::lock_guard lock(mutex_);
        auto& there = rooms_[visit];
        if (!there) there = std::make_shared<Room>();
        room = there;
    }
    {
        const std::lock_guard lock(room->mutex);
        room->lines.push_back(line);
        if (!visit.empty()) {
            send_entries(*room, visit);
            send_here(*room);
        }
    }
    auto session = std::make_unique<Session>(*this, visit, std::move(line));
    mark(visit, false);
    return session;
}

void Hub::leave(const std::string& visit, const std::shared_ptr<Line>& line) {
    const auto room = room_of(visit);
    if (!room) return;
    const std::lock_guard lock(room->mutex);
    std::erase(room->lines, line);
    if (!room->lines.empty()) {
        if (!visit.empty()) send_here(*room);
        return;
    }
    // Who joins meanwhile may wait for this room with it in hand: the judging thread sweeps it when nobody does.
    wake_.notify_one();
}

void Hub::sweep() {
    std::erase_if(rooms_, [](const auto& item) {
        const auto& room = item.second;
        const std::unique_lock lock(room->mutex, std::try_to_lock);
        return lock.owns_lock() && room.use_count() == 1 && room->lines.empty();
    });
}

void Hub::close_device(std::string_view device) {
    std::vector<std::shared_ptr<Room>> rooms;
    {
        const std::lock_guard lock(mutex_);
        for (const auto& [visit, room] : rooms_) rooms.push_back(room);
    }
    for (const auto& room : rooms) {
        const std::lock_guard lock(room->mutex);
        for (const auto& line : room->lines) {
            if (line->device.id == device) line->link->close(kTakenOut, "this device was taken out");
        }
    }
}

void Hub::send_entries(Room& room, const std::string& visit) {
    // Nearly always all lines know the same.
    std::map<std::int64_t, Result<app::Shop::Missed>> missed_since;
    for (const auto& line : room.lines) {
        auto found = missed_since.find(line->seq);
        if (found == missed_since.end()) {
            found = missed_since.emplace(line->seq, shop_.missed(visit, line->seq)).first;
        }
        if (!found->second) continue;  // the store has trouble: what is missed comes with the next change
        const app::Shop::Missed& missed = *found->second;
        if (missed.seq == line->seq) continue;
        line->link->send(files::api::live_visit(missed.seq, missed.put, missed.drop));
        line->seq = missed.seq;
    }
}

void Hub::send_here(Room& room) {
    std::vector<files::api::DeviceName> devices;
    for (const auto& line : room.lines) {
        const auto same = [&](const auto& other) { return other.id == line->device.id; };
        if (std::ranges::none_of(devices, same)) devices.push_back(line->device);
    }
    const std::string message = files::api::live_here(devices);
    for (const auto& line : room.lines) line->link->send(message);
}

void Hub::judge(const std::string& visit) {
    const auto room = room_of(visit);
    std::vector<std::shared_ptr<Line>> lines;
    if (room) {
        const std::lock_guard lock(room->mutex);
        lines = room->lines;
    }
    // With nobody there it is still judged: its line in the list says the verdict.
    if (lines.empty()) {
        static_cast<void>(shop_.judge(visit));
        return;
    }
    // The sums are done once; a device's view differs from another's in what undo offers.
    std::map<std::string, std::shared_ptr<const files::api::VisitView>> views;
    for (const auto& line : lines) {
        auto& view = views[line->device.id];
        if (view) continue;
        auto made = shop_.view(visit, line->device.id);
        if (!made) return;
        view = std::make_shared<const files::api::VisitView>(std::move(*made));
    }
    const std::lock_guard lock(room->mutex);
    // The writer may not have come to telling of its entries yet: they go first.
    send_entries(*room, visit);
    for (const auto& line : lines) {
        if (std::ranges::find(room->lines, line) == room->lines.end()) continue;
        const auto& view = views[line->device.id];
        line->link->send(files::api::live_judged(*view, line->told.get()));
        line->told = view;
    }
}

void Hub::tell_list() {
    const auto room = room_of("");
    if (!room) return;
    const std::lock_guard lock(room->mutex);
    for (const auto& line : room->lines) line->link->send(std::string(kListChanged));
}

void Hub::work() {
    std::unique_lock lock(mutex_);
    while (!stopping_) {
        const auto now = std::chrono::steady_clock::now();
        const bool list_due = list_changed_ && now >= list_told_ + kListPause;
        if (to_judge_.empty() && !list_due) {
            sweep();
            if (list_changed_) {
                wake_.wait_until(lock, list_told_ + kListPause);
            } else {
                wake_.wait(lock);
            }
            continue;
        }
        if (list_due) {
            list_changed_ = false;
            list_told_ = now;
        }
        std::string visit;
        if (!to_judge_.empty()) {
            visit = std::move(to_judge_.front());
            to_judge_.pop_front();
            // Its line in the list will show the new verdict.
            const auto place = waiting_.find(visit);
            list_changed_ = list_changed_ || place->second;
            waiting_.erase(place);
        }
        lock.unlock();
        try {
            if (!visit.empty()) judge(visit);
            if (list_due) tell_list();
        } catch (const std::exception& fault) {
            // The next change tries again; the page goes on with the verdict it has.
            std::fprintf(stderr, "fallaway: visit %s could not be judged: %s\n", visit.c_str(), fault.what());
        }
        lock.lock();
    }
}

}  // namespace fallaway::serve
