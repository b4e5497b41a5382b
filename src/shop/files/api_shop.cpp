// The shop, its devices and what is asked of the sums, on the wire.
#include "science/base/quote.h"
#include "shop/files/api_tables.h"

namespace fallaway::files::api {
namespace {

using namespace wire;

constexpr double kSmallestK = 0.1;
constexpr double kLargestK = 10;

bool is_id(std::string_view text) {
    return text.size() == 16 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

// A quantity that is kept as typed, of the dimension that its record gives.
template <class T>
Field<T> typed_quantity(std::string key, std::string says, bool required, std::string T::*member,
                        std::function<bool(const Json&, const Spot&, const T&, QuantityText&)> decode) {
    return {std::move(key),
            std::move(says),
            required,
            "a quantity with its unit",
            "",
            [member, decode = std::move(decode)](const Json& value, const Spot& spot, T& out) {
                QuantityText quantity;
                if (!decode(value, spot, out, quantity)) return false;
                out.*member = quantity.typed;
                return true;
            },
            [member](const T& record) {
                return (record.*member).empty() ? std::nullopt : std::optional(Json::of(record.*member));
            },
            any_text().schema};
}

bool decode_kind(const Json& value, const Spot& spot, Tool& tool) {
    std::vector<std::string_view> ids;
    for (const auto& kind : BenchSession::of(spot).catalogue.tools) ids.push_back(kind.id);
    return decode_word(value, spot, ids, tool.kind);
}

bool decode_certificate(const Json& value, const Spot& spot, const Tool& tool, QuantityText& out) {
    const auto& kinds = BenchSession::of(spot).catalogue.tools;
    const auto kind = std::ranges::find(kinds, tool.kind, &metrology::ToolKind::id);
    if (kind == kinds.end() || !decode_quantity(value, spot, kind->dimension, out)) return false;
    if (out.si > 0) return true;
    spot.refuse("range", value, "an uncertainty is more than nothing");
    return false;
}

Codec<KnownDevice> known_device_codec() {
    using K = KnownDevice;
    return codec_of(Record<K>("known_device", "A device that was paired with the shop")
                        .tells("id", "of the device", &K::id, id())
                        .tells("name", "what people call it", &K::name, any_text())
                        .tells("paired", "when", &K::paired, moment())
                        .tells("seen", "when it last asked for anything", &K::seen, moment())
                        .tells("revoked", "true: it is shut out", &K::revoked, boolean())
                        .tells("here", "true: it is the one that asks", &K::here, boolean()));
}

bool decode_inputs(const Json& value, const Spot& spot, SumAsked& asked) {
    if (value.kind != Json::Kind::record) {
        spot.refuse("type", value, "expected a record { ... } of texts");
        return false;
    }
    bool good = true;
    for (std::size_t i = 0; i < value.items.size(); ++i) {
        auto& [key, text] = asked.inputs.emplace_back(value.keys[i], "");
        good = prose().decode(value.items[i], spot.member(key), text) && good;
    }
    return good;
}

}  // namespace

Codec<std::string> id() {
    return named<std::string>("id",
                              {[](const Json& value, const Spot& spot, std::string& out) {
                                   const bool good = value.kind == Json::Kind::text && is_id(value.text);
                                   if (!good) {
                                       spot.refuse(value.kind == Json::Kind::text ? "syntax" : "type", value,
                                                   "expected an id of 16 digits 0 to 9, a to f");
                                   }
                                   out = value.text;
                                   return good;
                               },
                               [](const std::string& value) { return Json::of(value); },
                               [](Definitions&) { return schema_of_text("^[0-9a-f]{16}$", "7f3a09c25be4d18a"); },
                               "an id of 16 digits 0 to 9, a to f"});
}

Codec<std::string> moment() {
    auto codec = any_text();
    codec.says = "a moment such as \"2026-11-24T09:10:00+01:00\"";
    return named("moment", codec);
}

Codec<std::string> day() {
    return named("day", wire::day());
}

Codec<DeviceName> device_name_codec() {
    using D = DeviceName;
    return codec_of(Record<D>("device_name", "A device and what people call it")
                        .tells("id", "of the device; \"\" when its page does not say", &D::id, any_text())
                        .tells("name", "what people call it", &D::name, any_text()));
}

Codec<Person> person_codec() {
    using P = Person;
    return codec_of(Record<P>("person", "Somebody of the shop")
                        .required("name", "the name", &P::name, name())
                        .defaulted("technician", "true: works at the bench", &P::technician, boolean())
                        .defaulted("contact", "how to reach them", &P::contact, prose())
                        .defaulted("remark", "anything else", &P::remark, prose()));
}

Codec<Tool> tool_codec() {
    using T = Tool;
    const Field<T> kind{"kind",
                        "a kind of tool (data/tools.json)",
                        true,
                        name().says,
                        "",
                        decode_kind,
                        [](const T& tool) { return std::optional(Json::of(tool.kind)); },
                        name().schema};
    return codec_of(Record<T>("shop_tool", "A tool of the shop's wall")
                        .required("id", "as readings name it", &T::id, name())
                        .add(kind)
                        .defaulted("calibrated", "when last", &T::calibrated, day())
                        .defaulted("due", "when next", &T::due, day())
                        .add(typed_quantity<T>("certificate_u", "expanded uncertainty from its certificate", false,
                                               &T::certificate_u, decode_certificate))
                        .defaulted("certificate_k", "coverage factor of that", &T::certificate_k,
                                   number(kSmallestK, kLargestK))
                        .defaulted("remark", "anything else", &T::remark, prose())
                        .defaulted("retired", "true: no longer in use", &T::retired, boolean()));
}

Codec<Rate> rate_codec() {
    using R = Rate;
    const auto money = [](const Json& value, const Spot& spot, const R&, QuantityText& out) {
        return decode_quantity(value, spot, Dimension::money, out);
    };
    return codec_of(Record<R>("rate", "What a kind of work costs here")
                        .required("work", "the work", &R::work, name())
                        .add(typed_quantity<R>("amount", "such as \"60 EUR\"", true, &R::amount, money))
                        .defaulted("remark", "anything else", &R::remark, prose()));
}

Codec<Shop> shop_codec() {
    using S = Shop;
    return codec_of(Record<S>("shop", "The shop")
                        .add(schema_field<S>("fallaway/shop/1"))
                        .tells("version", "of the program", &S::version, any_text())
                        .tells("name", "of the shop", &S::name, any_text())
                        .tells("demo", "true: invented instruments and people", &S::demo, boolean())
                        .tells("today", "by the clock of the server", &S::today, day())
                        .tells("people", "who works or owns here", &S::people, list_of(person_codec()))
                        .tells("tools", "the tools on the wall", &S::tools, list_of(tool_codec()))
                        .tells("rates", "what work costs", &S::rates, list_of(rate_codec()))
                        .tells("limits", "the shop's own limits", &S::limits, list_of(limit_override_codec()))
                        .tells("opened", "true: other devices may reach it", &S::opened, boolean())
                        .defaulted("address", "where they reach it", &S::address, any_text())
                        .tells("local", "true: this request came from the machine itself", &S::local, boolean())
                        .tells("device", "the one that asks", &S::device, device_name_codec()));
}

Codec<ShopName> shop_name_codec() {
    return codec_of(
        Record<ShopName>("shop_name", "A new name").required("name", "of the shop", &ShopName::name, name()));
}

Codec<SumAsked> sum_asked_codec() {
    using S = SumAsked;
    return codec_of(Record<S>("sum_asked", "A sum to work out")
                        .add({"inputs", "value by key, as the list of sums names them", true, "a record of texts",
                              "", decode_inputs, nullptr, [](Definitions&) {
                                  return Json::record(
                                      {{"type", Json::of("object")},
                                       {"additionalProperties", Json::record({{"type", Json::of("string")}})}});
                              }}));
}

Codec<Medium> medium_codec() {
    using M = Medium;
    return codec_of(Record<M>("medium", "A photo or a recording that is kept")
                        .add(schema_field<M>("fallaway/medium/1"))
                        .tells("hash", "of its bytes", &M::hash, any_text())
                        .tells("path", "as a bench file names it", &M::path, any_text())
                        .tells("type", "media type", &M::type, any_text())
                        .tells("bytes", "its size", &M::bytes, count()));
}

Codec<Pairing> pairing_codec() {
    using P = Pairing;
    return codec_of(Record<P>("pairing", "A way in for one more device")
                        .add(schema_field<P>("fallaway/pairing/1"))
                        .tells("code", "to type in", &P::code, any_text())
                        .tells("url", "to open there", &P::url, any_text())
                        .tells("qr_svg", "that as a drawing to read with a camera", &P::qr_svg, any_text())
                        .tells("until", "how long it holds", &P::until, moment())
                        .tells("trust_url", "how the device learns to trust the shop", &P::trust_url, any_text()));
}

Codec<PairAsked> pair_asked_codec() {
    using P = PairAsked;
    return codec_of(Record<P>("pair_asked", "A device that wants in")
                        .required("code", "as shown", &P::code, name())
                        .required("name", "what people shall call it", &P::name, name()));
}

Codec<Paired> paired_codec() {
    return codec_of(Record<Paired>("paired", "A device that is in")
                        .add(schema_field<Paired>("fallaway/paired/1"))
                        .tells("device", "that device", &Paired::device, device_name_codec()));
}

Codec<Devices> devices_codec() {
    using D = Devices;
    return codec_of(Record<D>("devices", "All devices that were paired")
                        .add(schema_field<D>("fallaway/devices/1"))
                        .tells("devices", "one by one", &D::devices, list_of(known_device_codec())));
}

std::string encode(const Shop& shop) {
    static const auto kCodec = shop_codec();
    return write_json_line(kCodec.encode(shop));
}
std::string encode(const Medium& medium) {
    return write_json_line(medium_codec().encode(medium));
}
std::string encode(const Pairing& pairing) {
    return write_json_line(pairing_codec().encode(pairing));
}
std::string encode(const Paired& paired) {
    return write_json_line(paired_codec().encode(paired));
}
std::string encode(const Devices& devices) {
    return write_json_line(devices_codec().encode(devices));
}
std::string encode_limit(const evidence::LimitOverride& limit) {
    return write_json_line(limit_override_codec().encode(limit));
}

ResultAll<Person> decode_person(std::string_view text) {
    return decode_as(text, person_codec());
}
ResultAll<Tool> decode_tool(std::string_view text) {
    return decode_as(text, tool_codec());
}
ResultAll<Rate> decode_rate(std::string_view text) {
    return decode_as(text, rate_codec());
}
ResultAll<evidence::LimitOverride> decode_limit(std::string_view text) {
    return decode_as(text, limit_override_codec());
}
ResultAll<ShopName> decode_shop_name(std::string_view text) {
    return decode_as(text, shop_name_codec());
}
ResultAll<SumAsked> decode_sum(std::string_view text) {
    return decode_as(text, sum_asked_codec());
}
ResultAll<PairAsked> decode_pair(std::string_view text) {
    return decode_as(text, pair_asked_codec());
}

}  // namespace fallaway::files::api
