// Every message of the API: its schema and its pages.
#include "shop/files/api_tables.h"

namespace fallaway::files::api {
namespace {

using namespace wire;

// Values of the lists that grow, as entries carry them.
void add_values(Definitions& definitions) {
    reading_codec().schema(definitions);
    rating_codec().schema(definitions);
    photo_codec().schema(definitions);
    recording_codec().schema(definitions);
    work_codec().schema(definitions);
    acceptance_codec().schema(definitions);
    remark_codec().schema(definitions);
    claim_codec().schema(definitions);
    room_state_codec().schema(definitions);
    wants_codec().schema(definitions);
}

Definitions api_definitions() {
    Definitions definitions;
    refusal_codec().schema(definitions);
    shop_codec().schema(definitions);
    shop_name_codec().schema(definitions);
    visits_codec().schema(definitions);
    names_codec().schema(definitions);
    new_visit_codec().schema(definitions);
    visit_opened_codec().schema(definitions);
    close_asked_codec().schema(definitions);
    visit_view_codec().schema(definitions);
    new_entries_codec().schema(definitions);
    entries_stored_codec().schema(definitions);
    undo_asked_codec().schema(definitions);
    tried_codec().schema(definitions);
    history_codec().schema(definitions);
    dossier_codec().schema(definitions);
    owner_set_codec().schema(definitions);
    medium_codec().schema(definitions);
    add_sums(definitions);
    sum_asked_codec().schema(definitions);
    pairing_codec().schema(definitions);
    pair_asked_codec().schema(definitions);
    paired_codec().schema(definitions);
    devices_codec().schema(definitions);
    add_live(definitions);
    catalogue_codec().schema(definitions);
    add_values(definitions);
    return definitions;
}

}  // namespace

std::string api_schema() {
    return write_json(Json::record({{"$schema", Json::of("https://json-schema.org/draft/2020-12/schema")},
                                    {"title", Json::of("Fallaway API")},
                                    {"$defs", schemas_of(api_definitions())}}));
}

std::string api_documentation() {
    return pages_of(api_definitions(),
                    {{"bench-file.md", bench_definitions()}, {"assessment-json.md", assessment_definitions()}});
}

}  // namespace fallaway::files::api
