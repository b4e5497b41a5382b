// Photos and recordings by the hash of their bytes.
#include <fmt/format.h>

#include "shop/files/digest.h"
#include "shop/files/file_io.h"
#include "shop/store/inside.h"
#include "shop/store/medium_name.h"

namespace fallaway::store {
namespace {

namespace fs = std::filesystem;

fs::path place_of(const fs::path& folder, const Medium& medium) {
    return folder / kMedia / medium.hash.substr(0, 2) / medium_name(medium);
}

Result<Medium> find_medium(Connection& connection, std::string_view hash) {
    Query query = connection.query("SELECT hash, type, bytes, added FROM medium WHERE hash = ?1");
    if (query.with(hash).step()) return Medium{query.text(0), query.text(1), query.whole(2), query.text(3)};
    return fail("missing", "medium", fmt::format("\"{}\": no such photo or recording in the shop", hash));
}

// On the disk when this returns, name and all.
Result<void> write_medium(const fs::path& place, std::string_view bytes) {
    const fs::path folder = place.parent_path();
    if (auto made = files::make_folder(folder); !made) return made;
    if (auto written = files::write_file(place, bytes); !written) return written;
    for (const fs::path& changed : {folder, folder.parent_path(), folder.parent_path().parent_path()}) {
        if (auto synced = sync_folder(changed); !synced) return synced;
    }
    return {};
}

}  // namespace

std::string_view ending_of(std::string_view media_type) {
    for (const MediumKind& kind : kMediumKinds) {
        if (kind.type == media_type) return kind.ending;
    }
    return "";
}

Result<Medium> Store::add_medium(std::string_view bytes, std::string_view type, std::string_view when) {
    if (ending_of(type).empty()) {
        std::vector<std::string_view> types;
        for (const MediumKind& kind : kMediumKinds) types.push_back(kind.type);
        return fail("type", "type", fmt::format("\"{}\": expected {}", type, fmt::join(types, ", ")));
    }
    if (bytes.empty() || bytes.size() > kLargestMedium) {
        return fail("size", "bytes", fmt::format("{} bytes; expected 1 to {}", bytes.size(), kLargestMedium));
    }
    if (!inside_->writer) return fail("read only", inside_->folder.string(), "the shop is open for reading alone");
    const Medium medium{files::sha256_hex(bytes), std::string(type), std::int64_t(bytes.size()),
                        std::string(when)};
    // One at a time: the same photo sent twice would be written to one file by two hands.
    const std::lock_guard alone(inside_->adding_media);
    const auto there = this->medium(medium.hash);
    if (!there && there.error().code != "missing") return there;
    if (there && there->type != type) {
        return fail("conflict", "type",
                    fmt::format("\"{}\": these bytes are kept as {} already", type, there->type));
    }
    const fs::path place = place_of(inside_->folder, medium);
    std::error_code ignored;
    if (!there || fs::file_size(place, ignored) != bytes.size()) {
        if (auto written = write_medium(place, bytes); !written) return tl::unexpected(written.error());
    }
    if (there) return there;
    return inside_->write([&](Connection& connection) -> Result<Medium> {
        connection
            .query("INSERT INTO medium (hash, type, bytes, added) VALUES (?1, ?2, ?3, ?4) ON CONFLICT DO NOTHING")
            .with(medium.hash, medium.type, medium.bytes, medium.added)
            .run();
        return find_medium(connection, medium.hash);
    });
}

Result<Medium> Store::medium(std::string_view hash) const {
    return inside_->read([&](Connection& connection) { return find_medium(connection, hash); });
}

Result<std::string> Store::medium_bytes(std::string_view hash) const {
    const auto found = medium(hash);
    if (!found) return tl::unexpected(found.error());
    return files::read_file(place_of(inside_->folder, *found), kLargestMedium);
}

}  // namespace fallaway::store
