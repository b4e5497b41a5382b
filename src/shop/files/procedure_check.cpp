// What must hold between the parts of a procedure.
#include <fmt/format.h>

#include "science/base/near_word.h"
#include "science/base/quote.h"
#include "shop/files/catalogue_tables.h"

namespace fallaway::files {
namespace {

using evidence::Checkpoint;
using evidence::Procedure;
using wire::Spot;

void check_listed(const std::string& word, std::span<const std::string_view> known, const Spot& spot) {
    if (std::ranges::find(known, word) == known.end()) {
        spot.fault("unknown", fmt::format("{}: not in this procedure, {}", quote(word), hint(word, known)));
    }
}

void check_checkpoint(const Checkpoint& checkpoint, const Spot& spot) {
    using enum evidence::CheckpointKind;
    if (checkpoint.kind == judged && checkpoint.anchors.size() != 4) {
        spot.member("anchors").fault(
            "range", fmt::format("{} anchors, a judged checkpoint has four", checkpoint.anchors.size()));
    }
    if (checkpoint.kind == measured && checkpoint.reads.empty()) {
        spot.member("reads").fault("missing", "missing, a measured checkpoint reads something");
    }
}

}  // namespace

void check_procedure(const Procedure& procedure, const Spot& top) {
    const Spot sections = top.member("sections");
    const Spot checkpoints = top.member("checkpoints");
    const Spot scopes = top.member("scopes");
    check_ids(procedure.sections, &evidence::Section::id, "id", sections);
    check_ids(procedure.checkpoints, &Checkpoint::id, "id", checkpoints);
    check_ids(procedure.scopes, &evidence::Scope::name, "name", scopes);
    std::vector<std::string_view> section_ids;
    for (const auto& section : procedure.sections) section_ids.push_back(section.id);
    std::vector<std::string_view> ids;
    for (std::size_t i = 0; i < procedure.checkpoints.size(); ++i) {
        const Spot spot = checkpoints.item(i);
        ids.push_back(procedure.checkpoints[i].id);
        check_listed(procedure.checkpoints[i].section, section_ids, spot.member("section"));
        check_checkpoint(procedure.checkpoints[i], spot);
    }
    for (std::size_t i = 0; i < procedure.scopes.size(); ++i) {
        const Spot scope = scopes.item(i);
        const Spot list = scope.member("checkpoints");
        const auto& named = procedure.scopes[i].checkpoints;
        for (std::size_t j = 0; j < named.size(); ++j) check_listed(named[j], ids, list.item(j));
    }
}

}  // namespace fallaway::files
