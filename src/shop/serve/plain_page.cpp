#include "shop/serve/plain_page.h"

#include <fmt/format.h>

#include "bench/report/markup.h"

namespace fallaway::serve {
namespace {

constexpr std::string_view kLook = R"(
:root { color-scheme: light dark; --paper: #EBEFEC; --sheet: #FAFBF8; --ink: #13202A; --ink2: #3D4B54;
  --line: #6E7B80; --blue: #164A94; }
@media (prefers-color-scheme: dark) { :root { --paper: #0F161B; --sheet: #172128; --ink: #EAF0EE; --ink2: #BCC8CC;
  --line: #80919A; --blue: #A3C9F7; } }
* { box-sizing: border-box; }
body { margin: 0; padding: 16px; background: var(--paper); color: var(--ink);
  font: 500 17px/1.5 "Barlow Semi Condensed", ui-sans-serif, system-ui, sans-serif; }
main { max-width: 46rem; margin: 0 auto; padding: 0 24px 24px; background: var(--sheet); border: 2px solid var(--ink); }
h1 { font-size: 25px; font-weight: 600; margin: 0 -24px 24px; padding: 12px 24px; border-bottom: 2px solid var(--ink); }
h2 { font-size: 22px; font-weight: 600; margin: 32px 0 8px; padding-top: 8px; border-top: 1px solid var(--line); }
a { color: var(--blue); }
a.go { display: inline-block; padding: 12px 16px; border: 1.25px solid var(--line); text-decoration: none;
  color: var(--ink); font-weight: 600; min-height: 48px; }
a:focus-visible { outline: 3px solid var(--blue); outline-offset: 2px; }
code, pre { font: 500 16px/1.6 ui-monospace, monospace; overflow-wrap: anywhere; white-space: pre-wrap; }
li { margin: 8px 0; }
.quiet { color: var(--ink2); }
)";

}  // namespace

net::Response plain_page(std::string_view title, std::string_view body) {
    const std::string heading = report::escape(title);
    net::Response response;
    response.type = "text/html";
    response.body = fmt::format(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<title>{}</title>\n<style>{}</style>\n</head>\n<body>\n<main>\n<h1>{}</h1>\n{}</main>\n</body>\n</"
        "html>\n",
        heading, kLook, heading, body);
    response.headers = {{"Content-Security-Policy",
                         "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; "
                         "frame-ancestors 'none'"}};
    return response;
}

}  // namespace fallaway::serve
