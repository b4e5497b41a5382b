#include "bench/report/style.h"

#include <fmt/format.h>

#include "bench/report/colours.h"
#include "bench/report/markup.h"

namespace fallaway::report {
namespace {

// The two faces after the local one are fallbacks measured to take the same room, since a wide face breaks rows.
constexpr std::string_view kType = R"css(
@font-face{font-family:"Fallaway Text";font-weight:500;src:local("Barlow Semi Condensed Medium"),local("BarlowSemiCondensed-Medium")}
@font-face{font-family:"Fallaway Text";font-weight:600;src:local("Barlow Semi Condensed SemiBold"),local("BarlowSemiCondensed-SemiBold")}
@font-face{font-family:"Fallaway Stand-in";font-weight:500;src:local("DejaVu Sans Condensed");size-adjust:84%}
@font-face{font-family:"Fallaway Stand-in";font-weight:600;src:local("DejaVu Sans Condensed Bold");size-adjust:81%}
html{font-size:100%;-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:500 1.0625rem/1.42 "Fallaway Text","Barlow Semi Condensed","Fallaway Stand-in",ui-sans-serif,system-ui,sans-serif;font-variant-numeric:tabular-nums lining-nums;overflow-wrap:break-word}
h1,h2,h3,strong,th,dd{font-weight:600}
h1,h2,h3,p,ul,ol,dl,dd,figure,blockquote{margin:0}
h1{font-size:1.5rem;line-height:1.2}
h2{font-size:1.45rem;line-height:1.25}
h3{font-size:1.0625rem}
small,.quiet,figcaption,dt,thead th{font-size:.9375rem;font-weight:500;color:var(--ink2)}
)css";

constexpr std::string_view kSheet = R"css(
.page{max-width:75rem;margin:0 auto;padding:1.25rem 1.5rem 3rem}
.demo{font-size:.9375rem;font-weight:600;border-left:6px solid var(--ink);padding:.1rem 0 .1rem .6rem;margin-bottom:.75rem}
.block{border:2px solid var(--ink);background:var(--sheet);display:flex;flex-wrap:wrap}
.block .name,.block dl>div{flex:1 1 auto;padding:.5rem .8rem .55rem;border-right:1px solid var(--line);border-bottom:1px solid var(--line);margin:0 -1px -1px 0;min-width:0;box-sizing:border-box}
.block .name{flex:3 1 17rem}
.block dl{display:flex;flex-wrap:wrap;flex:8 1 24rem;min-width:0}
.verdict{display:grid;grid-template-columns:minmax(0,3fr) minmax(0,2fr);gap:1.5rem 2.5rem;margin:1.75rem 0 0}
.verdict h2{font-size:2.3rem;line-height:1.1;margin-bottom:.6rem}
.verdict li,.verdict p{padding:.1rem 0}
.verdict li+li{margin-top:.25rem}
.verdict .aside{border-left:1px solid var(--line);padding-left:2.5rem}
ul,ol{padding:0;list-style:none}
section.part{margin-top:2.4rem}
section.part>h2{border-bottom:2px solid var(--ink);padding-bottom:.3rem}
section.part>h3{margin:1.5rem 0 .1rem;padding-bottom:.25rem;border-bottom:1px solid var(--line)}
.lede{color:var(--ink2);padding-top:.5rem}
section.part>ul{padding-top:.5rem}
.columns{columns:2;column-gap:2.5rem;padding-top:.6rem}
.columns li{break-inside:avoid;padding:.2rem 0}
blockquote{font-weight:600}
.facts{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(13rem,100%),1fr));gap:.8rem 2rem;padding-top:.7rem}
.care li{border-left:6px solid var(--ink);padding:.1rem 0 .1rem .7rem;margin-top:.6rem}
footer{margin-top:3rem;border-top:1px solid var(--line);padding-top:.5rem;font-size:.9375rem;color:var(--ink2)}
a{color:var(--blue);text-underline-offset:.15em}
:focus-visible{outline:3px solid var(--blue);outline-offset:2px}
)css";

