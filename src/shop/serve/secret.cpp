#include "shop/serve/secret.h"

#include <fmt/format.h>

#include "shop/files/file_io.h"

namespace fallaway::serve {
namespace {

namespace fs = std::filesystem;

Error cannot(const fs::path& path, const std::error_code& error) {
    return {"file", path.string(), fmt::format("cannot be kept to its owner: {}", error.message())};
}

// The folder first, so that nobody reads a file in the moment before its own permission is set.
Result<fs::path> secret_folder(const fs::path& shop_folder) {
    const fs::path folder = shop_folder / "secret";
    if (auto made = files::make_folder(folder); !made) return tl::unexpected(made.error());
    std::error_code error;
    fs::permissions(folder, fs::perms::owner_all, error);
    if (error) return tl::unexpected(cannot(folder, error));
    return folder;
}

Result<void> write_secret(const fs::path& path, std::string_view text) {
    if (auto written = files::write_file(path, text); !written) return written;
    std::error_code error;
    fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write, error);
    if (error) return tl::unexpected(cannot(path, error));
    return {};
}

// Certificate and key in one file each, so that they always fit each other.
constexpr std::string_view kEndOfCertificate = "-----END CERTIFICATE-----\n";

std::optional<net::Certificate> read_pair(const fs::path& path) {
    const auto text = files::read_file(path);
    if (!text) return std::nullopt;
    const std::size_t end = text->find(kEndOfCertificate);
    if (end == std::string::npos) return std::nullopt;
    const std::size_t cut = end + kEndOfCertificate.size();
    return net::Certificate{text->substr(0, cut), text->substr(cut)};
}

Result<net::Certificate> keep(const fs::path& path, Result<net::Certificate> made) {
    if (!made) return made;
    if (auto written = write_secret(path, made->pem + made->key_pem); !written)
        return tl::unexpected(written.error());
    return made;
}

}  // namespace

Result<Papers> papers_of(const fs::path& shop_folder, std::string_view shop_name,
                         std::span<const std::string> hosts, std::int64_t days_now) {
    const auto folder = secret_folder(shop_folder);
    if (!folder) return tl::unexpected(folder.error());
    const fs::path authority_path = *folder / "authority.pem";
    const fs::path leaf_path = *folder / "leaf.pem";

    Papers papers;
    std::error_code ignored;
    if (auto there = read_pair(authority_path)) {
        papers.authority = std::move(*there);
    } else if (fs::exists(authority_path, ignored)) {
        // A new one would lock out every tablet that trusts the old: that is for a person to decide.
        return fail(
            "damaged", authority_path.string(),
            "is no authority with its key; put it back from a copy, or remove it and let every device in anew");
    } else {
        auto made = keep(authority_path, net::make_authority(shop_name, days_now));
        if (!made) return tl::unexpected(made.error());
        papers.authority = std::move(*made);
    }
    const auto leaf = read_pair(leaf_path);
    if (leaf && net::still_good(*leaf, papers.authority, hosts, days_now)) {
        papers.leaf = *leaf;
        return papers;
    }
    auto made = keep(leaf_path, net::make_leaf(papers.authority, hosts, days_now));
    if (!made) return tl::unexpected(made.error());
    papers.leaf = std::move(*made);
    return papers;
}

}  // namespace fallaway::serve
