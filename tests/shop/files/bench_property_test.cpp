// Any bench that passes validate() survives the file: decode(encode(b)) is b.
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "bench/evidence/observable.h"
#include "bench/evidence/validation.h"
#include "bench_fixture.h"
#include "shop/files/json_text.h"
#include "shop/files/moment_text.h"

namespace fallaway::files {
namespace {

using evidence::Bench;

// Text that the format allows: letters of one to three bytes, quotes, slashes, blanks inside.
rc::Gen<std::string> some_text() {
    return rc::gen::map(
        rc::gen::nonEmpty(rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(
            std::vector<std::string>{"a", "Z", "7", " ", "\"", "\\", "/", "~", "\u00e9", "\u20ac", "%"}))),
        [](const std::vector<std::string>& letters) {
            std::string out = "x";
            for (std::size_t i = 0; i < letters.size() && i < 100; ++i) out += letters[i];
            return out;
        });
}

template <class T>
std::optional<T> maybe(const rc::Gen<T>& gen) {
    return *rc::gen::arbitrary<bool>() ? std::optional<T>(*gen) : std::nullopt;
}

// A quantity within the observable's range, in one of its units, with up to three decimals.
QuantityText some_quantity(const evidence::Observable& observable) {
    const auto units = units_of(observable.dimension);
    const double part = *rc::gen::inRange(100, 901) / 1000.0;
    const double si = observable.plausible_low + part * (observable.plausible_high - observable.plausible_low);
    const Unit& unit = observable.dimension == Dimension::count
                           ? units.front()
                           : *rc::gen::elementOf(std::vector<Unit>(units.begin(), units.end()));
    const int decimals = observable.dimension == Dimension::count ? 0 : 6;
    const auto parsed = parse_quantity(format_quantity(si, unit, decimals), observable.dimension);
    RC_ASSERT(parsed.has_value());
    return *parsed;
}

evidence::Moment some_moment() {
    const std::string two = std::to_string(*rc::gen::inRange(10, 24));
    return *parse_moment("20" + two + "-0" + std::to_string(*rc::gen::inRange(1, 10)) + "-" + two + "T" + two +
                         ":30:0" + std::to_string(*rc::gen::inRange(0, 10)) +
                         *rc::gen::elementOf(std::vector<std::string>{"Z", "+01:00", "-09:30"}));
}

evidence::Place some_place(const evidence::Observable& observable) {
    const auto wants = [&](unsigned part) {
        return (observable.needs & part) != 0 || ((observable.allows & part) != 0 && *rc::gen::arbitrary<bool>());
    };
    evidence::Place at;
    if (wants(evidence::kString)) at.string = *rc::gen::inRange(1, 7);
    if (wants(evidence::kFret)) at.fret = *rc::gen::inRange(0, 23);
    if (wants(evidence::kSide)) at.side = *rc::gen::elementOf(std::vector<std::string>{"bass", "treble"});
    if (wants(evidence::kSwitch)) at.switch_position = *some_text();
    if (wants(evidence::kPickup)) at.pickup = *some_text();
    if (wants(evidence::kControl)) at.control = *some_text();
    if (wants(evidence::kPressed)) at.pressed = *rc::gen::inRange(0, 23);
    if (wants(evidence::kSpot)) at.spot = *some_text();
    return at;
}

evidence::Reading some_reading() {
    const auto observables = evidence::observables();
    const auto& observable = observables[*rc::gen::inRange<std::size_t>(0, observables.size())];
    evidence::Reading reading;
    reading.what = observable.name;
    reading.at = some_place(observable);
    if (!observable.words.empty()) {
        reading.value = std::string(observable.words[*rc::gen::inRange<std::size_t>(0, observable.words.size())]);
    } else if (*rc::gen::arbitrary<bool>() || observable.name == "fret count") {
        reading.value = some_quantity(observable);
    } else {
        for (int i = *rc::gen::inRange(1, 4); i > 0; --i) reading.repeats.push_back(some_quantity(observable));
    }
    reading.by = maybe(some_text());
    if (*rc::gen::arbitrary<bool>()) reading.when = some_moment();
    reading.stage = *rc::gen::elementOf(std::vector{evidence::Stage::arrival, evidence::Stage::before,
                                                    evidence::Stage::after, evidence::Stage::handover});
    reading.remark = maybe(some_text());
    return reading;
}

Bench some_bench() {
    Bench bench;
    bench.instrument.hand = *rc::gen::elementOf(std::vector{evidence::Hand::right, evidence::Hand::left});
    bench.instrument.frets = 22;
    bench.instrument.maker = maybe(some_text());
    bench.instrument.zero_fret = maybe(rc::gen::arbitrary<bool>());
    bench.demo = *rc::gen::arbitrary<bool>();
    bench.hands = *rc::gen::elementOf(
        std::vector{evidence::Hands::look_only, evidence::Hands::adjust, evidence::Hands::work});
    for (int i = *rc::gen::inRange(0, 6); i > 0; --i) bench.readings.push_back(some_reading());
    for (int i = *rc::gen::inRange(0, 3); i > 0; --i) {
        evidence::Remark remark;
        remark.text = *some_text() + "\n" + *some_text();
        if (*rc::gen::arbitrary<bool>()) remark.when = some_moment();
        bench.remarks.push_back(remark);
    }
    for (int i = *rc::gen::inRange(0, 3); i > 0; --i) {
        evidence::RoomState room;
        room.temperature =
            *parse_quantity(std::to_string(*rc::gen::inRange(-20, 50)) + " degC", Dimension::temperature);
        bench.room.push_back(room);
    }
    return bench;
}

TEST(BenchProperty, DecodeUndoesEncode) {
    const bool held = rc::check("decode(encode(b)) == b", [] {
        const Bench bench = some_bench();
        RC_ASSERT(evidence::validate(bench, test_catalogue()).empty());
        const std::string text = encode_bench(bench);
        const auto again = decode_bench(text, test_catalogue());
        if (!again) RC_FAIL(told(again.error()) + text);
        RC_ASSERT(*again == bench);
        RC_ASSERT(encode_bench(*again) == text);
    });
    EXPECT_TRUE(held);
}

// One byte of a good file changed: read, or refused with a reason; never anything else.
TEST(BenchProperty, DamagedFilesAreReadOrRefused) {
    const std::string good_text = read_file("tests/good/full.json");
    const bool held = rc::check("damaged", [&good_text] {
        std::string text = good_text;
        text[*rc::gen::inRange<std::size_t>(0, text.size())] = *rc::gen::arbitrary<char>();
        const auto bench = decode_bench(text, test_catalogue());
        if (!bench) {
            RC_ASSERT(!bench.error().empty());
            for (const Error& error : bench.error()) RC_ASSERT(!error.message.empty() && !error.code.empty());
        } else {
            RC_ASSERT(decode_bench(encode_bench(*bench), test_catalogue()) == *bench);
        }
    });
    EXPECT_TRUE(held);
}

TEST(BenchProperty, WritingJsonIsStable) {
    const bool held = rc::check("write(read(write(x))) == write(x)", [] {
        Json list = Json::list();
        for (int i = *rc::gen::inRange(0, 20); i > 0; --i) {
            list.items.push_back(Json::record({{*some_text(), Json::of(*some_text())}, {"n", Json::of(i)}}));
        }
        const std::string text = write_json(list);
        const auto again = read_json(text);
        RC_ASSERT(again.has_value());
        RC_ASSERT(*again == list);
        RC_ASSERT(write_json(*again) == text);
    });
    EXPECT_TRUE(held);
}

}  // namespace
}  // namespace fallaway::files
