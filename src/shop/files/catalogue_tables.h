// The records of the reference tables as wire tables. Shared by the codecs of this room only.
#pragma once

#include <set>
#include <string_view>

#include "bench/evidence/catalogue.h"
#include "science/base/quote.h"
#include "shop/files/wire.h"

namespace fallaway::files {

wire::Codec<evidence::Severity> severity_codec();
wire::Codec<evidence::Cure> cure_codec();
wire::Codec<evidence::Procedure> procedure_codec();  // form and check_procedure()

void check_procedure(const evidence::Procedure& procedure, const wire::Spot& top);

// Does every item of a list have an id of its own?
template <class List, class Name>
void check_ids(const List& list, Name name, std::string_view key, const wire::Spot& spot) {
    std::set<std::string_view> seen;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const std::string& id = list[i].*name;
        if (!seen.insert(id).second) spot.item(i).member(key).fault("duplicate", quote(id) + ": stands twice");
    }
}

}  // namespace fallaway::files
