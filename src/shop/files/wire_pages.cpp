// What wire tables say to people and to validators: pages of manuals, definitions of a schema.
#include <fmt/format.h>

#include "shop/files/wire.h"

namespace fallaway::files::wire {

bool Definitions::has(std::string_view name) const {
    return std::ranges::find(entries_, name, &Entry::name) != entries_.end();
}
std::size_t Definitions::reserve(std::string name) {
    entries_.push_back({std::move(name), {}, {}});
    return entries_.size() - 1;
}
void Definitions::fill(std::size_t place, Json schema, std::string page) {
    entries_[place].schema = std::move(schema);
    entries_[place].page = std::move(page);
}

Json schemas_of(const Definitions& definitions) {
    Json out = Json::record();
    for (const auto& entry : definitions.entries()) out.add(entry.name, entry.schema);
    return out;
}

std::string pages_of(const Definitions& definitions, const std::vector<OtherManual>& others) {
    const auto file_of = [&](std::string_view name) -> std::string_view {
        for (const OtherManual& other : others) {
            if (other.records.has(name)) return other.file;
        }
        return {};
    };
    constexpr std::string_view kLink = "](#";
    std::string out;
    for (const auto& entry : definitions.entries()) {
        if (!file_of(entry.name).empty()) continue;
        std::string_view rest = entry.page;
        for (auto link = rest.find(kLink); link != std::string_view::npos; link = rest.find(kLink)) {
            const std::string_view name =
                rest.substr(link + kLink.size(), rest.find(')', link) - link - kLink.size());
            out += fmt::format("{}]({}#", rest.substr(0, link), file_of(name));
            rest.remove_prefix(link + kLink.size());
        }
        out += rest;
    }
    return out;
}

std::string page_of(std::string_view name, std::string_view says, std::span<const FieldPage> fields) {
    std::string out = fmt::format("### {}\n\n{}.\n\n| key | value | meaning |\n|---|---|---|\n", name, says);
    for (const FieldPage& field : fields) {
        std::string_view mark = field.required ? " **(required)**" : "";
        const std::string standard =
            field.default_says.empty() ? "" : fmt::format("; {} when left out", field.default_says);
        out += fmt::format("| `{}`{} | {}{} | {} |\n", field.key, mark, field.value_says, standard, field.says);
    }
    return out + "\n";
}

std::string says_default(const Json& value) {
    switch (value.kind) {
        case Json::Kind::record:
            return "";  // an empty place needs no word
        case Json::Kind::list:
            return "";
        default:
            return value.kind == Json::Kind::text && value.text.empty() ? "" : show(value);
    }
}

std::string without_links(std::string_view markdown) {
    std::string out;
    while (!markdown.empty()) {
        const auto open = markdown.find('[');
        const auto middle = markdown.find("](#");
        const auto close = middle == std::string_view::npos ? middle : markdown.find(')', middle);
        if (open == std::string_view::npos || close == std::string_view::npos) return out += markdown;
        out += markdown.substr(0, open);
        out += "a record \"";
        out += markdown.substr(open + 1, middle - open - 1);
        out += '"';
        markdown.remove_prefix(close + 1);
    }
    return out;
}

}  // namespace fallaway::files::wire
