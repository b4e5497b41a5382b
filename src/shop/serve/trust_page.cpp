#include "shop/serve/trust_page.h"

#include <fmt/format.h>

#include "bench/report/markup.h"
#include "shop/net/answer.h"
#include "shop/net/certificate.h"
#include "shop/serve/plain_page.h"

namespace fallaway::serve {
namespace {

constexpr std::string_view kFile = "authority.crt";

// "AB:CD:..." in rows of eight pairs, to be compared line by line.
std::string in_rows(std::string_view print) {
    constexpr std::size_t kRow = 8 * 3;
    std::string out;
    for (std::size_t at = 0; at < print.size(); at += kRow) {
        std::string_view row = print.substr(at, kRow);
        if (row.ends_with(':')) row.remove_suffix(1);
        out += std::string(row) + "\n";
    }
    return out;
}

net::Response page(const Trust& trust) {
    const std::string shop = trust.shop_name.empty() ? "this shop" : report::escape(trust.shop_name);
    const std::string body = fmt::format(
        R"(<p>The page of {0} is for its own devices. They talk to it over a line that nobody else can read, and for that
each device must know the shop's own certificate. This is done once.</p>
<p>1. Take the certificate:</p>
<p><a class="go" href="/authority.crt">authority.crt</a></p>
<p>2. Compare its fingerprint (SHA-256) with the one the shop's computer printed when it was started. If a single
pair differs, stop here and ask at the bench.</p>
<pre>{1}</pre>
<p>3. Let the device trust it, as below.</p>
<p>4. Open <a href="{2}">{2}</a> and pair the device.</p>
<p class="quiet">The certificate vouches for addresses inside a private network and for nothing else. Take it off a
device that leaves the shop for good.</p>
<h2>iPadOS, iOS</h2>
<ol><li>Open this page in the system's own browser and take the certificate; allow the profile to be loaded.</li>
<li>Settings, General, VPN and device management: choose the profile with the shop's name, install it.</li>
<li>Settings, General, About, certificate trust settings: turn on full trust for it.</li></ol>
<h2>Android</h2>
<ol><li>Take the certificate; it lands among the downloads.</li>
<li>Settings, Security, further settings, encryption and credentials, install a certificate, CA certificate.</li>
<li>Choose authority.crt. The names of these menus differ a little from maker to maker; searching the settings for
"certificate" finds them.</li></ol>
<h2>Windows</h2>
<ol><li>Open authority.crt, "Install certificate", for the current user.</li>
<li>Place it in the store "Trusted root certification authorities".</li>
<li>Compare the fingerprint once more if asked, then close and open the browser.</li></ol>
<h2>macOS</h2>
<ol><li>Open authority.crt; it is added to the login keychain.</li>
<li>In the keychain find it by the shop's name, open it, and under Trust choose "Always trust".</li></ol>
<h2>Linux</h2>
<ol><li>Browsers keep their own list: Settings, Privacy and security, certificates, authorities, import; allow it to
vouch for sites.</li>
<li>For the whole system on Debian: copy it to /usr/local/share/ca-certificates/ and run
update-ca-certificates.</li></ol>
)",
        shop, in_rows(net::fingerprint(trust.authority_pem)), report::escape(trust.page));
    return plain_page("Trust this shop", body);
}

}  // namespace

net::Response trust_answer(const Trust& trust, const net::Request& request) {
    if (request.path.empty()) return page(trust);
    if (request.path.size() == 1 && request.path.front() == kFile) {
        net::Response response;
        response.type = "application/x-x509-ca-cert";
        response.body = trust.authority_pem;
        response.headers = {{"Content-Disposition", "attachment; filename=\"authority.crt\""}};
        return response;
    }
    return net::refusal(404, {"not found", "", "here are only / and /authority.crt"});
}

}  // namespace fallaway::serve
