/** The look of a page: one column of text, a contents list beside it where there is room, light and dark, print on A4 and Letter. */
export const pageStyle = `
:root { color-scheme: light dark; --paper: #ffffff; --text: #1b2125; --quiet: #566067; --line: #d5dadd; --panel: #f3f5f6; --link: #2c35b5; --alarm: #8f1d1d; --mark: #2c35b5; --edge: #00000038; }
@media (prefers-color-scheme: dark) { :root { --paper: #14181b; --text: #e8ecee; --quiet: #a3aeb4; --line: #3a4348; --panel: #1e2428; --link: #a9c6ff; --alarm: #ffb0a8; --mark: #97bbff; --edge: #ffffff48; } }
* { box-sizing: border-box; }
html { font-size: clamp(16px, 12px + 0.45vw, 30px); scroll-padding-top: 1rem; }
body { margin: 0; background: var(--paper); color: var(--text); font: 1rem/1.55 system-ui, "Segoe UI", "Liberation Sans", Arial, sans-serif; overflow-wrap: break-word; }
a { color: var(--link); text-underline-offset: 0.15em; }
:focus-visible { outline: 0.18rem solid var(--mark); outline-offset: 0.12rem; }
.skip { position: absolute; left: -99rem; } .skip:focus { left: 1rem; top: 1rem; background: var(--paper); padding: 0.5rem; z-index: 2; }
header, main, footer { max-width: 48rem; margin: 0 auto; padding: 0 1rem; } main { display: grid; grid-template-columns: minmax(0, 1fr); gap: 0 3rem; }
h1, h2, h3, h4, h5, h6 { line-height: 1.2; margin: 2em 0 0.5em; text-wrap: balance; }
h1 { font-size: 1.9rem; margin-top: 0.6em; } h2 { font-size: 1.4rem; } h3 { font-size: 1.15rem; } h4, h5, h6 { font-size: 1rem; }
p, ul, ol { margin: 0.7em 0; } li { margin: 0.25em 0; }
.answers { list-style: none; padding: 0; } .answers li { border-left: 0.3rem solid var(--mark); padding: 0.15rem 0 0.15rem 0.8rem; margin: 0.6em 0; font-size: 1.08rem; }
.panel { background: var(--panel); border-radius: 0.4rem; padding: 0.2rem 1.1rem 0.6rem; margin: 1.2em 0; } .panel h2, .panel h3 { margin-top: 0.8em; }
.stamp { color: var(--quiet); font-size: 0.85rem; margin: 1em 0 0; } .chip { color: #5c4300; background: #fff3b8; border: 1px solid #c9a400; border-radius: 0.25rem; padding: 0 0.4em; }
.lead h2 { font-size: 1.1rem; margin: 1.2em 0 0.4em; } .lead .quiet { color: var(--quiet); font-weight: 500; font-size: 0.95rem; margin: 0.4em 0 0; } .own { color: var(--quiet); font-weight: 600; margin: 0.8em 0 0; } header h1 { font-size: 1.5rem; line-height: 1.25; font-weight: 650; margin: 0.15em 0 0.5em; }
.lead .finding { font-size: 1.35rem; line-height: 1.3; font-weight: 650; margin: 1em 0 0.8em; } .shown { margin: 0.6em 0; }
.verdicts { width: 100%; font-size: 0.92rem; } .verdicts caption { font-weight: 400; color: var(--quiet); } .verdicts .row > * { border-bottom: 0; vertical-align: middle; padding-bottom: 0; } .verdicts th .control { display: block; font-weight: 400; font-size: 0.85em; color: var(--quiet); } .verdicts .picture { width: 42%; } .verdicts thead td { border: 0; padding-bottom: 0; } .verdicts svg { display: block; width: 100%; height: auto; } .verdicts text { font-size: 12px; fill: var(--quiet); } .verdicts .band { fill: var(--line); } .verdicts .zero { stroke: var(--quiet); stroke-width: 1; } .verdicts .bar { fill: none; stroke: var(--mark); stroke-width: 2.5; } .verdicts .judged { stroke: var(--mark); stroke-width: 6; } .verdicts .dot { fill: var(--mark); } .verdicts .word { display: block; font-size: 1.08em; } .verdicts .numbers { white-space: nowrap; } .verdicts .sentence td { font-size: 0.92em; padding: 0.1em 0 0.6em; }
.ask input { font: inherit; padding: 0.2rem 0.4rem; } .ask[hidden] { display: none; }
.unset { border-left: 0.3rem solid var(--alarm); padding: 0.1rem 0.9rem; }
.stopped { border: 0.15rem solid var(--alarm); border-radius: 0.4rem; padding: 0.3rem 1.1rem; margin: 0.8em 0; color: var(--alarm); }
nav.contents { font-size: 0.9rem; border-top: 1px solid var(--line); margin-top: 2rem; } nav.contents h2 { font-size: 1rem; margin-top: 1em; } nav.contents ol { list-style: none; padding: 0; } nav.contents .deeper { padding-left: 1rem; }
.wide { overflow-x: auto; margin: 1em 0; background: linear-gradient(to right, var(--paper) 30%, transparent) left / 2.5rem 100% local, linear-gradient(to left, var(--paper) 30%, transparent) calc(100% + 1px) / 2.5rem 100% local, linear-gradient(to right, var(--edge), transparent) left / 0.8rem 100% scroll, linear-gradient(to left, var(--edge), transparent) right / 0.8rem 100% scroll; background-repeat: no-repeat; }
.many table { width: max-content; } .many td, .many th { max-width: 13rem; } .long { max-height: 34rem; overflow: auto; border: 1px solid var(--line); border-radius: 0.4rem; padding: 0 0.7rem; } .long thead th, .long thead td { position: sticky; top: 0; background: var(--paper); }
table { border-collapse: collapse; font-size: 0.86rem; line-height: 1.35; font-variant-numeric: tabular-nums; } caption { text-align: left; font-weight: 600; padding: 0.3em 0; }
th, td { text-align: left; vertical-align: top; padding: 0.35em 0.8em 0.35em 0; border-bottom: 1px solid var(--line); } thead th, thead td { border-bottom: 0.12rem solid var(--quiet); vertical-align: bottom; } tbody th { font-weight: 600; min-width: 6rem; overflow-wrap: anywhere; } td.number, th.number { text-align: right; padding-right: 1.4em; } td.number { white-space: nowrap; } td.prose { min-width: 15rem; } .paper-only { display: none; }
.note { color: var(--quiet); font-size: 0.88rem; margin: 0.4em 0; }
details { margin: 0.6em 0; } summary { cursor: pointer; color: var(--quiet); font-size: 0.88rem; } details.why summary { color: var(--link); font-size: 0.95rem; }
pre { background: var(--panel); border-radius: 0.4rem; padding: 0.7rem 0.9rem; overflow-x: auto; font: 0.8rem/1.5 ui-monospace, "Liberation Mono", Menlo, Consolas, monospace; margin: 0.5em 0; } code { font: 0.9em ui-monospace, "Liberation Mono", Menlo, Consolas, monospace; }
pre.messages, pre.error { border-left: 0.3rem solid var(--alarm); border-radius: 0; } pre.error { color: var(--alarm); }
figure { margin: 1.4em 0; } figure img { display: block; width: 100%; height: auto; } div.live { overflow: hidden; } .live > div { transform-origin: 0 0; } .chart:not(.drawn) figcaption { display: none; } @media (min-width: 600px) { .chart.drawn .still { display: none; } } @media (max-width: 599.98px) { .live { display: none; } }
.photograph { display: inline-block; vertical-align: top; width: min(14rem, 100%); margin: 0.6em 1em 0.6em 0; } .photograph img { border-radius: 0.3rem; } figcaption { color: var(--quiet); font-size: 0.85rem; margin-top: 0.3em; } .chart figcaption { padding-left: 1.9%; margin-top: 0; }
.result { margin: 1.4em 0; } .result > .name { font-size: 0.88rem; color: var(--quiet); margin: 0; } .result .value { font-size: 1.15rem; margin: 0.2em 0; }
math { font-size: 1.05em; } .formula { display: block; overflow-x: auto; overflow-y: hidden; padding: 0.3em 0; }
td:target, th:target { background: #fff3b8; color: #5c4300; outline: 0.18rem solid var(--mark); outline-offset: -0.1rem; } th:target a { color: inherit; }
.sheet td, .sheet tbody th { scroll-margin: 22rem 2rem 5rem 11rem; } .sheet tbody th { white-space: nowrap; min-width: 0; } .sheet tbody th, .sheet thead th:first-child { position: sticky; left: 0; background: var(--paper); } .sheet tbody th:target { background: #fff3b8; } .sheet thead th:first-child { z-index: 1; } .sheet tbody th a { font-weight: 400; margin-left: 0.4em; }
.traced { display: none; } .traced:target { display: block; background: var(--panel); border-left: 0.3rem solid var(--mark); border-radius: 0.4rem; padding: 0.1rem 1.1rem 0.6rem; } .traced .wide { background: none; } .by-treatment li:target { background: var(--panel); outline: 0.12rem solid var(--mark); } .traced h3 { margin-top: 0.8em; } .working { list-style: none; padding: 0; } .working li { margin: 0.6em 0; } .what { display: block; color: var(--quiet); font-size: 0.88rem; } .cells { list-style: none; padding: 0; font-size: 0.92rem; } .cells li { display: inline-block; margin: 0.1em 1.2em 0.1em 0; } .steps ol { font-size: 0.86rem; } sub { line-height: 0; }
tr:target { background: var(--panel); outline: 0.12rem solid var(--mark); }
button { font: inherit; font-size: 0.9rem; color: var(--link); background: none; border: 1px solid currentColor; border-radius: 0.3rem; padding: 0.3em 0.8em; cursor: pointer; }
footer { color: var(--quiet); font-size: 0.85rem; border-top: 1px solid var(--line); margin-top: 3rem; }
@media (min-width: 75rem) { header, main, footer { max-width: 68rem; } main { grid-template-columns: minmax(0, 48rem) 15rem; } .lead, .work { grid-column: 1; } nav.contents { grid-column: 2; grid-row: 1 / span 2; border: 0; margin: 0; } nav.contents > div { position: sticky; top: 1rem; max-height: calc(100vh - 2rem); overflow-y: auto; } }
@media (max-width: 40rem) { .verdicts, .verdicts tbody, .verdicts thead, .verdicts caption { display: block; } .verdicts tr { display: block; } .verdicts td, .verdicts th { display: block; padding-right: 0; } .verdicts .picture { width: 100%; } .verdicts thead td:not(.picture) { display: none; } }
@media print {
:root { color-scheme: light; --paper: #ffffff; --text: #000000; --quiet: #444444; --line: #bbbbbb; --panel: #f4f4f4; --link: #000000; --alarm: #8f1d1d; --mark: #555555; --edge: transparent; }
@page { margin: 16mm 15mm; } .formula { font-size: 0.8em; }
html { font-size: 10.5pt; } main { display: block; } header, main, footer { max-width: none; padding: 0; } nav.contents, .skip, button, details.code, details.ledger { display: none; }
.live { display: none !important; } .still { display: block !important; }
.wide, .long, .formula, pre { overflow: visible; max-height: none; } .long { border: 0; padding: 0; } .long thead th { position: static; } .many table { width: auto; font-size: 7pt; } .screen-only { display: none; } .paper-only { display: block; } table.paper-only { display: table; margin: 0.8em 0; font-size: 7pt; } td.number { white-space: normal; } td.prose { min-width: 6rem; } pre { white-space: pre-wrap; } table { font-size: 8pt; } th, td { padding-right: 0.6em; overflow-wrap: break-word; } tbody th { min-width: 0; overflow-wrap: break-word; }
tr, figure, .answers li { break-inside: avoid; } h2, h3, h4 { break-after: avoid; } a { text-decoration: none; }
}
`.trim();
