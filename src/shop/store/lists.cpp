// Names and lists of the shop: people, tools, rates, overrides, procedures, settings, devices.
#include <fmt/format.h>

#include "shop/store/inside.h"

namespace fallaway::store {
namespace {

// Every row that `sql` answers, through `read_row`.
template <class Row>
auto all(std::string_view sql, Row (*read_row)(const Query&)) {
    return [sql, read_row](Connection& connection) -> Result<std::vector<Row>> {
        Query query = connection.query(sql);
        return rows_of(query, read_row);
    };
}

// Runs `sql` with `values`.
template <class... Values>
auto change(std::string_view sql, const Values&... values) {
    return [sql, &values...](Connection& connection) -> Result<void> {
        connection.query(sql).with(values...).run();
        return {};
    };
}

// The same, and "missing" when there was nothing to take out.
auto drop(std::string_view sql, std::string_view what, std::string_view name) {
    return [sql, what, name](Connection& connection) -> Result<void> {
        if (connection.query(sql).with(name).run() > 0) return {};
        return fail("missing", std::string(what), fmt::format("\"{}\": no such {} in the shop", name, what));
    };
}

Device device_row(const Query& row) {
    return {row.text(0), row.text(1), row.text(2), row.text(3), row.text(4), row.whole(5) != 0};
}

}  // namespace

Result<std::vector<Person>> Store::people() const {
    return inside_->read(all<Person>("SELECT name, technician, contact, remark FROM person ORDER BY name",
                                     [](const Query& row) -> Person {
                                         return {row.text(0), row.whole(1) != 0, row.text(2), row.text(3)};
                                     }));
}

Result<void> Store::put_person(const Person& person) {
    return inside_->write(
        change("INSERT INTO person (name, technician, contact, remark) VALUES (?1, ?2, ?3, ?4) "
               "ON CONFLICT (name) DO UPDATE SET technician = ?2, contact = ?3, remark = ?4",
               person.name, person.technician, person.contact, person.remark));
}

Result<std::vector<ShopTool>> Store::tools() const {
    return inside_->read(all<ShopTool>(
        "SELECT id, kind, calibrated, due, certificate_u, certificate_k, remark, retired FROM tool ORDER BY id",
        [](const Query& row) -> ShopTool {
            return {row.text(0), row.text(1), row.text(2), row.text(3),
                    row.text(4), row.real(5), row.text(6), row.whole(7) != 0};
        }));
}

Result<void> Store::put_tool(const ShopTool& tool) {
    return inside_->write(change(
        "INSERT INTO tool (id, kind, calibrated, due, certificate_u, certificate_k, remark, retired) "
        "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) ON CONFLICT (id) DO UPDATE SET kind = ?2, calibrated = ?3, "
        "due = ?4, certificate_u = ?5, certificate_k = ?6, remark = ?7, retired = ?8",
        tool.id, tool.kind, tool.calibrated, tool.due, tool.certificate_u, tool.certificate_k, tool.remark,
        tool.retired));
}

Result<std::vector<Rate>> Store::rates() const {
    return inside_->read(
        all<Rate>("SELECT work, amount, remark FROM rate ORDER BY work", [](const Query& row) -> Rate {
            return {row.text(0), row.text(1), row.text(2)};
        }));
}

Result<void> Store::put_rate(const Rate& rate) {
    return inside_->write(
        change("INSERT INTO rate (work, amount, remark) VALUES (?1, ?2, ?3) "
               "ON CONFLICT (work) DO UPDATE SET amount = ?2, remark = ?3",
               rate.work, rate.amount, rate.remark));
}

Result<void> Store::drop_rate(std::string_view work) {
    return inside_->write(drop("DELETE FROM rate WHERE work = ?1", "rate", work));
}

Result<std::vector<Override>> Store::overrides() const {
    return inside_->read(
        all<Override>("SELECT name, body FROM override ORDER BY name", [](const Query& row) -> Override {
            return {row.text(0), row.text(1)};
        }));
}

Result<void> Store::put_override(const Override& item) {
    return inside_->write(
        change("INSERT INTO override (name, body) VALUES (?1, ?2) "
               "ON CONFLICT (name) DO UPDATE SET body = ?2",
               item.name, item.body));
}

Result<void> Store::drop_override(std::string_view name) {
    return inside_->write(drop("DELETE FROM override WHERE name = ?1", "override", name));
}

Result<std::string> Store::procedure(std::string_view hash) const {
    return inside_->read([&](Connection& connection) -> Result<std::string> {
        Query query = connection.query("SELECT body FROM procedure WHERE hash = ?1");
        if (query.with(hash).step()) return query.text(0);
        return fail("missing", "procedure", fmt::format("\"{}\": no such procedure in the shop", hash));
    });
}

Result<void> Store::keep_procedure(std::string_view hash, std::string_view body) {
    return inside_->write([&](Connection& connection) -> Result<void> {
        Query there = connection.query("SELECT body FROM procedure WHERE hash = ?1");
        if (there.with(hash).step()) {
            if (there.text(0) == body) return {};
            return fail("conflict", "procedure",
                        fmt::format("\"{}\": stands for another procedure already", hash));
        }
        connection.query("INSERT INTO procedure (hash, body) VALUES (?1, ?2)").with(hash, body).run();
        return {};
    });
}

Result<std::optional<std::string>> Store::setting(std::string_view name) const {
    return inside_->read([&](Connection& connection) -> Result<std::optional<std::string>> {
        Query query = connection.query("SELECT value FROM setting WHERE name = ?1");
        if (!query.with(name).step()) return std::nullopt;
        return query.text(0);
    });
}

Result<void> Store::put_setting(std::string_view name, std::string_view value) {
    return inside_->write(
        change("INSERT INTO setting (name, value) VALUES (?1, ?2) "
               "ON CONFLICT (name) DO UPDATE SET value = ?2",
               name, value));
}

Result<std::vector<Device>> Store::devices() const {
    return inside_->read(all<Device>(
        "SELECT id, name, token_hash, paired, seen, revoked FROM device ORDER BY julianday(paired), id",
        device_row));
}

Result<void> Store::put_device(const Device& device) {
    return inside_->write([&](Connection& connection) -> Result<void> {
        Query other = connection.query("SELECT id FROM device WHERE token_hash = ?1 AND ?1 <> '' AND id <> ?2");
        if (other.with(device.token_hash, device.id).step()) {
            return fail("conflict", "device", fmt::format("\"{}\": its token is another device's", device.id));
        }
        return change(
            "INSERT INTO device (id, name, token_hash, paired, seen, revoked) "
            "VALUES (?1, ?2, ?3, ?4, ?5, ?6) ON CONFLICT (id) DO UPDATE SET name = ?2, token_hash = ?3, "
            "paired = ?4, seen = ?5, revoked = ?6",
            device.id, device.name, device.token_hash, device.paired, device.seen, device.revoked)(connection);
    });
}

Result<std::optional<Device>> Store::device_of_token(std::string_view token_hash) const {
    return inside_->read([&](Connection& connection) -> Result<std::optional<Device>> {
        Query query = connection.query(
            "SELECT id, name, token_hash, paired, seen, revoked FROM device "
            "WHERE token_hash = ?1 AND token_hash <> '' AND revoked = 0");
        if (!query.with(token_hash).step()) return std::nullopt;
        return device_row(query);
    });
}

}  // namespace fallaway::store