constexpr std::string_view kTables = R"css(
table{border-collapse:collapse;width:100%;table-layout:fixed}
caption{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
th,td{text-align:left;vertical-align:top;padding:.5rem .9rem .5rem 0}
tbody tr{border-bottom:1px solid var(--rule)}
thead th{padding-bottom:.2rem}
td p+p,th p+p{margin-top:.2rem}
.v{font-weight:600;font-size:1.1875rem;line-height:1.2;white-space:nowrap}
.v.words{white-space:normal;font-size:1.0625rem}
.u{font-size:.9375rem;font-weight:500;color:var(--ink2);white-space:nowrap}
.reading{display:inline-block;border-bottom:1.25px solid var(--ink);padding:0 .15rem .05rem;margin:0 .5rem .3rem 0;max-width:100%;box-sizing:border-box}
.reading .s{font-size:.9375rem;font-weight:500;color:var(--ink2);margin-right:.45rem}
.reading.guess{border-bottom-style:dashed;border-color:var(--graphite)}.reading.guess .v{font-weight:500}
.reading.over{border-right:6px solid var(--red);padding-right:.4rem}
.reading.taken{border-bottom:4px double var(--ink)}
.reading.old{border-bottom:0;padding-bottom:.25rem;background:linear-gradient(var(--ink),var(--ink)) left bottom .14rem/calc(50% - .45rem) 1.25px no-repeat,linear-gradient(var(--ink),var(--ink)) right bottom .14rem/calc(50% - .45rem) 1.25px no-repeat,linear-gradient(110deg,transparent 32%,var(--ink) 32% 44%,transparent 44% 62%,var(--ink) 62% 74%,transparent 74%) center bottom/.7rem .42rem no-repeat}
.reading.two{border:1.25px solid var(--ink);border-top:0;padding-bottom:0;background:linear-gradient(var(--paper),var(--paper)) center top/100% calc(100% - .45rem) no-repeat;background-clip:border-box;background-origin:border-box}
.change{color:var(--red)}
.outcome{font-weight:600}
.outcome.against{border-left:6px solid var(--red);padding-left:.5rem}
.tick{display:none}
section.part table~table thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
)css";

constexpr std::string_view kFigures = R"css(
figure{padding-top:.9rem;break-inside:avoid}
.scroll{overflow-x:auto;overflow-y:hidden;background:var(--sheet);padding:.5rem 0}
.scroll svg{display:block;width:100%;min-width:48rem;height:auto}
figcaption{padding-top:.2rem;max-width:46rem}
.twin{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
svg *{vector-effect:non-scaling-stroke}
svg line,svg polyline,svg path{fill:none;stroke:var(--ink);stroke-width:1.25}
svg text{fill:var(--ink);font-weight:500;font-size:20px}
svg .strong{font-weight:600}
svg .figure{font-weight:600;font-size:24px}
svg .guess{font-weight:500}
svg .quiet{fill:var(--ink2);font-size:20px}
svg .o{stroke-width:2}
svg .f{stroke-width:.8}
svg .contour{stroke-width:1.2}
svg .heavy{stroke-width:2.4}
svg .hair{stroke:var(--line);stroke-width:.8}
svg .hair.mark{stroke:var(--ink);stroke-width:1.25}
svg .station{stroke:var(--graphite);stroke-width:1;stroke-dasharray:12 4 2 4}
svg .dashed{stroke:var(--graphite);stroke-dasharray:5 4}
svg .board{fill:var(--sheet);stroke:var(--ink);stroke-width:2}
svg .fret{stroke:var(--line);stroke-width:1.25}
svg .nut{stroke-width:6}
svg .string{stroke-width:inherit}
svg .ground{fill:var(--sheet)}
svg .bar{fill:var(--red)}
svg .heard{stroke-width:3.4}
svg .cross,svg .teeth{stroke-width:2.4;stroke-linejoin:miter}
@media(min-width:70rem){svg text,svg .quiet{font-size:17px}svg .figure{font-size:22px}}
)css";

