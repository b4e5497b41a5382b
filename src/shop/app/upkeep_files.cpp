// Bench files out of a shop and into one.
#include <algorithm>
#include <filesystem>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "science/base/quote.h"
#include "shop/app/media_paths.h"
#include "shop/app/medium_kind.h"
#include "shop/app/shop.h"
#include "shop/app/shop_inside.h"
#include "shop/app/upkeep.h"
#include "shop/files/bench_codec.h"
#include "shop/files/digest.h"
#include "shop/files/file_io.h"
#include "shop/files/json_text.h"
#include "shop/files/written_json.h"

namespace fallaway::app {
namespace {

namespace fs = std::filesystem;
using files::Json;

constexpr int kVisitsAtOnce = 500;  // of the list, when all go out
constexpr std::string_view kMedia = "media/";

Error stopped(std::string_view what) {
    return {"stopped", "", fmt::format("stopped; {}", what)};
}

// Files to be, by their path below the target's folder, made aside first.
class Aside {
public:
    explicit Aside(fs::path folder) : folder_(std::move(folder)), aside_(folder_ / (".aside-" + fresh())) {}
    Aside(const Aside&) = delete;
    Aside& operator=(const Aside&) = delete;
    ~Aside() {
        std::error_code ignored;
        fs::remove_all(aside_, ignored);
    }

    Result<void> add(const fs::path& name, std::string_view bytes) {
        const fs::path place = aside_ / name;
        if (auto made = files::make_folder(place.parent_path()); !made) return made;
        if (auto written = files::write_file(place, bytes); !written) return written;
        names_.push_back(name);
        return {};
    }

    // Those whose place is taken by something else.
    std::vector<Error> taken() const {
        std::vector<Error> errors;
        for (const fs::path& name : names_) {
            const fs::path place = folder_ / name;
            std::error_code ignored;
            if (!fs::exists(place, ignored)) continue;
            const auto there = files::read_file(place, store::kLargestMedium);
            const auto fresh = files::read_file(aside_ / name, store::kLargestMedium);
            if (there && fresh && *there == *fresh) continue;
            errors.push_back(
                {"file", place.string(), "is there already and differs; move it away or name another place"});
        }
        return errors;
    }

