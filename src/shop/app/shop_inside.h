// What the parts of Shop share. For this room only.
#pragma once

#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <optional>

#include "shop/app/shop.h"
#include "shop/app/visit_state.h"

namespace fallaway::app {

// What judgement said of a state.
struct Judged {
    std::shared_ptr<const VisitState> of;
    judgement::Assessment assessment;
};

// A visit that somebody works on. `writing` is held while its history grows; the pointers may be taken at any
// time.
struct OpenVisit {
    std::mutex writing;
    std::mutex pointers;
    std::shared_ptr<const VisitState> state;
    std::shared_ptr<const Judged> judged;
};

struct Shop::Inside {
    Inside(store::Store opened, store::Access how, std::string of_program, World of, std::string hash);

    store::Store store;
    store::Access access;
    std::string version;
    World world;
    std::shared_ptr<const evidence::Catalogue> catalogue;  // built in
    std::string procedure_hash;                            // of its procedure
    std::function<void(const std::string&)> told;

    std::mutex open_visits_mutex;
    std::map<std::string, std::shared_ptr<OpenVisit>, std::less<>> open_visits;
    std::list<std::string> by_use;  // the latest first

    void tell(const std::string& visit) const {
        if (told) told(visit);
    }
    std::shared_ptr<OpenVisit> open_visit(std::string_view id);
    // The state as the store has it now; read again when another program has written.
    Result<std::shared_ptr<const VisitState>> state_of(OpenVisit& open, std::string_view id);
    ResultAll<std::shared_ptr<const VisitState>> grown(const std::shared_ptr<const VisitState>& state,
                                                       std::vector<files::Entry> asked, std::string_view visit,
                                                       std::string_view device);
    Result<std::shared_ptr<const Judged>> judged_of(OpenVisit& open, std::string_view id);
    // The stay before this visit.
    std::optional<files::api::LastStay> last_stay_before(const store::Visit& visit);
    Result<std::shared_ptr<const evidence::Catalogue>> catalogue_under(const std::string& procedure) const;
    // The dossier is called what its latest visit calls it.
    Result<void> remember_names(std::string_view visit, const evidence::Bench& bench);
    // Whoever opens a visit is known from then on; what was noted of somebody known stays.
    Result<void> meet_technician(const std::string& name);
    // The wishes that a player had on the latest visit.
    std::optional<evidence::Wants> wants_of(const std::string& player);
    // Facts, wishes and shop rules that a new visit begins with.
    Result<std::vector<files::Entry>> first_entries(const files::api::NewVisit& asked);
};

// Ids that follow from what they stand for, so that the same request twice makes the same ones.
std::string id_from(std::string_view text);

// A dossier as this visit tells of the instrument.
store::Dossier dossier_from(const evidence::Bench& bench, std::string id, std::string now);
files::api::VisitLine line_of(const store::Visit& visit);
std::vector<store::EntryRow> rows_of(std::span<const files::Entry> entries, std::string_view visit);
files::api::StoredEntry stored(const files::Entry& entry, std::int64_t place);

inline std::vector<Error> one(Error error) {
    return {std::move(error)};
}

}  // namespace fallaway::app
