// The use cases of a shop: the same functions behind the command line and the page. Evidence goes in as entries;
// the view of a visit comes out. Knows no HTTP.
//
// Calls may come from any thread. Error codes are those of store.h and of the bench file's decoder; a path such as
// "/entries/0/value/at/fret" says where.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "science/base/result.h"
#include "shop/files/api.h"
#include "shop/store/store.h"

namespace fallaway::app {

// Time and chance, handed in so that tests can hold them still.
struct World {
    std::function<std::string()> now;     // RFC 3339 with offset
    std::function<std::string()> today;   // a day
    std::function<std::string()> new_id;  // 16 lower-case hexadecimal digits
};
World real_world();

class Shop {
public:
    static Result<std::unique_ptr<Shop>> open(const std::filesystem::path& folder, store::Access access,
                                              bool create, std::string version, World world = real_world());
    ~Shop();

    // Told after every change, on the thread that made it: the visit's id ("" for the lists of the shop).
    void on_change(std::function<void(const std::string& visit)> told);

    files::api::Shop shop() const;
    ResultAll<void> put_person(const files::api::Person&);
    ResultAll<void> put_tool(const files::api::Tool&);
    ResultAll<void> put_rate(const files::api::Rate&);
    Result<void> drop_rate(std::string_view work);
    ResultAll<void> put_limit(const evidence::LimitOverride&);
    Result<void> drop_limit(std::string_view checkpoint);
    Result<void> put_name(std::string_view name);

    Result<files::api::Visits> find_visits(std::string_view query, int limit, int offset) const;
    Result<files::api::Names> find_names(std::string_view query) const;
    ResultAll<files::api::VisitOpened> open_visit(const files::api::NewVisit&);
    // `id`: of the visit to be, "" for a new one. The same file under the same id again changes nothing.
    ResultAll<files::api::VisitOpened> import_bench(std::string_view text, std::string_view id);
    // `device` decides whose undo is offered.
    Result<files::api::VisitView> view(std::string_view visit, std::string_view device) const;
    // Works out what the list shows of it; also done before a view, where nobody has yet.
    Result<void> judge(std::string_view visit) const;
    ResultAll<files::api::EntriesStored> add(std::string_view visit, std::vector<files::Entry> entries,
                                             std::string_view device);
    ResultAll<files::api::Tried> try_out(std::string_view visit, std::vector<files::Entry> entries,
                                         std::string_view device) const;
    ResultAll<files::api::EntriesStored> undo(std::string_view visit, std::string_view id,
                                              std::string_view device);
    Result<files::api::VisitLine> close(std::string_view visit, bool closed);
    Result<files::api::History> history(std::string_view visit) const;
    // What a live page has missed: entries in force with a later seq, and ids of those that `since` knew and that
    // are out of force now.
    struct Missed {
        std::int64_t seq = 0;
        std::vector<files::api::StoredEntry> put;
        std::vector<std::string> drop;
    };
    Result<Missed> missed(std::string_view visit, std::int64_t since) const;

    Result<std::string> bench_file(std::string_view visit) const;  // exported
    Result<std::string> report(std::string_view visit) const;      // HTML
    Result<std::string> assessment(std::string_view visit) const;  // as `assess --json` gives it
    Result<files::api::Dossier> dossier(std::string_view id) const;
    Result<void> set_owner(std::string_view dossier, std::string_view owner);

    Result<files::api::Medium> add_medium(std::string_view bytes, std::string_view type);
    Result<std::pair<std::string, std::string>> medium(
        std::string_view name) const;  // bytes, type of "<hash>.jpg"

    store::Store& store();  // devices and settings, for the server; backup and check, for the command line
    const evidence::Catalogue& catalogue() const;

private:
    struct Inside;
    explicit Shop(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> inside_;
};

}  // namespace fallaway::app
