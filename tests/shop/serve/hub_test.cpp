// The live lines over a real shop, with ends that write down what they get.
#include "shop/serve/hub.h"

#include <gtest/gtest.h>

#include <unistd.h>

#include <condition_variable>
#include <filesystem>

#include "shop/files/json_text.h"

namespace fallaway::serve {
namespace {

namespace fs = std::filesystem;
using files::Json;

constexpr const char* kVisit = "00000000000000a1";
constexpr const char* kTablet = "00000000000000d1";
constexpr const char* kPhone = "00000000000000d2";

class Ear final : public net::LiveLink {
public:
    void send(std::string text) override {
        const std::lock_guard lock(mutex_);
        heard_.push_back(*files::read_json(text));
        more_.notify_all();
    }
    void close(int code, std::string_view) override {
        const std::lock_guard lock(mutex_);
        closed_ = code;
    }
    // The next message of that type after those already asked for; waits for it.
    Json next(std::string_view type) {
        std::unique_lock lock(mutex_);
        for (;;) {
            for (; at_ < heard_.size(); ++at_) {
                if (heard_[at_].find("type")->text == type) return heard_[at_++];
            }
            if (more_.wait_for(lock, std::chrono::seconds(60)) == std::cv_status::timeout) {
                ADD_FAILURE() << "no message of type " << type;
                return Json::record();
            }
        }
    }
    std::vector<Json> all() {
        const std::lock_guard lock(mutex_);
        return heard_;
    }
    int closed() {
        const std::lock_guard lock(mutex_);
        return closed_;
    }

private:
    std::mutex mutex_;
    std::condition_variable more_;
    std::vector<Json> heard_;
    std::size_t at_ = 0;
    int closed_ = 0;
};

class HubTest : public testing::Test {
protected:
    HubTest() : folder_(fs::temp_directory_path() / ("fallaway_hub_" + std::to_string(::getpid()))) {
        fs::remove_all(folder_);
        fs::create_directories(folder_);
        auto opened = app::Shop::open(folder_, store::Access::write, true, "test");
        if (!opened) throw std::runtime_error(opened.error().message);
        shop_ = std::move(*opened);
        files::api::NewVisit visit;
        visit.id = kVisit;
        visit.kind = "electric guitar";
        if (!shop_->open_visit(visit)) throw std::runtime_error("no visit");
        hub_.emplace(*shop_);
        shop_->on_change([this](const std::string& changed) { hub_->changed(changed); });
    }
    ~HubTest() override {
        shop_->on_change(nullptr);
        hub_.reset();
        shop_.reset();
        fs::remove_all(folder_);
    }

    void write(const std::string& id, std::string_view text, const char* device) {
        files::Entry entry;
        entry.id = id;
        entry.path = "/remarks";
        entry.value = Json::record({{"text", Json::of(text)}});
        const auto stored = shop_->add(kVisit, {entry}, device);
        ASSERT_TRUE(stored) << stored.error().front().message;
    }

