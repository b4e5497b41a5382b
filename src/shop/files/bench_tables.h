// The records of a bench file as wire tables. Shared by the codecs of this room only.
#pragma once

#include "bench/evidence/bench.h"
#include "bench/evidence/catalogue.h"
#include "shop/files/wire.h"

namespace fallaway::files {

// What readings, claims and places need to know while a bench file is read. The instrument stands first in the
// table of the file, so it is known by the time a place names a string.
class BenchSession : public wire::Session {
public:
    explicit BenchSession(const evidence::Catalogue& known) : catalogue(known), procedure(&known.procedure) {}

    const evidence::Catalogue& catalogue;
    const evidence::Procedure* procedure;  // the catalogue's, or that of the visit; null when that one is at fault
    const evidence::Instrument* instrument = nullptr;
    bool instrument_is_good = false;  // else names of strings are let pass: the instrument is at fault, not they

    static BenchSession& of(const wire::Spot& spot) { return static_cast<BenchSession&>(spot.session()); }
};

wire::Definitions bench_definitions();  // of every record of a bench file

std::vector<std::string> place_words(unsigned parts);  // keys of a place, of the bits of an observable

wire::Codec<evidence::Instrument> instrument_codec();
wire::Codec<evidence::Place> place_codec();
wire::Codec<evidence::Stage> stage_codec();
wire::Codec<std::string> side_codec();

wire::Codec<evidence::Job> job_codec();
wire::Codec<evidence::Wants> wants_codec();
wire::Codec<evidence::ScopeChoice> scope_codec();
wire::Codec<evidence::Claim> claim_codec();
wire::Codec<evidence::ToolUsed> tool_used_codec();
wire::Codec<evidence::RoomState> room_state_codec();
wire::Codec<evidence::Reading> reading_codec();
wire::Codec<evidence::Rating> rating_codec();
wire::Codec<evidence::Recording> recording_codec();
wire::Codec<evidence::Photo> photo_codec();
wire::Codec<evidence::Work> work_codec();
wire::Codec<evidence::Acceptance> acceptance_codec();
wire::Codec<evidence::Card> card_codec();
wire::Codec<evidence::Price> price_codec();
wire::Codec<evidence::LimitOverride> limit_override_codec();
wire::Codec<evidence::Remark> remark_codec();

}  // namespace fallaway::files
