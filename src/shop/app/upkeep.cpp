#include "shop/app/upkeep.h"

#include <filesystem>

#include <fmt/format.h>

#include "shop/app/shop.h"
#include "shop/files/json_text.h"

namespace fallaway::app {
namespace {

using files::Json;

Json text(std::string_view value) {
    return Json::of(value);
}

}  // namespace

CommandOutput backup_command(const std::string& target, const std::string& shop, bool json,
                             std::string_view version, const GoOn& go_on) {
    const auto opened = Shop::open(shop, store::Access::read, false, std::string(version));
    if (!opened) return bad_input(shop, {opened.error()}, json);
    if (const auto done = (*opened)->store().backup(target, go_on); !done) {
        return bad_input(target, {done.error()}, json);
    }
    CommandOutput output;
    output.out =
        json ? files::write_json(Json::record(
                   {{"schema", text("fallaway/backup/1")}, {"shop", text(shop)}, {"backup", text(target)}}))
             : fmt::format("The whole shop, media included: {}\n", target);
    return output;
}

CommandOutput restore_command(const std::string& backup, const std::string& shop, bool json) {
    std::error_code ignored;
    const bool replaces = std::filesystem::exists(std::filesystem::path(shop) / "shop.sqlite", ignored);
    if (const auto done = store::restore(backup, shop); !done) return bad_input(backup, {done.error()}, json);
    const std::string kept =
        replaces ? std::filesystem::path(shop).lexically_normal().string() + ".before-restore" : "";
    CommandOutput output;
    if (json) {
        Json answer = Json::record({{"schema", text("fallaway/restored/1")}, {"shop", text(shop)}});
        if (replaces) answer.add("kept", text(kept));
        output.out = files::write_json(answer);
        return output;
    }
    output.out = fmt::format("The shop is back: {}\n", shop);
    if (replaces) output.out += fmt::format("What was there before is kept: {}\n", kept);
    return output;
}

CommandOutput check_command(const std::string& shop, bool json, std::string_view version, const GoOn& go_on) {
    const auto opened = Shop::open(shop, store::Access::read, false, std::string(version));
    if (!opened) return bad_input(shop, {opened.error()}, json);
    const auto faults = (*opened)->store().check(go_on);
    if (!faults) return bad_input(shop, {faults.error()}, json);
    CommandOutput output;
    output.exit_code = faults->empty() ? kDone : kBadInput;
    if (json) {
        Json list = Json::list();
        for (const std::string& fault : *faults) list.items.push_back(text(fault));
        output.out = files::write_json(Json::record(
            {{"schema", text("fallaway/check/1")}, {"shop", text(shop)}, {"faults", std::move(list)}}));
        return output;
    }
    if (faults->empty()) {
        output.out = fmt::format("{}: everything is as it was written\n", shop);
        return output;
    }
    for (const std::string& fault : *faults) output.err += fmt::format("{}: {}\n", shop, fault);
    output.err += fmt::format("{} {}. A backup brings the shop back: fallaway restore BACKUP --shop {}\n",
                              faults->size(), faults->size() == 1 ? "fault" : "faults", shop);
    return output;
}

}  // namespace fallaway::app