    // Media come before the file that names them, in the order they were added. After a failure those that were
    // new are gone again.
    Result<std::vector<std::string>> put_in_place() {
        std::vector<std::string> written;
        std::vector<fs::path> fresh_ones;
        for (const fs::path& name : names_) {
            const fs::path place = folder_ / name;
            std::error_code error;
            const bool there = fs::exists(place, error);
            auto made = files::make_folder(place.parent_path());
            if (made) fs::rename(aside_ / name, place, error);
            if (made && error) made = fail("file", place.string(), "cannot be put in place: " + error.message());
            if (!made) {
                for (const fs::path& one : fresh_ones) fs::remove(one, error);
                return tl::unexpected(made.error());
            }
            if (!there) fresh_ones.push_back(place);
            written.push_back(place.string());
        }
        return written;
    }

private:
    static std::string fresh() { return real_world().new_id(); }
    fs::path folder_;
    fs::path aside_;
    std::vector<fs::path> names_;
};

// One visit as a file and its media.
Result<void> take_out(const Shop& shop, const std::string& visit, const std::string& stem, Aside& aside) {
    const auto text = shop.bench_file(visit);
    if (!text) return tl::unexpected(text.error());
    auto file = files::read_json(*text);
    if (!file) return tl::unexpected(file.error());
    std::optional<Error> failed;
    std::map<std::string, bool> done;
    for_each_media_path(*file, [&](std::string& path, const std::string&) {
        if (failed || !path.starts_with(kMedia)) return;
        const std::string name = path.substr(kMedia.size());
        const auto medium = shop.medium(name);
        if (!medium && medium.error().code == "missing") return;  // was never given to this shop: stays as it is
        const std::string beside = fmt::format("{}_media/{}", stem, name);
        if (!medium) {
            failed = medium.error();
        } else if (!done[beside]) {
            done[beside] = true;
            if (const auto added = aside.add(beside, medium->first); !added) failed = added.error();
        }
        path = beside;
    });
    if (failed) return tl::unexpected(*failed);
    return aside.add(stem + ".json", files::write_json(*file));
}

struct Outgoing {
    std::string visit;
    std::string stem;
};

Result<std::vector<Outgoing>> all_visits(const Shop& shop) {
    std::vector<Outgoing> out;
    for (int offset = 0;; offset += kVisitsAtOnce) {
        const auto found = shop.find_visits("", kVisitsAtOnce, offset);
        if (!found) return tl::unexpected(found.error());
        for (const auto& line : found->visits) {
            out.push_back({line.id, plain_name(line.title) + "_" + line.id});
        }
        if (found->visits.empty() || out.size() >= static_cast<std::size_t>(found->total)) return out;
    }
}

// Which visits go out, and into which folder.
struct Plan {
    fs::path folder;
    std::vector<Outgoing> visits;
};
Result<Plan> plan_of(const Shop& shop, const ExportOptions& options) {
    const fs::path target = options.target;
    std::error_code ignored;
    auto all = all_visits(shop);
    if (!all) return tl::unexpected(all.error());
    if (options.all) {
        if (fs::exists(target, ignored) && !fs::is_directory(target, ignored)) {
            return fail("file", options.target, "is a file, expected a folder for all visits");
        }
        return Plan{target, std::move(*all)};
    }
    if (options.visit.empty() && all->size() != 1) {
        return fail("missing", "--visit",
                    fmt::format("the shop has {} visits; name one with --visit, or say --all", all->size()));
    }
    const auto chosen =
        options.visit.empty() ? all->begin() : std::ranges::find(*all, options.visit, &Outgoing::visit);
    if (chosen == all->end()) {
        return fail("missing", "--visit", fmt::format("{}: no such visit in the shop", quote(options.visit)));
    }
    if (fs::is_directory(target, ignored) || !target.has_filename()) return Plan{target, {*chosen}};
    if (target.extension() != ".json") {
        return fail("file", options.target, "expected a folder that is there, or a name that ends in .json");
    }
    return Plan{target.has_parent_path() ? target.parent_path() : fs::path("."),
                {{chosen->visit, target.stem().string()}}};
}

// A bench file read and checked, with the media it names.
struct Incoming {
    std::string file;
    Json bench;
    std::string id;  // of the visit to be: the same bytes give the same
    struct MediumFile {
        fs::path file;
        std::string type;
    };
    std::vector<MediumFile> media;
};

bool is_below(const fs::path& path, const fs::path& folder) {
    const auto [end, ignored] = std::mismatch(folder.begin(), folder.end(), path.begin(), path.end());
    return end == folder.end();
}

// The file that a path in a bench file names, if it may: beside or below the bench file, whatever links say.
Result<fs::path> media_file(const fs::path& bench_file, const std::string& path, const std::string& pointer) {
    const auto refused = [&](std::string code, std::string_view why) {
        return fail(std::move(code), pointer, fmt::format("{}: {}", quote(path), why));
    };
    const fs::path relative = path;
    if (relative.is_absolute() || std::ranges::find(relative, fs::path("..")) != relative.end()) {
        return refused("forbidden", "leads out of the folder of the bench file");
    }
    std::error_code error;
    const fs::path here = bench_file.has_parent_path() ? bench_file.parent_path() : fs::path(".");
    const fs::path folder = fs::canonical(here, error);
    const fs::path whole = error ? fs::path() : fs::canonical(folder / relative, error);
    if (error) return refused("missing", "no such file beside the bench file");
    if (!is_below(whole, folder))
        return refused("forbidden", "leads out of the folder of the bench file by a link");
    if (!fs::is_regular_file(whole, error)) return refused("type", "is no file");
    return whole;
}

ResultAll<Incoming> read_incoming(const Shop& shop, const std::string& name) {
    const auto text = files::read_file(name);
    if (!text) return tl::unexpected(one(text.error()));
    const auto decoded = files::decode_bench(*text, shop.catalogue());
    if (!decoded) return tl::unexpected(decoded.error());
    Incoming in{name, files::bench_json(*decoded), files::sha256_hex(*text).substr(0, 16), {}};
    std::vector<Error> errors;
    for_each_media_path(in.bench, [&](std::string& path, const std::string& pointer) {
        if (path.starts_with(kMedia) && shop.medium(std::string_view(path).substr(kMedia.size()))) return;
        const auto file = media_file(name, path, pointer);
        if (!file) return errors.push_back(file.error());
        const auto bytes = files::read_file(*file, store::kLargestMedium);
        const std::string type(media_type_of(path));
        if (type.empty()) {
            const std::string message =
                fmt::format("{}: expected .jpg, .png, .webp, .wav, .flac or .ogg", quote(path));
            return errors.push_back({"type", pointer, message});
        }
        const Result<void> fits = bytes ? check_begins_as(*bytes, type) : tl::unexpected(bytes.error());
        if (!fits) return errors.push_back({fits.error().code, pointer, fits.error().message});
        path = fmt::format("{}{}{}", kMedia, files::sha256_hex(*bytes), store::ending_of(type));
        in.media.push_back({*file, type});
    });
    if (!errors.empty()) return tl::unexpected(std::move(errors));
    return in;
}

struct Arrived {
    std::string file;
    std::string visit;
    bool new_here = false;
};

ResultAll<Arrived> bring_in(Shop& shop, const Incoming& in) {
    const bool there = shop.store().visit(in.id).has_value();
    for (const auto& medium : in.media) {
        const auto bytes = files::read_file(medium.file, store::kLargestMedium);
        if (!bytes) return tl::unexpected(one(bytes.error()));
        const auto added = shop.add_medium(*bytes, medium.type);
        if (!added) return tl::unexpected(one(added.error()));
    }
    const auto opened = shop.import_bench(files::write_json(in.bench), in.id);
    if (!opened) return tl::unexpected(opened.error());
    // Judged here and now, so that the list of visits says the verdict.
    if (const auto judged = shop.view(opened->id, ""); !judged) return tl::unexpected(one(judged.error()));
    return Arrived{in.file, opened->id, !there};
}

std::string told(const std::vector<Arrived>& arrived, bool json) {
    if (json) {
        Json visits = Json::list();
        for (const Arrived& one : arrived) {
            visits.items.push_back(Json::record({{"file", Json::of(std::string_view(one.file))},
                                                 {"visit", Json::of(std::string_view(one.visit))},
                                                 {"new", Json::of(one.new_here)}}));
        }
        return files::write_json(
            Json::record({{"schema", Json::of("fallaway/imported/1")}, {"visits", std::move(visits)}}));
    }
    std::string out;
    for (const Arrived& one : arrived) {
        out += fmt::format("{}: visit {}{}\n", one.file, one.visit, one.new_here ? "" : ", was here already");
    }
    return out;
}

}  // namespace

std::string plain_name(std::string_view title) {
    constexpr std::size_t kLongest = 50;
    std::string name;
    for (const char c : title.substr(0, kLongest)) {
        const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        const bool plain = (lower >= 'a' && lower <= 'z') || (lower >= '0' && lower <= '9');
        if (plain) name += lower;
        if (!plain && !name.empty() && name.back() != '_') name += '_';
    }
    while (name.ends_with('_')) name.pop_back();
    return name.empty() ? "visit" : name;
}

CommandOutput export_command(const ExportOptions& options, std::string_view version, const GoOn& go_on) {
    const auto shop = Shop::open(options.shop, store::Access::read, false, std::string(version));
    if (!shop) return bad_input(options.shop, {shop.error()}, options.json);
    const auto plan = plan_of(**shop, options);
    if (!plan) return bad_input("export", {plan.error()}, options.json);
    Aside aside(plan->folder);
    for (std::size_t i = 0; i < plan->visits.size(); ++i) {
        const Outgoing& out = plan->visits[i];
        if (!go_on(double(i) / double(plan->visits.size()))) {
            return bad_input("export", {stopped("nothing was written")}, options.json);
        }
        const auto taken = take_out(**shop, out.visit, out.stem, aside);
        if (!taken) return bad_input("visit " + out.visit, {taken.error()}, options.json);
    }
    if (const auto taken = aside.taken(); !taken.empty()) return bad_input(options.target, taken, options.json);
    const auto written = aside.put_in_place();
    if (!written) return bad_input(options.target, {written.error()}, options.json);
    CommandOutput output;
    if (options.json) {
        output.out = files::written_files_json(*written);
    } else {
        for (const std::string& path : *written) output.out += path + "\n";
    }
    return output;
}

CommandOutput import_command(const ImportOptions& options, std::string_view version, const GoOn& go_on) {
    auto shop = Shop::open(options.shop, store::Access::write, true, std::string(version));
    if (!shop) return bad_input(options.shop, {shop.error()}, options.json);
    std::vector<Incoming> incoming;
    const double steps = 2.0 * double(options.files.size());
    for (std::size_t i = 0; i < options.files.size(); ++i) {
        if (!go_on(double(i) / steps)) return bad_input("import", {stopped("nothing went in")}, options.json);
        auto read = read_incoming(**shop, options.files[i]);
        if (!read) return bad_input(options.files[i], read.error(), options.json);
        incoming.push_back(std::move(*read));
    }
    std::vector<Arrived> arrived;
    for (const Incoming& in : incoming) {
        if (!go_on(0.5 + double(arrived.size()) / steps)) {
            CommandOutput output = bad_input(
                "import", {stopped(fmt::format("{} of {} files went in", arrived.size(), incoming.size()))},
                options.json);
            output.out = told(arrived, options.json);
            return output;
        }
        const auto one = bring_in(**shop, in);
        if (!one) return bad_input(in.file, one.error(), options.json);
        arrived.push_back(*one);
    }
    CommandOutput output;
    output.out = told(arrived, options.json);
    return output;
}

}  // namespace fallaway::app
