// What page and server say to each other as wire tables. Shared by the api_*.cpp of this room only.
#pragma once

#include <string>
#include <string_view>

#include "shop/files/api.h"
#include "shop/files/assessment_tables.h"
#include "shop/files/bench_tables.h"
#include "shop/files/catalogue_codec.h"

namespace fallaway::files::api {

wire::Codec<std::string> id();
wire::Codec<std::string> moment();  // only ever written
wire::Codec<std::string> day();

// Answers. Each stands in the schema under the name of its record.
wire::Codec<std::vector<Error>> refusal_codec();
wire::Codec<Shop> shop_codec();
wire::Codec<evidence::Catalogue> catalogue_codec();
wire::Codec<Visits> visits_codec();
wire::Codec<VisitLine> visit_line_codec();
wire::Codec<Names> names_codec();
wire::Codec<VisitOpened> visit_opened_codec();
wire::Codec<VisitView> visit_view_codec();
wire::Codec<EntriesStored> entries_stored_codec();
wire::Codec<Tried> tried_codec();
wire::Codec<History> history_codec();
wire::Codec<Dossier> dossier_codec();
wire::Codec<Medium> medium_codec();
wire::Codec<Pairing> pairing_codec();
wire::Codec<Paired> paired_codec();
wire::Codec<Devices> devices_codec();

// Requests.
wire::Codec<NewVisit> new_visit_codec();
wire::Codec<NewEntries> new_entries_codec();
wire::Codec<UndoAsked> undo_asked_codec();
wire::Codec<CloseAsked> close_asked_codec();
wire::Codec<ShopName> shop_name_codec();
wire::Codec<OwnerSet> owner_set_codec();
wire::Codec<SumAsked> sum_asked_codec();
wire::Codec<PairAsked> pair_asked_codec();

// Both.
wire::Codec<Person> person_codec();
wire::Codec<Tool> tool_codec();
wire::Codec<Rate> rate_codec();
wire::Codec<Entry> entry_codec();

// Parts.
wire::Codec<DeviceName> device_name_codec();
wire::Codec<StoredEntry> stored_entry_codec();
wire::Codec<UndoOffer> undo_offer_codec();

// The schemas of the list of sums and of what a sum gives (sums_json.cpp).
void add_sums(wire::Definitions& definitions);

// The schemas of what goes over the WebSocket; `definitions` holds visit_view and assessment already.
void add_live(wire::Definitions& definitions);

template <class T>
ResultAll<T> decode_as(std::string_view text, const wire::Codec<T>& codec) {
    const auto json = read_json(text);
    if (!json) return tl::unexpected(std::vector<Error>{json.error()});
    BenchSession session(built_in_catalogue());
    T out;
    codec.decode(*json, wire::Spot(session), out);
    if (!session.faults().empty()) return tl::unexpected(session.take_faults());
    return out;
}

}  // namespace fallaway::files::api
