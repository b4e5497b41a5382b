// What all connections of one server share. Only server.cpp includes this: Boost is compiled once.
//
// One thread, that of run(), moves bytes and owns everything here; handlers run on the workers, and their answers
// come back to that thread. So nothing here needs a lock.
#pragma once

#include <boost/asio/awaitable.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/use_awaitable.hpp>

#include <chrono>
#include <map>
#include <memory>
#include <set>
#include <string>

#include "shop/net/guard.h"
#include "shop/net/server.h"

namespace fallaway::net {

namespace asio = boost::asio;
using ErrorCode = boost::system::error_code;

// For co_await: the outcome goes to `error`, no exception.
inline auto told(ErrorCode& error) {
    return asio::redirect_error(asio::use_awaitable, error);
}

// One connection, as stop() sees it.
class Open {
public:
    virtual ~Open() = default;
    virtual void wind_down() = 0;  // end as soon as what is under way is answered
    virtual void cut_off() = 0;    // end now
};

// Of one listener.
struct Place {
    Site site;
    bool loopback = true;
    bool plain_notice = false;
};

struct Core {
    Core(Handlers all_handlers, Limits all_limits, int worker_threads)
        : handlers(std::move(all_handlers)),
          limits(all_limits),
          io(std::make_shared<asio::io_context>(1)),
          last_call(*io),
          workers(static_cast<std::size_t>(worker_threads)) {}

    const Handlers handlers;
    const Limits limits;
    std::set<Open*> open;
    std::map<std::string, int> of_peer;
    int connections = 0;
    bool stopping = false;
    std::shared_ptr<asio::io_context> io;  // shared with the links that outlive their connection
    asio::steady_timer last_call;          // after stop(): when it rings, what is still open is cut off
    asio::thread_pool workers;             // last, so that it ends first
};

// Counts a connection for as long as it lasts.
class Seat {
public:
    Seat(Core& core, std::string peer) : core_(core), peer_(std::move(peer)) {
        ++core_.connections;
        ++core_.of_peer[peer_];
    }
    ~Seat() {
        if (--core_.of_peer[peer_] == 0) core_.of_peer.erase(peer_);
        if (--core_.connections == 0) core_.last_call.cancel();
    }
    Seat(const Seat&) = delete;
    Seat& operator=(const Seat&) = delete;

    const std::string& peer() const { return peer_; }
    bool within_limits() const {
        return core_.connections <= core_.limits.connections &&
               core_.of_peer[peer_] <= core_.limits.connections_of_peer;
    }

private:
    Core& core_;
    std::string peer_;
};

// Puts a connection among the open ones for as long as it lasts.
class Listed {
public:
    Listed(Core& core, Open& open) : core_(core), open_(open) { core_.open.insert(&open_); }
    ~Listed() { core_.open.erase(&open_); }
    Listed(const Listed&) = delete;
    Listed& operator=(const Listed&) = delete;

private:
    Core& core_;
    Open& open_;
};

// Runs `work` on a worker; co_await gives its value, or its exception, on the thread of run(). `work` may hold
// nothing but references: what is left of it is destroyed on the worker, after the value has gone back.
template <class Work>
auto on_worker(Core& core, Work work) {
    static_assert(std::is_trivially_destructible_v<Work>);
    using Value = std::invoke_result_t<Work&>;
    return asio::co_spawn(
        core.workers, [work]() -> asio::awaitable<Value> { co_return work(); }, asio::use_awaitable);
}

}  // namespace fallaway::net