// A table becomes stacked rows; nothing on the page is wider than the screen.
constexpr std::string_view kNarrow = R"css(
@media(max-width:60rem){.verdict{grid-template-columns:minmax(0,1fr)}.verdict .aside{border-left:0;border-top:1px solid var(--line);padding:1.1rem 0 0}}
@media(max-width:44rem){
.page{padding:.75rem .75rem 2rem}
body{font-size:1rem}
h2{font-size:1.4375rem}
.verdict h2{font-size:1.875rem}
.columns{columns:1}
.block dl>div{flex:1 1 7rem}.block .name,.block dl{flex:1 1 100%}
table,tbody,tr,td,tbody th{display:block;width:auto}
colgroup{display:none}
thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.twin{max-width:1px}
tbody tr{padding:.6rem 0;border-bottom-color:var(--line)}
td,tbody th{padding:.12rem 0}
td.none{display:none}
td.named::before{content:attr(data-label) " ";font-size:.9375rem;color:var(--ink2)}
}
@media(forced-colors:active){svg line,svg polyline,svg path{stroke:CanvasText}svg text{fill:CanvasText}svg .bar{fill:CanvasText}svg .ground,svg .board{fill:Canvas}}
)css";

// Paper: ink only; the shape of a sign says what its colour repeated on the screen.
constexpr std::string_view kPaper = R"css(
@media print{
:root{--paper:#fff;--sheet:#fff;--ink:#000;--ink2:#000;--graphite:#000;--line:#000;--rule:#777;--blue:#000;--red:#000;--bluewash:#fff;--redwash:#fff;color-scheme:light}
html{font-size:75%}
.page{max-width:none;padding:0}
.block{border-width:.5mm}
.verdict{grid-template-columns:minmax(0,3fr) minmax(0,2fr);margin-top:1.2rem}
.verdict .aside{border-left:.18mm solid #000;border-top:0;padding:0 0 0 1.5rem}
.scroll{overflow:visible}.scroll svg{min-width:0}
section.part{margin-top:1.8rem}
h2,h3,thead{break-after:avoid}
tr,li,figure,.verdict,.block,.sign{break-inside:avoid}
a{color:inherit;text-decoration:none}
.tick{display:inline-block;width:5mm;height:5mm;border:.35mm solid #000;box-sizing:border-box;vertical-align:-1mm;margin-right:2mm}
.page .sign{display:grid}
svg line,svg polyline,svg path,svg .e,svg .hair.mark{stroke-width:.3mm}
svg .o,svg .board{stroke-width:.5mm}
svg .contour{stroke-width:.25mm}
svg .f,svg .hair,svg .fret,svg .station{stroke-width:.18mm}
svg .heavy,svg .cross,svg .teeth{stroke-width:.6mm}
svg .heard{stroke-width:.9mm}
svg .nut{stroke-width:1.4mm}
svg .string{stroke-width:.25mm}
.screen{display:none}
}
.sign{display:none;grid-template-columns:1fr 1fr;gap:1.5rem 3rem;margin-top:3rem}
.sign p{border-top:.35mm solid var(--ink);padding-top:.2rem;margin-top:14mm;font-size:.9375rem}
)css";

std::string tokens(std::uint32_t Colour::*theme) {
    std::string out;
    for (const Colour& colour : kColours) out += fmt::format("--{}:#{:06X};", colour.name, colour.*theme);
    return out;
}

}  // namespace

std::string style_sheet(const std::string& foot_left) {
    std::string out = fmt::format(":root{{color-scheme:light dark;{}}}\n", tokens(&Colour::light));
    out += fmt::format("@media(prefers-color-scheme:dark){{:root{{{}}}}}\n", tokens(&Colour::dark));
    for (const std::string_view part : {kType, kSheet, kTables, kFigures, kNarrow, kPaper}) out += part;
    out += fmt::format(
        "@page{{margin:16mm 14mm 20mm;@bottom-left{{content:\"{}\";font:500 8.5pt "
        "sans-serif;white-space:pre-wrap}}"
        "@bottom-right{{content:\"Sheet \" counter(page) \" of \" counter(pages);font:500 8.5pt sans-serif}}}}\n",
        css_string(foot_left));
    return out;
}

}  // namespace fallaway::report