    fs::path folder_;
    std::unique_ptr<app::Shop> shop_;
    std::optional<Hub> hub_;
};

TEST_F(HubTest, aNewLineHearsWhatItMissedThenTheWholeJudgement) {
    const auto ear = std::make_shared<Ear>();
    const auto session = hub_->join({kTablet, "tablet"}, kVisit, 0, ear);
    EXPECT_FALSE(ear->next("visit").find("put")->items.empty());
    const Json judged = ear->next("judged");
    EXPECT_TRUE(judged.find("whole")->truth);
    EXPECT_NE(judged.find("assessment"), nullptr);
}

TEST_F(HubTest, everybodyHearsAnEntryAndThenWhatItChanged) {
    const auto tablet = std::make_shared<Ear>();
    const auto phone = std::make_shared<Ear>();
    const auto one = hub_->join({kTablet, "tablet"}, kVisit, 0, tablet);
    const auto two = hub_->join({kPhone, "phone"}, kVisit, 0, phone);
    tablet->next("judged");
    phone->next("judged");
    write("00000000000000e1", "a buckle scratch on the back", kTablet);
    for (const auto& ear : {tablet, phone}) {
        const Json visit = ear->next("visit");
        ASSERT_EQ(visit.find("put")->items.size(), 1u);
        const std::string seq = visit.find("seq")->text;
        Json judged = ear->next("judged");
        while (judged.find("seq") != nullptr && judged.find("seq")->text != seq) judged = ear->next("judged");
        EXPECT_FALSE(judged.find("whole")->truth);
    }
}

// Each may take back only what it wrote: the offer differs, the judgement does not.
TEST_F(HubTest, undoIsOfferedToWhoWrote) {
    const auto tablet = std::make_shared<Ear>();
    const auto one = hub_->join({kTablet, "tablet"}, kVisit, 0, tablet);
    tablet->next("judged");
    write("00000000000000e2", "first", kTablet);
    Json judged = tablet->next("judged");
    while (judged.find("undo") == nullptr) judged = tablet->next("judged");
    EXPECT_EQ(judged.find("undo")->find("id")->text, "00000000000000e2");
    write("00000000000000e3", "second", kPhone);
    tablet->next("visit");
    const auto view = shop_->view(kVisit, kTablet);
    ASSERT_TRUE(view && view->undo);
    EXPECT_EQ(view->undo->id, "00000000000000e2");
}

// However many entries arrive at once, every line ends with all of them, in order and none twice.
TEST_F(HubTest, nothingIsLostOrTwiceWhenManyWriteAtOnce) {
    constexpr int kWriters = 4;
    constexpr int kEach = 15;
    const auto ear = std::make_shared<Ear>();
    const auto session = hub_->join({kPhone, "phone"}, kVisit, 0, ear);
    std::vector<std::thread> writers;
    for (int w = 0; w < kWriters; ++w) {
        writers.emplace_back([&, w] {
            for (int n = 0; n < kEach; ++n) write(fmt::format("{:012x}{:04x}", w + 1, n), "x", kTablet);
        });
    }
    for (auto& writer : writers) writer.join();
    const std::int64_t last = shop_->store().visit(kVisit)->seq;
    Json judged = ear->next("judged");
    while (judged.find("seq")->text != std::to_string(last)) judged = ear->next("judged");
    std::int64_t seq = 0;
    std::set<std::string> ids;
    for (const Json& message : ear->all()) {
        if (message.find("type")->text != "visit") continue;
        for (const Json& entry : message.find("put")->items) {
            EXPECT_TRUE(ids.insert(entry.find("id")->text).second);
            EXPECT_GT(std::stoll(entry.find("seq")->text), seq);
            seq = std::stoll(entry.find("seq")->text);
        }
    }
    EXPECT_EQ(seq, last);
    EXPECT_GE(ids.size(), std::size_t(kWriters * kEach));
}

TEST_F(HubTest, whoIsHereIsTold) {
    const auto tablet = std::make_shared<Ear>();
    const auto one = hub_->join({kTablet, "tablet"}, kVisit, 0, tablet);
    EXPECT_EQ(tablet->next("here").find("devices")->items.size(), 1u);
    auto two = hub_->join({kPhone, "phone"}, kVisit, 0, std::make_shared<Ear>());
    EXPECT_EQ(tablet->next("here").find("devices")->items.size(), 2u);
    two.reset();
    EXPECT_EQ(tablet->next("here").find("devices")->items.size(), 1u);
}

TEST_F(HubTest, theListHearsThatItChangedAndALineThatItIsAlive) {
    const auto ear = std::make_shared<Ear>();
    const auto session = hub_->join({kTablet, "tablet"}, "", 0, ear);
    session->received(R"({"type":"ping"})");
    ear->next("pong");
    write("00000000000000e4", "something", kPhone);
    ear->next("visits");
    session->received("what");
    EXPECT_EQ(ear->closed(), 1008);
}

TEST_F(HubTest, linesOfADeviceThatWasTakenOutAreClosed) {
    const auto tablet = std::make_shared<Ear>();
    const auto phone = std::make_shared<Ear>();
    const auto one = hub_->join({kTablet, "tablet"}, kVisit, 0, tablet);
    const auto two = hub_->join({kPhone, "phone"}, "", 0, phone);
    hub_->close_device(kPhone);
    EXPECT_EQ(phone->closed(), 1008);
    EXPECT_EQ(tablet->closed(), 0);
}

}  // namespace
}  // namespace fallaway::serve
